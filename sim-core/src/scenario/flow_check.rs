//! The flow check of a sampler against a standard, between two calibrations or right after one.

use serde::{Deserialize, Serialize};

use crate::field_book::Field;
use crate::time::Date;

/// The flow check that is ordered.
///
/// The standard is the calibrator of the work order: the crew's for a flow check, a second one for an
/// audit. It is mounted above a filter, with the blower on its controller, so that the sampler is
/// checked as it runs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename = "FlowCheck", deny_unknown_fields)]
pub struct FlowCheckOrder {
    /// How many times standard and pen are read, 1 to 12.
    pub readings: u8,
    /// The largest percent difference allowed between calibration line and standard, or between the
    /// ordered flow and the standard where no line is checked, percent of the standard's flow.
    pub within_pct: f64,
    /// Which calibration line is checked.
    #[serde(default)]
    pub line: CheckedLine,
    /// When the last check was passed: if this one fails, the samples since then are in doubt.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last_good: Option<Date>,
    /// Where the flow of the run is taken from.
    #[serde(default)]
    pub flow_of_run: FlowOfRun,
}

impl FlowCheckOrder {
    /// Whether it is the whole job: then no line is made.
    pub fn is_whole_job(&self) -> bool {
        self.line != CheckedLine::Own
    }

    /// The flows and their difference that such a check comes to.
    pub const fn sums(&self) -> &'static [Field] {
        match self.line {
            CheckedLine::Own | CheckedLine::Last => {
                &[Field::CheckFlow, Field::CheckLineFlow, Field::CheckDifference]
            }
            CheckedLine::ControlledFlow => &[Field::CheckFlow, Field::CheckDifference],
        }
    }
}

/// Which calibration line is checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum CheckedLine {
    /// The one that the trainee has just made.
    #[default]
    Own,
    /// The last one, on the work order: the check is the whole job.
    Last,
    /// None. The sampler is calibrated at its controlled flow alone, and that is the whole job: the
    /// controller is trimmed until the standard shows the ordered flow, and from then on the pen shows
    /// no more than changes of it (40 CFR Part 50 App. B, 9.4, MEMORY).
    ControlledFlow,
}

/// Where the flow of a run is taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum FlowOfRun {
    /// From the calibration line.
    #[default]
    Line,
    /// From the check: the controller holds the flow that the standard showed, and the pen shows how
    /// much it has changed since (40 CFR Part 50 App. B, 9.4, MEMORY: a flow-controlled sampler may be
    /// calibrated at its controlled flow alone, its indicator showing changes).
    Check,
}
