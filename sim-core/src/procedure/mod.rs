//! The rules of the work: how each can be broken, found and explained.
//!
//! | file | phase |
//! |---|---|
//! | [`thunder`], [`arrive`], [`certificate`] | A: weather, roof, certificate, conditions |
//! | [`strip`] | B: sampler dead, plate and calibrator on |
//! | [`manometer`] | C: hung, zeroed, connected |
//! | [`power`] | D: blower on mains, warm-up, leak check |
//! | [`points`], [`reading`] | E: the points and their readings |
//! | [`restore`] | F: everything back |
//! | [`sums`], [`decision`] | G: flows, corrected chart readings, line, decision |
//! | [`set_point`] | H: target flow and set point |
//! | [`flow_check`] | the flow check against a standard |
//! | [`filter`] | I: the filter |
//! | [`load`] | I: controller, timer, chart; that the run was made |
//! | [`recover`] | K: elapsed-time meter, end reading, chart, filter, chain of custody |
//! | [`next_run`] | K: the sampler set up for the next run |
//! | [`volume`] | L: minutes, means, volume, concentration, valid or not |
//! | [`judged`] | all of them: outcomes, findings, and what the record lacks |
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
//! * A loose plate; a manometer whose zero nobody saw, or whose legs are shifted against each other;
//!   shut valves; a tube that carries no pressure; a blower on its controller; no warm-up.
//! * Too few points for a line, points that crowd together, or a target outside them; and at most of
//!   the points: no tapping, only one leg, legs not added, parallax, the expression of another
//!   recorder, or invented values.
//! * A wrong decision, a design flow taken for one at standard conditions, three false alarms, no
//!   signature.
//! * Flow check: not made, made on a sampler that is not as it runs or with a manometer that does not
//!   show the pressure, wrongly called passed or failed.
//! * Run: not made; left without a fresh and sound filter, a trace or the timer in charge; a sample
//!   wrongly called valid or not valid.
//! * Next run: the sampler left without a fresh and sound filter, or with its timer set for another
//!   time.
//! * A record that lacks what one of these rules is judged by.

pub mod arrive;
pub mod certificate;
pub mod decision;
pub mod evidence;
pub(crate) mod faults;
pub mod filter;
pub mod flow_check;
pub(crate) mod inspection;
pub(crate) mod instrument;
pub mod judged;
pub(crate) mod knowable;
pub mod known_signs;
pub mod load;
pub mod manometer;
pub mod next_run;
mod occasions;
pub mod outcome;
pub(crate) mod own_sums;
pub mod points;
pub mod power;
pub mod reading;
pub mod readings;
pub mod recover;
pub(crate) mod reports;
pub mod restore;
mod rows;
pub mod rule;
pub mod set_point;
mod stopping;
pub mod strip;
pub mod sums;
pub mod thunder;
mod true_response;
pub mod volume;

#[cfg(test)]
mod rule_tests;
#[cfg(test)]
pub(crate) mod test_bench;

pub use evidence::{Ending, Evidence};
pub use instrument::Instrument;
pub use judged::{RulesJudged, judge};
pub use outcome::{Outcome, OutcomeKind, RuleJudged};
pub use readings::Reading;
pub use rule::{
    Decides, ProcedureFinding, ProcedureRule, Repair, RuleSource, Severity, Slip, SourceMark,
    WorkPhase,
};
pub use true_response::TrueResponse;

