//! Every form of sentence, by topic.

use super::form::Form;
use super::{
    air, asking, checklist, deciding, flow, looking, manometer, mounting, power, recorder, remarks,
    run, writing,
};
use crate::topic::Topic;

/// The forms of a topic: the table that the help prints, the tests go through and `parse` reads.
pub(crate) fn forms(topic: Topic) -> &'static [Form] {
    match topic {
        Topic::Looking => looking::FORMS,
        Topic::Air => air::FORMS,
        Topic::Mounting => mounting::FORMS,
        Topic::Manometer => manometer::FORMS,
        Topic::Power => power::FORMS,
        Topic::Flow => flow::FORMS,
        Topic::Recorder => recorder::FORMS,
        Topic::Run => run::FORMS,
        Topic::Writing => writing::FORMS,
        Topic::Deciding => deciding::FORMS,
        Topic::Reporting => remarks::FORMS,
        Topic::Checklist => checklist::FORMS,
        Topic::Asking => asking::FORMS,
        Topic::Musts | Topic::All => &[],
    }
}
