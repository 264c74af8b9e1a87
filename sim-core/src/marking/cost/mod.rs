//! What each slip cost, in the volume that a day's run is told to have drawn.
//!
//! # The run
//!
//! The sampler is set so that its recorder shows the trainee's set point I (chart divisions) for
//! t = 1440 min in the air that the work order expects, P mmHg and T K ([`CostedRun`]). The trainee reads
//! V_own = Q_own(I) t off their own line, Q_own = (f(I) - B)/M, with the chart term f of the recorder
//! on the bench (on a square-root chart I sqrt(P/760 298/T)); the rig draws V_true =
//! Q_true(I) t, with Q_true of [`truth::true_response`](super::truth::true_response) in that air.
//!
//! # A slip undone
//!
//! The session is had again on the same bench: the same actions at the same ticks, with that one
//! slip undone. Each reading w becomes s' + (w - s), where s is what a perfect reader saw when it
//! was taken and s' what such a reader sees at that moment in the session had again: the trainee's
//! own reading errors stay. The sums are done again from these readings, and
//!
//! ```text
//! cost = 100 (V_sums - V_undone)/V_undone percent
//! ```
//!
//! with V_sums of the trainee's own readings, sums done again, and V_undone of the readings with the
//! slip undone, both at the same I. So a slip of arithmetic is a cost of its own (V_own against
//! V_sums) and leaks into no other. A fault in force is left out of the bench in the same way,
//! noticed or not, unless it was put right or allowed for.
//!
//! A fault of recorder or blower stays in the sampler and is in the run as well. There V_undone is scaled
//! by Q_true(I) over the Q_true(I) of the bench without the fault: what counts is how far a volume is
//! off the true one, with the fault and without.
//!
//! A set point that does not follow from the own line makes the sampler draw another flow; the line
//! reads that flow as well as any. Its cost is the flow drawn against the one that was to be drawn,
//! and it stands by itself: neither in the sum nor in the waterfall.
//!
//! # The sample
//!
//! Where a run was made, its slips are told in the volume of that sample. A slip of reading or
//! reckoning: the sums of the run done again with that one value as it was to be seen. A slip of the
//! hands or a fault of the run: the session had again through its day with that one thing undone, and
//! what passed the filter compared. They stand by themselves, neither in the sum nor in the waterfall,
//! which are about the line.
//!
//! # Together
//!
//! Slips that one repair undoes, and a fault that such a repair undoes as well, are had again once
//! and counted once ([`Cost::counted_with`]). All counted ones undone together leave the trainee's
//! reading errors and what the method leaves (`remaining_pct`, against V_true). Costs do not simply
//! add: `interaction_pct` is their sum less the cost of all together.
//!
//! The waterfall undoes one after the other in the order of the work, so that its steps add up
//! exactly from V_own through all repaired to V_true; a step is what undoing it changes after those
//! above it, and differs from the cost of the slip alone by their interaction.

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
    /// The run that all volumes are of; none when no chart reading means the ordered flow.
    pub run: Option<CostedRun>,
    /// By the trainee's line, standard m3; none without a line that reads this run.
    pub own_volume_m3: Option<f64>,
    /// By the sums done again from the trainee's readings, standard m3.
    pub sums_redone_m3: Option<f64>,
    /// What is truly drawn, standard m3.
    pub true_volume_m3: Option<f64>,
    /// Each broken rule with a repair and each fault in force, in the order of the work.
    pub each: Vec<Cost>,
    /// By the readings with all of it undone, standard m3.
    pub all_repaired_m3: Option<f64>,
    /// What all of it cost together, percent of the volume with all undone.
    pub together_pct: Option<f64>,
    /// What is left after it, percent of the true volume.
    pub remaining_pct: Option<f64>,
    /// By how much the single costs sum to more than the cost of all together, percent.
    pub interaction_pct: Option<f64>,
    /// From the own volume to the true one. Empty without both.
    pub waterfall: Vec<WaterfallStep>,
    /// What is to be said about all of it.
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
    /// Its cost, percent of that volume; positive when the trainee is told too much.
    pub cost_pct: Option<f64>,
    /// The line in which it is counted, when it is not counted in its own.
    pub counted_with: Option<&'static str>,
    /// What is to be said about it.
    pub note: String,
}

/// What a cost is of.
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

/// Works out what each slip of a session cost. Pure, and the same to the last bit each time; it has
/// the session again about twice for each different repair.
pub fn costs(signed: &EndedSession, marks: &Marks) -> Costs {
    attribution::costs(signed, marks)
}

/// By how much one volume is more than another, percent of the other.
fn percent(volume: f64, of: f64) -> Option<f64> {
    let percent = 100.0 * (volume - of) / of;
    percent.is_finite().then_some(percent)
}
