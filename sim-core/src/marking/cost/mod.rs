//! What each slip cost: how far it moves the volume that the trainee would report for a run of a day.
//!
//! # The run
//!
//! The sampler is set so that its recorder shows the trainee's set point I (chart divisions) for
//! t = 1440 min in the air that the work order expects, P mmHg and T K ([`CostedRun`]). The trainee's line
//! gives V_own = Q_own(I) t, Q_own = (f(I) - B)/M, with the corrected chart reading f for the recorder
//! on the bench (on a square-root chart I sqrt(P/760 298/T)); the rig samples V_true = Q_true(I) t,
//! with Q_true of [`truth::true_response`](super::truth::true_response) in that air.
//!
//! # A slip undone
//!
//! The session is replayed on the same bench: the same actions at the same ticks, with that one slip
//! undone. Each reading w becomes s' + (w - s), where s is what a perfect reader saw when it was taken,
//! and s' what such a reader sees at that moment of the replayed session: the trainee's reading errors
//! stay. The calculations are repeated from these readings, and
//!
//! ```text
//! cost = 100 (V_sums - V_undone)/V_undone percent
//! ```
//!
//! with V_sums calculated again from the trainee's readings, and V_undone from the readings with the
//! slip undone, both at the same I. So an arithmetic slip has a cost of its own (V_own against V_sums)
//! and does not affect any other. A fault in force is removed from the bench in the same way, whether
//! it was noticed or not, unless it was corrected or allowed for.
//!
//! A fault of recorder or blower stays in the sampler and also affects the run. In that case V_undone
//! is scaled by Q_true(I) over the Q_true(I) of the bench without the fault: what counts is how far a
//! volume is from the true one, with the fault and without.
//!
//! A set point that does not follow from the trainee's line makes the sampler draw another flow, and
//! the line reads that flow as well as any other. Its cost is the actual flow against the intended
//! one, and it stands by itself: neither in the sum nor in the waterfall.
//!
//! # The sample
//!
//! If a run was made, its slips are expressed in the volume of that sample. For a slip in reading or
//! calculating, the calculations of the run are repeated with that one value as it was visible. For a
//! slip in handling or a fault of the run, the session is replayed through the day of the run with that
//! one thing undone, and the air that passed through the filter is compared. These costs stand by
//! themselves, neither in the sum nor in the waterfall, which concern the calibration line.
//!
//! # Together
//!
//! Slips that one repair undoes, and a fault that the same repair undoes, are replayed once and counted
//! once ([`Cost::counted_with`]). When all counted ones are undone together, the trainee's reading
//! errors and the bias of the method remain (`remaining_pct`, against V_true). Costs do not simply add
//! up: `interaction_pct` is their sum minus the cost of all together.
//!
//! The waterfall undoes one after the other in the order of the work, so that its steps add up exactly
//! from V_own through all repaired to V_true. Each step is the change from undoing that slip after all
//! those above it; it differs from the cost of the slip alone by their interaction.

mod attribution;
mod causes;
mod context;
mod edits;
mod openings;
mod reread;
mod run;
mod sample;
mod undo;

use serde::Serialize;

use super::Marks;
use crate::procedure::Repair;
use crate::session::ended_session::EndedSession;

pub use run::{ChartFrom, CostedRun};

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

/// Calculates what each slip of a session cost. It is a pure function with the same bits each time; it
/// replays the session about twice for each different repair.
pub fn costs(signed: &EndedSession, marks: &Marks) -> Costs {
    attribution::costs(signed, marks)
}

/// How much larger one volume is than another, percent of the other.
fn percent(volume: f64, of: f64) -> Option<f64> {
    let percent = 100.0 * (volume - of) / of;
    percent.is_finite().then_some(percent)
}
