//! The procedure at a glance: the phases of an order as a paper checklist has them. The trainee ticks
//! them; nothing else ever does, and no mark depends on it.
//!
//! A tick is an action, so that the journal shows when it was made. The state of the session does not
//! hold it: which items are ticked follows from the actions alone.

use std::collections::BTreeSet;

use super::action::Action;
use super::checklist_item::{ChecklistItem, TickMark};

impl ChecklistItem {
    /// The items that are ticked after these actions.
    pub fn ticked<'a>(done: impl IntoIterator<Item = &'a Action>) -> BTreeSet<Self> {
        let mut ticked = BTreeSet::new();
        for action in done {
            match action {
                Action::MarkChecklist { item, to: TickMark::Ticked } => {
                    ticked.insert(*item);
                }
                Action::MarkChecklist { item, to: TickMark::Open } => {
                    ticked.remove(item);
                }
                _ => {}
            }
        }
        ticked
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::{ActError, Session};

    const FIRST: &str = include_str!("../../../scenarios/01_first_calibration.ron");
    const SITTING: &str = include_str!("../../../scenarios/26_sitting.ron");
    const CHECK: &str = include_str!("../../../scenarios/36_the_orchard.ron");
    const NEXT_RUN: &str = include_str!("../../../scenarios/31_one_in_one_on.ron");

    const LESSON: &str = include_str!("../../../scenarios/lessons/5_seven_flows.ron");

    fn begun(text: &str) -> Session {
        crate::operator::begin_unrecorded(text, 1).expect("a session")
    }

    fn mark(item: ChecklistItem, to: TickMark) -> Action {
        Action::MarkChecklist { item, to }
    }

    fn items(text: &str) -> Vec<ChecklistItem> {
        let session = begun(text);
        let papers = session.papers();
        ChecklistItem::of(papers.work_order, papers.terms)
    }

    #[test]
    fn each_order_has_the_items_that_it_asks_for() {
        let calibration = items(FIRST);
        assert!(calibration.contains(&ChecklistItem::Points));
        assert!(!calibration.contains(&ChecklistItem::Volume));
        let check = items(CHECK);
        assert!(check.contains(&ChecklistItem::ControlChart));
        assert!(check.contains(&ChecklistItem::FlowCheck));
        assert!(!check.contains(&ChecklistItem::Points));
        let whole = items(NEXT_RUN);
        assert!(whole.contains(&ChecklistItem::Volume) && whole.contains(&ChecklistItem::NextRun));
        assert!(whole.is_sorted(), "they stand in the order of the work");
        let points = items(LESSON);
        assert_eq!(
            points,
            [ChecklistItem::Points, ChecklistItem::FieldBook],
            "a lesson has its own"
        );
    }

    #[test]
    fn a_tick_follows_from_the_actions_and_can_be_taken_back() {
        let mut session = begun(FIRST);
        for item in [ChecklistItem::Papers, ChecklistItem::Conditions] {
            session.act(mark(item, TickMark::Ticked)).expect("it is allowed");
        }
        session.act(mark(ChecklistItem::Papers, TickMark::Open)).expect("it is allowed");
        let ticked = ChecklistItem::ticked(session.done().map(|(_, action)| action));
        assert_eq!(ticked.into_iter().collect::<Vec<_>>(), [ChecklistItem::Conditions]);
    }

    #[test]
    fn what_this_order_does_not_have_or_the_scenario_forbids_is_refused() {
        let volume = mark(ChecklistItem::Volume, TickMark::Ticked);
        assert!(matches!(begun(FIRST).act(volume), Err(ActError::Refused(_))));
        let papers = || mark(ChecklistItem::Papers, TickMark::Ticked);
        assert!(matches!(begun(SITTING).act(papers()), Err(ActError::Refused(_))));
        let allowed = SITTING.replace("help: false,", "help: false, checklist: true,");
        begun(&allowed).act(papers()).expect("the scenario allows it");
        let forbidden = FIRST.replace("terms: (", "terms: (checklist: false, ");
        assert!(matches!(begun(&forbidden).act(papers()), Err(ActError::Refused(_))));
    }

    #[test]
    fn a_tick_changes_nothing_on_the_bench_but_its_second() {
        let (mut ticked, mut waited) = (begun(FIRST), begun(FIRST));
        ticked.act(mark(ChecklistItem::Papers, TickMark::Ticked)).expect("it is allowed");
        ticked.finish_hands().expect("time passes");
        waited.advance(ticked.now().0).expect("time passes");
        assert_eq!(ticked.view(), waited.view());
    }
}
