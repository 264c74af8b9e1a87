//! The check of a sampler's flow against a standard, between two calibrations or right after one.

use serde::{Deserialize, Serialize};

use crate::time::Date;

/// What is ordered.
///
/// The standard is the calibrator of the work order: the crew's own for a flow check, a second one
/// for an audit. It stands above a filter, the flow on its controller, so that what is checked is
/// what runs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename = "FlowCheck", deny_unknown_fields)]
pub struct FlowCheckOrder {
    /// How often standard and pen are read, 1 to 12.
    pub readings: u8,
    /// By how much the line may differ from the standard, percent of the standard's flow.
    pub within_pct: f64,
    /// Which line is checked.
    #[serde(default)]
    pub line: CheckedLine,
    /// When the last check was passed: what was sampled since then falls with this one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last_good: Option<Date>,
    /// From what the flow of the run is taken.
    #[serde(default)]
    pub flow_of_run: FlowOfRun,
}

/// Which line is checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum CheckedLine {
    /// The one that the trainee has just made.
    #[default]
    Own,
    /// The last one, on the work order: the check is all that is to be done.
    Last,
}

/// From what the flow of a run is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum FlowOfRun {
    /// From the line.
    #[default]
    Line,
    /// From the check: the controller holds the flow that the standard told, and the pen tells by how
    /// much it changed since (40 CFR Part 50 App. B, 9.4, from memory: a flow-controlled sampler may be
    /// calibrated at its controlled flow alone, its indicator showing changes).
    Check,
}
