//! Every rule in the order of the work, and all of them judged: the outcomes, the findings, and what
//! the record lacks to judge the rest.

use super::evidence::Evidence;
use super::lesson::has_rule;
use super::outcome::{Outcome, OutcomeKind, RuleJudged};
use super::rule::{
    Decides, ProcedureFinding, ProcedureRule, Repair, RowsRead, RuleSource, Severity, Slip,
    WorkPhase,
};
use super::{
    added_filters, arrive, certificate, decision, display, filter, flow_check, fluid, history,
    load, manometer, next_run, plates, points, power, reading, recover, restore, set_point, strip,
    sums, thunder, volume, worked_out,
};
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::manometer::electronic::ManometerKind;
use crate::scenario::setup::WorkOrder;

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
    &fluid::LIQUID,
    &display::DISPLAY_CURRENT,
    &display::DISPLAY_ZEROED,
    &display::DISPLAY_BATTERY,
    &power::MOTOR_ON_LINE,
    &power::PEN_DOWN,
    &power::WARM_UP,
    &power::LEAK_CHECK,
    &power::BLOCKED_SHORTLY,
    &fluid::SPARED,
    &plates::PLATE_LEAK_CHECK,
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
    &worked_out::WORKED_OUT_AFTER,
    &decision::CORRELATION,
    &decision::CALIBRATED_AFTER_BRUSHES,
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
    &flow_check::TRIMMED_BY_STANDARD,
    &flow_check::CHECK_JUDGED,
    &history::HISTORY_KEPT,
    &history::HISTORY_READ,
    &history::HISTORY_ACTED,
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
    &added_filters::ADDED_MADE,
    &added_filters::ADDED_AS_IT_RUNS,
    &added_filters::ADDED_SUMS,
    &added_filters::ADDED_JUDGED,
    &added_filters::ADDED_OFF,
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
    &RECORD_JUDGEABLE,
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

/// All rules of a session, judged.
#[derive(Debug, Clone, PartialEq)]
pub struct RulesJudged {
    /// The outcome of each rule that is in force, in the order of the work.
    pub outcomes: Vec<RuleJudged>,
    /// Every finding, in the order of the work.
    pub findings: Vec<ProcedureFinding>,
}

/// The record is complete enough to judge every rule that the work came to.
///
/// One finding for each thing that is missing, with the rules that could not be judged without it. It
/// decides if one of them would: who leaves out a number must not fare better than who writes a wrong
/// one. Broken by a blank intercept of the certificate; kept by a number in its field, whatever it is.
pub static RECORD_JUDGEABLE: ProcedureRule = ProcedureRule {
    id: "record-judgeable",
    title: "Leave out nothing that the work is judged by",
    why: "What is not in the record can neither be checked nor defended.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::None,
    test: |evidence| judgeable(evidence, &others(evidence)),
};

/// Judges every rule in force.
pub fn judge(evidence: &Evidence<'_>) -> RulesJudged {
    let mut judged = others(evidence);
    if is_in_force(&RECORD_JUDGEABLE, evidence) {
        let record = judgeable(evidence, &judged);
        judged.push((&RECORD_JUDGEABLE, record));
    }
    let read = RowsRead::of(evidence);
    let (mut outcomes, mut findings) = (Vec::new(), Vec::new());
    for rule in RULES.iter().filter(|rule| is_in_force(rule, evidence)) {
        let Some(at) = judged.iter().position(|(known, _)| known.id == rule.id) else {
            let outcome = OutcomeKind::NotAssessed;
            outcomes.push(RuleJudged { rule: rule.id, outcome, missing: None });
            continue;
        };
        let (rule, outcome) = judged.swap_remove(at);
        let missing = match &outcome {
            Outcome::CannotJudge(what) => Some(what.clone()),
            _ => None,
        };
        outcomes.push(RuleJudged { rule: rule.id, outcome: outcome.kind(), missing });
        if let Outcome::Broken(slips) = outcome {
            findings.extend(rule.findings_of(slips, read));
        }
    }
    RulesJudged { outcomes, findings }
}

/// The outcome of each rule in force that is assessed, but [`RECORD_JUDGEABLE`], which depends on them.
fn others(evidence: &Evidence<'_>) -> Vec<(&'static ProcedureRule, Outcome)> {
    let rules = RULES.iter().copied().filter(|rule| rule.id != RECORD_JUDGEABLE.id);
    rules
        .filter(|rule| is_in_force(rule, evidence) && is_assessed(rule, evidence))
        .map(|rule| match (is_asked_for(rule, evidence), evidence.lesson()) {
            (true, Some(lesson)) => (rule, lesson.only_here(rule.judge(evidence))),
            (true, None) => (rule, rule.judge(evidence)),
            (false, _) => (rule, Outcome::NotReached),
        })
        .collect()
}

