//! The procedure at a glance: the phases of an order as a paper checklist has them. The trainee ticks
//! them; nothing else ever does, and no mark depends on it.
//!
//! A tick is an action, so that the journal shows when it was made. The state of the session does not
//! hold it: which items are ticked follows from the actions alone.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::action::Action;
use super::apply::Refusal;
use super::apply::refusal::refuse;
use crate::scenario::lesson::LessonPhase;
use crate::scenario::setup::{SessionTerms, Setup, WorkOrder};

/// A phase of the work as a checklist has it.
///
/// The names in journals and JSON are stable.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ChecklistItem {
    /// Work order, weather, roof edge and ladder, certificate.
    Papers,
    /// Pressure and temperature of the air.
    Conditions,
    /// Sampler dead, filter out or in as ordered, adapter plate and calibrator on.
    Mounting,
    /// Manometer hung, checked, zeroed and connected.
    Manometer,
    /// Blower on its supply and warm.
    WarmUp,
    /// Gaskets, nuts and openings.
    LeakCheck,
    /// The points of the calibration.
    Points,
    /// The calculations, and the decision about the line.
    Calculations,
    /// The chart reading for the ordered flow.
    SetPoint,
    /// The flow check against a standard.
    FlowCheck,
    /// The control chart of the sampler.
    ControlChart,
    /// Calibrator and manometer off, everything back as it was.
    Restoring,
    /// Filter, controller, timer and chart set up for the run.
    SettingUp,
    /// Sample and chart recovered.
    Recovering,
    /// The sampler set up for the next run.
    NextRun,
    /// Volume, concentration, and whether the sample is valid.
    Volume,
    /// Everything written, and the field book read through.
    FieldBook,
}

/// Whether an item is ticked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TickMark {
    /// It is ticked.
    Ticked,
    /// It is not, or its tick is struck out.
    Open,
}

impl ChecklistItem {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 17] = [
        Self::Papers,
        Self::Conditions,
        Self::Mounting,
        Self::Manometer,
        Self::WarmUp,
        Self::LeakCheck,
        Self::Points,
        Self::Calculations,
        Self::SetPoint,
        Self::FlowCheck,
        Self::ControlChart,
        Self::Restoring,
        Self::SettingUp,
        Self::Recovering,
        Self::NextRun,
        Self::Volume,
        Self::FieldBook,
    ];

    /// Its name, as a person says it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Papers => "papers and weather",
            Self::Conditions => "air conditions",
            Self::Mounting => "mounting",
            Self::Manometer => "manometer",
            Self::WarmUp => "warm-up",
            Self::LeakCheck => "leak check",
            Self::Points => "points",
            Self::Calculations => "calculations",
            Self::SetPoint => "set point",
            Self::FlowCheck => "flow check",
            Self::ControlChart => "control chart",
            Self::Restoring => "restoring",
            Self::SettingUp => "setting up the run",
            Self::Recovering => "recovering the sample",
            Self::NextRun => "next run",
            Self::Volume => "volume",
            Self::FieldBook => "field book",
        }
    }

    /// What the checklist prints beside it.
    pub const fn printed(self) -> &'static str {
        match self {
            Self::Papers => {
                "Work order read. Weather, roof edge and ladder looked at. Certificate: number, date, pair."
            }
            Self::Conditions => "Station pressure and air temperature read and written.",
            Self::Mounting => {
                "Power off and plug out before hands go in. Calibrator on, nuts even, gaskets in."
            }
            Self::Manometer => "Hung, both valves open, zeroed. Tubing inspected and on its tap.",
            Self::WarmUp => "Blower on the supply that the job needs, and warm.",
            Self::LeakCheck => "Manometer shut off, openings covered, listened.",
            Self::Points => "Each flow settled, recorder tapped, readings written, chart marked.",
            Self::Calculations => "Flows, corrected chart readings, line. Compared and decided.",
            Self::SetPoint => "Chart reading for the ordered flow in the air of the run.",
            Self::FlowCheck => "Readings of standard and pen as ordered, difference, outcome.",
            Self::ControlChart => "Check entered, chart read, conclusion written.",
            Self::Restoring => {
                "Blower off. Manometer and calibrator off and in the case. Lid closed."
            }
            Self::SettingUp => {
                "Fresh filter, controller, timer and trippers, fresh chart, pen down."
            }
            Self::Recovering => "Filter folded and in its envelope, chart taken, meter read.",
            Self::NextRun => "Fresh filter, trippers, clock, fresh chart, pen down.",
            Self::Volume => "Mean of the chart, minutes, volume, concentration. Valid or not.",
            Self::FieldBook => "Nothing blank, remarks made. Read through, then sign.",
        }
    }

    /// The items of an order, in the order of the work; in a lesson, those of its phases.
    pub fn of(order: &WorkOrder, terms: &SessionTerms) -> Vec<Self> {
        let check_alone = order.is_check_alone();
        let is_ordered = |item: &Self| match item {
            Self::Points | Self::SetPoint => !check_alone,
            Self::FlowCheck => order.flow_check.is_some(),
            Self::ControlChart => order.history.is_some(),
            Self::SettingUp | Self::Recovering | Self::Volume => order.run.is_some(),
            Self::NextRun => order.next_run().is_some(),
            _ => true,
        };
        let is_taught = |item: &Self| {
            let phases = terms.phases;
            phases.is_none_or(|phases| item.phase().is_none_or(|phase| phases.has(phase)))
        };
        Self::ALL.into_iter().filter(is_ordered).filter(is_taught).collect()
    }

    /// The phase of lessons to which it belongs; none for reading through the book, which ends them all.
    pub const fn phase(self) -> Option<LessonPhase> {
        Some(match self {
            Self::Papers | Self::Conditions => LessonPhase::Arrival,
            Self::Mounting => LessonPhase::Mounting,
            Self::Manometer => LessonPhase::Manometer,
            Self::WarmUp | Self::LeakCheck => LessonPhase::Power,
            Self::Points => LessonPhase::Points,
            Self::Calculations | Self::SetPoint => LessonPhase::Calculations,
            Self::FlowCheck | Self::ControlChart => LessonPhase::FlowCheck,
            Self::Restoring => LessonPhase::Restoring,
            Self::SettingUp => LessonPhase::SettingUp,
            Self::Recovering | Self::NextRun => LessonPhase::Recovery,
            Self::Volume => LessonPhase::Volume,
            Self::FieldBook => return None,
        })
    }

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

/// Whether an item may be marked: the scenario allows the checklist, and this order's has the item.
pub(super) fn may_mark(setup: &Setup, item: ChecklistItem) -> Result<(), Refusal> {
    if !setup.terms.allows_checklist() {
        return refuse("this scenario does not allow a checklist");
    }
    if !ChecklistItem::of(&setup.work_order, &setup.terms).contains(&item) {
        return refuse(format!(
            "the checklist of this order has no item `{}`: tick one that it has",
            item.name()
        ));
    }
    Ok(())
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
