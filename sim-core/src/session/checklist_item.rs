//! The phases of an order as a paper checklist has them.

use serde::{Deserialize, Serialize};

use crate::scenario::lesson::LessonPhase;
use crate::scenario::setup::{SessionTerms, WorkOrder};

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
}
