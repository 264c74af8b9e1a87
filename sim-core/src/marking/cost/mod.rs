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
