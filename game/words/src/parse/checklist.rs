//! The checklist: looking at it, ticking it.

use sim_core::session::action::{Action, ChecklistItem, TickMark};

use super::form::{Form, form, one};
use crate::names::Names;
use crate::request::Request;

/// What the items are called; the name that is printed comes first.
pub(crate) const CHECKLIST_ITEMS: Names<ChecklistItem> = &[
    ("papers and weather", ChecklistItem::Papers),
    ("papers", ChecklistItem::Papers),
    ("air conditions", ChecklistItem::Conditions),
    ("conditions", ChecklistItem::Conditions),
    ("air", ChecklistItem::Conditions),
    ("mounting", ChecklistItem::Mounting),
    ("manometer", ChecklistItem::Manometer),
    ("warm-up", ChecklistItem::WarmUp),
    ("warm up", ChecklistItem::WarmUp),
    ("leak check", ChecklistItem::LeakCheck),
    ("leak-check", ChecklistItem::LeakCheck),
    ("points", ChecklistItem::Points),
    ("calculations", ChecklistItem::Calculations),
    ("sums", ChecklistItem::Calculations),
    ("set point", ChecklistItem::SetPoint),
    ("flow check", ChecklistItem::FlowCheck),
    ("control chart", ChecklistItem::ControlChart),
    ("restoring", ChecklistItem::Restoring),
    ("setting up run", ChecklistItem::SettingUp),
    ("setting up", ChecklistItem::SettingUp),
    ("recovering sample", ChecklistItem::Recovering),
    ("recovering", ChecklistItem::Recovering),
    ("next run", ChecklistItem::NextRun),
    ("volume", ChecklistItem::Volume),
    ("field book", ChecklistItem::FieldBook),
    ("book", ChecklistItem::FieldBook),
];

pub(super) const FORMS: &[Form] = &[
    form(
        &["show|read|open|unfold? checklist", "look at? checklist", "procedure at? glance?"],
        &["checklist"],
        "the phases of this job, where the scenario allows it",
        |_, _| Ok(Request::Checklist),
    ),
    form(
        &["tick|check off? <checklist-item>", "tick <checklist-item> off|done?"],
        &["tick manometer", "tick papers and weather"],
        "an item of the checklist",
        |caught, _| {
            let item = caught.checklist_item()?;
            one(Action::MarkChecklist { item, to: TickMark::Ticked })
        },
    ),
    form(
        &["untick <checklist-item>", "strike|cross out? tick at|from|for|beside <checklist-item>"],
        &["untick manometer"],
        "strikes out its tick",
        |caught, _| {
            let item = caught.checklist_item()?;
            one(Action::MarkChecklist { item, to: TickMark::Open })
        },
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_item_is_called_by_its_printed_name_first() {
        for item in ChecklistItem::ALL {
            let (first, _) =
                CHECKLIST_ITEMS.iter().find(|(_, named)| *named == item).expect("a name");
            assert_eq!(first.replace("the ", ""), item.name().replace("the ", ""));
        }
    }
}
