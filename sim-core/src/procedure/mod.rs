//! The rules of the work: how each can be broken, found and explained.
//!
//! | file | phase |
//! |---|---|
//! | [`arrive`], [`certificate`] | A: work order, weather, certificate, conditions |
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
//!
//! To add a rule: write a `static` next to similar ones, list it in [`RULES`], and give the test
//! table one session that keeps it and one that breaks only it.
//!
//! Which rules decide ([`Decides::Always`] or [`Decides::AsHabit`]): those whose breach changes
//! every later volume while r, the residuals and the look of the record stay as they should be.
//!
//! * The certificate of another calibrator, an expired or miscopied one, or the wrong pair;
//!   sea-level pressure.
//! * A loose plate; a manometer not zeroed; shut valves; a tube that carries no pressure; a blower
//!   on its controller; no warm-up.
//! * Too few points, or points too close together; and at most of the points: no settling, no
//!   tapping, only one leg, legs not added, parallax, the expression of another recorder, or
//!   invented values.
//! * A wrong decision, a design flow taken for one at standard conditions, three false alarms, no
//!   signature.
//! * Flow check: not made, made on a sampler that is not as it runs, wrongly called passed or
//!   failed.
//! * Run: not made; left without a fresh and sound filter, a trace or the timer in charge; a sample
//!   wrongly called valid or not valid.
//! * Next run: the sampler left without a fresh filter, or with its timer set for another time.

pub mod arrive;
pub mod certificate;
pub mod decision;
pub mod evidence;
pub(crate) mod faults;
pub mod filter;
pub mod flow_check;
pub(crate) mod inspection;
pub(crate) mod instrument;
pub(crate) mod knowable;
pub mod known_signs;
pub mod load;
pub mod manometer;
pub mod next_run;
pub(crate) mod own_sums;
pub mod points;
pub mod power;
pub mod reading;
pub mod recover;
pub(crate) mod reports;
pub mod restore;
pub mod rule;
pub mod set_point;
mod stopping;
pub mod strip;
pub mod sums;
mod true_response;
pub mod volume;

#[cfg(test)]
mod rule_tests;
#[cfg(test)]
pub(crate) mod test_bench;

pub use evidence::{Ending, Evidence};
pub use instrument::Instrument;
pub use rule::{
    Decides, ProcedureFinding, ProcedureRule, Repair, RuleSource, Severity, Slip, SourceMark,
    WorkPhase,
};
pub use true_response::TrueResponse;

/// Every rule in the order of the work.
pub static RULES: &[&ProcedureRule] = &[
    &arrive::THUNDER,
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
];

/// The rule with this id.
pub fn rule(id: &str) -> Option<&'static ProcedureRule> {
    RULES.iter().copied().find(|rule| rule.id == id)
}

/// Whether a rule applies to what is ordered: if only a flow check is ordered, there is no line to
/// be made, and the filter stays under the calibrator.
fn is_asked_for(rule: &ProcedureRule, evidence: &Evidence<'_>) -> bool {
    if !evidence.setup.work_order.is_check_alone() {
        return true;
    }
    let always = [decision::FALSE_ALARMS.id, decision::SIGNED.id];
    let of_a_line = matches!(rule.phase, WorkPhase::Points | WorkPhase::Sums | WorkPhase::SetPoint);
    !of_a_line && rule.id != strip::FILTER_OUT.id && rule.id != power::MOTOR_ON_LINE.id
        || always.contains(&rule.id)
}

/// Every finding in a session, in the order of the work, without those of rules that are switched
/// off.
pub fn findings(evidence: &Evidence<'_>) -> Vec<ProcedureFinding> {
    let off = &evidence.setup.terms.rules_off;
    RULES
        .iter()
        .filter(|rule| !off.iter().any(|id| id == rule.id))
        .filter(|rule| is_asked_for(rule, evidence))
        .flat_map(|rule| rule.findings(evidence))
        .collect()
}
