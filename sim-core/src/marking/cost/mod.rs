//! What each slip cost: how far it moves the volume that the trainee would report for a run of a
//! day.
//!
//! # The run
//!
//! The sampler is set so that its recorder shows the trainee's set point I (chart divisions) for t
//! = 1440 min in the air that the work order expects, P mmHg and T K ([`CostedRun`]). The trainee's
//! line gives V_own = Q_own(I) t, Q_own = (f(I) - B)/M, with the corrected chart reading f for the
//! recorder on the bench (on a square-root chart I sqrt(P/760 298/T)); the rig samples V_true =
//! Q_true(I) t, with Q_true of [`truth::true_response`](super::truth::true_response) in that air.
//!
//! # A slip undone
//!
//! The session is replayed on the same bench: the same actions at the same ticks, with that one
//! slip undone. Each reading w becomes s' + (w - s), where s is what a perfect reader saw when it
//! was taken, and s' what such a reader sees at that moment of the replayed session: the trainee's
//! reading errors stay. The calculations are repeated from these readings, and
//!
//! ```text
//! cost = 100 (V_sums - V_undone)/V_undone percent
//! ```
//!
//! with V_sums calculated again from the trainee's readings, and V_undone from the readings with
//! the slip undone, both at the same I. So an arithmetic slip has a cost of its own (V_own against
//! V_sums) and does not affect any other. A fault in force is removed from the bench in the same
//! way, whether it was noticed or not, unless it was corrected or allowed for.
//!
//! A fault of recorder or blower stays in the sampler and also affects the run. In that case
//! V_undone is scaled by Q_true(I) over the Q_true(I) of the bench without the fault: what counts
//! is how far a volume is from the true one, with the fault and without.
//!
//! A set point that does not follow from the trainee's line makes the sampler draw another flow,
//! and the line reads that flow as well as any other. Its cost is the actual flow against the
//! intended one, and it stands by itself: neither in the sum nor in the waterfall.
//!
//! # The sample
//!
//! If a run was made, its slips are expressed in the volume of that sample. For a slip in reading
//! or calculating, the calculations of the run are repeated with that one value as it was visible.
//! For a slip in handling or a fault of the run, the session is replayed through the day of the run
//! with that one thing undone, and the air that passed through the filter is compared. These costs
//! stand by themselves, neither in the sum nor in the waterfall, which concern the calibration
//! line.
//!
//! # Together
//!
//! Slips that one repair undoes, and a fault that the same repair undoes, are replayed once and
//! counted once ([`Cost::counted_with`]). When all counted ones are undone together, the trainee's
//! reading errors and the bias of the method remain (`remaining_pct`, against V_true). Costs do not
//! simply add up: `interaction_pct` is their sum minus the cost of all together.
//!
//! The waterfall undoes one after the other in the order of the work, so that its steps add up
//! exactly from V_own through all repaired to V_true. Each step is the change from undoing that
//! slip after all those above it; it differs from the cost of the slip alone by their interaction.

mod attribution;
mod causes;
mod context;
mod costs;
mod edits;
mod openings;
mod reread;
mod run;
mod sample;
mod undo;

pub use attribution::costs;
pub use costs::{Cost, CostOf, Costs, WaterfallStep};
pub use run::{ChartFrom, CostedRun};
