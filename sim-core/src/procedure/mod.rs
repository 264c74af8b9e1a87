//! The rules of the work: how each can be broken, found and explained.
//!
//! | file | phase |
//! |---|---|
//! | [`thunder`], [`arrive`], [`certificate`] | A: weather, roof, certificate, conditions |
//! | [`strip`] | B: sampler dead, plate and calibrator on |
//! | [`manometer`], [`fluid`] | C: hung, zeroed, connected; its fluid kept and liquid |
//! | [`power`] | D: blower on mains, warm-up, leak check |
//! | [`points`], [`reading`] | E: the points and their readings |
//! | [`restore`] | F: everything back |
//! | [`sums`], [`decision`] | G: flows, corrected chart readings, line, decision |
//! | [`set_point`] | H: target flow and set point |
//! | [`flow_check`] | the flow check against a standard |
//! | [`history`] | today's check on the control chart, and what the chart shows |
//! | [`filter`] | I: the filter |
//! | [`load`] | I: controller, timer, chart; that the run was made |
//! | [`added_filters`] | I: the controller tested with more filters |
//! | [`recover`] | K: elapsed-time meter, end reading, chart, filter, chain of custody |
//! | [`next_run`] | K: the sampler set up for the next run |
//! | [`volume`] | L: minutes, means, volume, concentration, valid or not |
//! | [`lesson`] | which of them are assessed in a lesson |
//! | [`rules`] | all of them: outcomes, findings, and what the record lacks |
//!
//! What was read when is found once, in the one record of [`readings`]. Rules about readings look at
//! the moment of the look, and hold for points and flow checks alike.
//!
//! Each rule has one of four [outcomes](Outcome): kept, broken, not reached, or not to be judged,
//! because the record lacks something. A rule that the work never came to is not kept.
//!
//! To add a rule: write a `static` next to similar ones, list it in [`RULES`], and give the test
//! table one session that keeps it, one that breaks only it, and one in which it is not reached.
//!
//! Which rules decide ([`Decides::Always`] or [`Decides::AsHabit`]): those whose breach hurts people, or
//! spoils the data while r, the residuals and the look of the record stay as they should be. What costs
//! a few hundredths of a percent of the volume costs marks only, such as reading a flow before two
//! minutes are over.
//!
//! * The certificate of another calibrator, an expired or miscopied one, or the wrong pair;
//!   sea-level pressure.
//! * A loose plate; a manometer that is not zeroed, or whose zero nobody saw;
//!   shut valves; a frozen column; a tube that carries no pressure; a blower on its controller; no warm-up.
//! * Too few points for a line, points that crowd together, or a target outside them; and at most of
//!   the points: no tapping, only one leg, legs not added, parallax, the expression of another
//!   recorder, or invented values.
//! * A wrong decision, a design flow taken for one at standard conditions, three false alarms, no
//!   signature.
//! * Flow check: not made, made on a sampler that is not as it runs or with a manometer that does not
//!   show the pressure, wrongly called passed or failed; its control chart misread.
//! * Run: not made; left without a fresh and sound filter, a trace or the timer in charge; a sample
//!   wrongly called valid or not valid.
//! * Added filters: not all of them tried, the wrong number called held, or one left on for the run.
//! * Next run: the sampler left without a fresh and sound filter, or with its timer set for another
//!   time.
//! * A record that lacks what one of these rules is judged by.

pub mod added_filters;
pub mod arrive;
pub mod certificate;
pub mod decision;
mod display;
pub mod evidence;
pub(crate) mod faults;
pub mod filter;
pub mod flow_check;
pub mod fluid;
pub mod history;
pub(crate) mod inspection;
pub(crate) mod instrument;
pub(crate) mod knowable;
pub mod known_signs;
pub mod lesson;
pub mod load;
pub mod manometer;
pub mod next_run;
mod occasions;
pub mod outcome;
pub(crate) mod own_sums;
mod plates;
pub mod points;
pub mod power;
pub mod reading;
pub mod readings;
pub mod recover;
pub(crate) mod reports;
pub mod restore;
mod rows;
pub mod rule;
pub mod rules;
pub mod set_point;
mod slip;
mod stopping;
pub mod strip;
pub mod sums;
pub mod thunder;
mod true_response;
pub mod volume;
pub mod worked_out;

#[cfg(test)]
mod rule_tests;
#[cfg(test)]
pub(crate) mod test_bench;

pub use evidence::{Ending, Evidence};
pub use instrument::Instrument;
pub use outcome::{Outcome, OutcomeKind, RuleJudged};
pub use readings::Reading;
pub use rule::{
    Decides, ProcedureFinding, ProcedureRule, Repair, RuleSource, Severity, Slip, SourceMark,
    WorkPhase,
};
pub use rules::{RULES, RulesJudged, findings, fits_instruments, judge, rule};
pub use true_response::TrueResponse;
