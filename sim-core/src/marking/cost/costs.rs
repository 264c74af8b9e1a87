//! What the slips of a session cost, as it is reported.

use serde::Serialize;

use super::run::CostedRun;
use crate::procedure::Repair;

/// What a session's slips cost.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Costs {
    /// The run to which all volumes belong; none when no chart reading gives the ordered flow.
    pub run: Option<CostedRun>,
    /// Volume by the trainee's line, standard m3; none without a line that covers this run.
    pub own_volume_m3: Option<f64>,
    /// Volume by the calculations repeated from the trainee's readings, standard m3.
    pub sums_redone_m3: Option<f64>,
    /// Volume actually sampled, standard m3.
    pub true_volume_m3: Option<f64>,
    /// Each broken rule that has a repair and each fault in force, in the order of the work.
    pub each: Vec<Cost>,
    /// Volume by the readings with every slip and fault undone, standard m3.
    pub all_repaired_m3: Option<f64>,
    /// What all of them cost together, percent of the volume with all undone.
    pub together_pct: Option<f64>,
    /// What remains after that, percent of the true volume.
    pub remaining_pct: Option<f64>,
    /// How much the sum of the single costs exceeds the cost of all together, percent.
    pub interaction_pct: Option<f64>,
    /// From the trainee's volume to the true one. Empty without both.
    pub waterfall: Vec<WaterfallStep>,
    /// Notes about all of it.
    pub notes: Vec<String>,
}

/// What one slip or fault cost.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cost {
    /// Id of the rule, or name of the fault.
    pub id: &'static str,
    /// Whether it is a slip or a fault.
    pub of: CostOf,
    /// The rule's title, or the fault in words.
    pub title: String,
    /// What undoes it; none for a fault.
    pub repair: Option<Repair>,
    /// The volume with it undone, standard m3.
    pub volume_m3: Option<f64>,
    /// Its cost, percent of that volume; positive when it makes the reported volume too large.
    pub cost_pct: Option<f64>,
    /// The entry with which it is counted, if not in its own.
    pub counted_with: Option<&'static str>,
    /// A note about it.
    pub note: String,
}

/// What a cost belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CostOf {
    /// A rule that was broken.
    Rule,
    /// A fault that was in force.
    Fault,
}

/// A step of the waterfall.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WaterfallStep {
    /// Id of the rule, name of the fault, or `sums`, `expression`, `remainder`.
    pub id: &'static str,
    /// What is undone.
    pub title: String,
    /// The volume before, standard m3.
    pub from_m3: f64,
    /// The volume after, standard m3.
    pub to_m3: f64,
    /// The change, percent of the true volume.
    pub change_pct: f64,
}