/// Every rule in the order of the work.
pub static RULES: &[&ProcedureRule] = &[
    &thunder::THUNDER,
    &arrive::ROOF_EDGE,
    &certificate::CERTIFICATE_SERIAL,
    &certificate::CERTIFICATE_CURRENT,
    &certificate::CERTIFICATE_NAMED,
    &certificate::CERTIFICATE_COPIED,
    &certificate::STANDARD_PAIR,
    &arrive::STATION_PRESSURE,
    &arrive::THERMOMETER_SHADED,
    &arrive::CONDITIONS_AS_READ,
    &arrive::CONDITIONS_WRITTEN,
    &strip::DEAD_BEFORE_HANDS,
    &strip::ISOLATED,
    &strip::GASKETS,
    &strip::WASHERS,
    &strip::NUTS_EVEN,
    &strip::OPPOSITE_CORNERS,
    &strip::FILTER_OUT,
    &manometer::PLUMB,
    &manometer::VALVES_OPEN,
    &manometer::ZEROED,
    &manometer::ZERO_SEEN,
    &manometer::BLOW_THROUGH,
    &manometer::TUBE_CLEAR,
    &power::MOTOR_ON_LINE,
    &power::PEN_DOWN,
    &power::WARM_UP,
    &power::LEAK_CHECK,
    &power::BLOCKED_SHORTLY,
    &points::ENOUGH,
    &points::AS_ORDERED,
    &points::SPREAD,
    &points::TWO_MINUTES,
    &points::CHART_MARKED,
    &reading::TAPPED,
    &reading::PEN_AT_REST,
    &reading::BOTH_LEGS,
    &reading::LEGS_ADDED,
    &reading::EYE_LEVEL,
    &reading::LOOKED,
    &reading::AS_SEEN,
    &reading::TO_THE_DIVISION,
    &restore::BLOWER_OFF,
    &restore::PLUG_BACK,
    &restore::PEN_CAPPED,
    &restore::TUBE_OFF,
    &restore::VALVES_SHUT,
    &restore::CALIBRATOR_OFF,
    &restore::HOLDER_CLOSED,
    &restore::FILTER_BACK,
    &restore::LID_CLOSED,
    &restore::NOTHING_LEFT,
    &sums::POINT_FLOWS,
    &sums::EXPRESSION,
    &sums::CHART_TERMS,
    &sums::LINE,
    &decision::CORRELATION,
    &decision::RESIDUALS,
    &decision::LAST_LINE,
    &decision::DECIDED,
    &decision::DECISION_SOUND,
    &decision::FALSE_ALARMS,
    &decision::AGREES_WITH_REPORTS,
    &decision::SIGNED,
    &set_point::TARGET_IN_RANGE,
    &set_point::TARGET_AS_ORDERED,
    &set_point::DESIGN_FLOW,
    &set_point::SET_POINT,
    &set_point::SET_POINT_WRITTEN,
    &flow_check::CHECK_MADE,
    &flow_check::CHECK_AS_IT_RUNS,
    &flow_check::CHECK_READ,
    &flow_check::CHECK_SUMS,
    &flow_check::CHECK_JUDGED,
    &load::RUN_MADE,
    &filter::FILTER_FITTED,
    &filter::FILTER_INSPECTED,
    &filter::FILTER_SOUND,
    &filter::FILTER_EDGES,
    &filter::FILTER_SIDE,
    &filter::FILTER_CENTRED,
    &filter::FRAME_TIGHT,
    &load::SET_WARM,
    &load::AT_SET_POINT,
    &load::TIMER_AS_ORDERED,
    &load::TIMER_IN_CHARGE,
    &load::CHART_AT_HOUR,
    &load::PEN_READY,
    &load::DOORS_SHUT,
    &load::METER_BEFORE,
    &recover::METER_AFTER,
    &recover::END_READING,
    &recover::CHART_KEPT,
    &recover::FILTER_FOLDED,
    &recover::CUSTODY,
    &next_run::NEXT_FILTER,
    &next_run::NEXT_NUMBER,
    &next_run::NEXT_TIMER,
    &next_run::NEXT_CHART,
    &volume::RUN_MINUTES_RIGHT,
    &volume::MEAN_CHART,
    &volume::RUN_AIR,
    &volume::RUN_VOLUME,
    &volume::RUN_SPLIT,
    &volume::CONCENTRATION,
    &volume::VALIDITY,
    &judged::RECORD_JUDGEABLE,
];

/// The rule with this id.
pub fn rule(id: &str) -> Option<&'static ProcedureRule> {
    RULES.iter().copied().find(|rule| rule.id == id)
}

/// Every finding in a session, in the order of the work, without those of rules that are switched
/// off.
pub fn findings(evidence: &Evidence<'_>) -> Vec<ProcedureFinding> {
    judge(evidence).findings
}