/// Whether a scenario leaves a rule in force.
fn is_in_force(rule: &ProcedureRule, evidence: &Evidence<'_>) -> bool {
    evidence.setup.terms.rules_off.iter().all(|id| id != rule.id)
}

/// Whether a rule is assessed: in a lesson, only those that belong to it are.
fn is_assessed(rule: &ProcedureRule, evidence: &Evidence<'_>) -> bool {
    evidence.lesson().is_none_or(|lesson| has_rule(lesson.phases, rule))
}

/// Rules on a manometer with water, which an electronic one has no part in.
static OF_WATER: [&ProcedureRule; 11] = [
    &manometer::PLUMB,
    &manometer::VALVES_OPEN,
    &manometer::ZEROED,
    &manometer::ZERO_SEEN,
    &manometer::BLOW_THROUGH,
    &reading::BOTH_LEGS,
    &reading::LEGS_ADDED,
    &reading::EYE_LEVEL,
    &restore::VALVES_SHUT,
    &fluid::LIQUID,
    &fluid::SPARED,
];

/// Whether a rule is about the instruments that are at hand for an order: some are about fixed plates,
/// an electronic manometer, or one with water alone.
pub fn fits_instruments(rule: &ProcedureRule, order: &WorkOrder) -> bool {
    let is_one_of = |rules: &[&ProcedureRule]| rules.iter().any(|other| other.id == rule.id);
    let of_display =
        [&display::DISPLAY_CURRENT, &display::DISPLAY_ZEROED, &display::DISPLAY_BATTERY];
    match order.manometer {
        ManometerKind::Electronic if is_one_of(&OF_WATER) => return false,
        ManometerKind::WaterColumn if is_one_of(&of_display) => return false,
        _ => {}
    }
    order.calibrator == CalibratorKind::FixedPlates || !is_one_of(&[&plates::PLATE_LEAK_CHECK])
}

/// Whether a rule applies to the instruments that are there, and to what is ordered: if only a flow
/// check is ordered, there is no line to be made, and the filter stays under the calibrator.
fn is_asked_for(rule: &ProcedureRule, evidence: &Evidence<'_>) -> bool {
    if evidence.is_electronic() && OF_WATER.iter().any(|wanted| wanted.id == rule.id) {
        return false;
    }
    if !evidence.setup.work_order.is_check_alone() {
        return true;
    }
    let reading = [
        &reading::TAPPED,
        &reading::PEN_AT_REST,
        &reading::BOTH_LEGS,
        &reading::EYE_LEVEL,
        &reading::LOOKED,
        &reading::TO_THE_DIVISION,
    ];
    let always = [&decision::FALSE_ALARMS, &decision::SIGNED];
    let always = always.into_iter().chain(reading).any(|wanted| wanted.id == rule.id);
    let of_a_line = matches!(rule.phase, WorkPhase::Points | WorkPhase::Sums | WorkPhase::SetPoint);
    !of_a_line && rule.id != strip::FILTER_OUT.id && rule.id != power::MOTOR_ON_LINE.id || always
}

/// The outcome of [`RECORD_JUDGEABLE`], given those of the other rules.
fn judgeable(evidence: &Evidence<'_>, judged: &[(&'static ProcedureRule, Outcome)]) -> Outcome {
    let mut missing: Vec<(&str, Vec<&ProcedureRule>)> = Vec::new();
    for (rule, outcome) in judged {
        let Outcome::CannotJudge(what) = outcome else { continue };
        match missing.iter_mut().find(|(known, _)| known == what) {
            Some((_, rules)) => rules.push(rule),
            None => missing.push((what, vec![rule])),
        }
    }
    if missing.is_empty() && evidence.book.entries().is_empty() {
        return Outcome::NotReached;
    }
    Outcome::reached(missing.into_iter().map(|(what, rules)| {
        let titles: Vec<&str> = rules.iter().map(|rule| rule.title).collect();
        let text = match titles.as_slice() {
            [title] => format!("{what}: this rule could not be judged: {title}"),
            titles => format!("{what}: these rules could not be judged: {}", titles.join("; ")),
        };
        let slip = Slip::at(evidence.end_tick, text);
        let decides = rules.iter().any(|rule| rule.decides != Decides::Never);
        if decides { slip } else { slip.mild() }
    }))
}
