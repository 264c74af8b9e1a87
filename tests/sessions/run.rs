//! Whole work orders with an unattended run, by scripted operators.

use sessions::{MarkedSession, mark_ended};
use sim_core::field_book::{Field, PointNumber};
use sim_core::marking::FaultVerdict;
use sim_core::session::Session;
use sim_core::session::journal::NullSink;
use sim_core::session::replay;

use super::recorded::{rehearsed, scenario};

const NAME: &str = "27_from_set_point_to_volume.ron";

/// A whole session by an operator.
fn ended(text: &str, operator: &str, seed: u64) -> MarkedSession {
    let mut session = Session::begin(text, seed, Box::new(NullSink)).unwrap();
    let mut operator = sim_core::operator::by_name(operator, seed).unwrap();
    sim_core::operator::rehearse(&mut session, operator.as_mut()).unwrap();
    mark_ended(session).unwrap()
}

/// The scenario with a fault, worked through by the careful operator.
fn with_fault(fault: &str, seed: u64) -> MarkedSession {
    let faults = format!("    faults: [{fault}],\n    certificates: [");
    ended(&scenario(NAME).replace("    certificates: [", &faults), "careful", seed)
}

/// What was made of the fault.
fn verdict(ended: &MarkedSession) -> FaultVerdict {
    let judged = ended.marks.faults.iter().find(|judged| judged.fault.is_some());
    judged.expect("a fault in force").verdict
}

#[test]
fn the_careful_operator_signs_for_a_volume_that_is_right() {
    for seed in 1..=6 {
        let MarkedSession { session, marks, .. } = ended(&scenario(NAME), "careful", seed);
        assert!(marks.passed && marks.findings.is_empty(), "seed {seed}: {:?}", marks.findings);
        let run = marks.run.unwrap();
        // Within one percent, apart from what the laboratory that certified the calibrator was off by.
        let error = run.error_pct.unwrap();
        let own = session.setup.without_laboratory_pct(error);
        assert!(own.abs() < 1.0, "seed {seed}: {own}");
        let perfect = run.perfect_trace_error_pct.unwrap();
        assert!((error - perfect).abs() < 0.5, "seed {seed}: {error} {perfect}");
        assert!((run.truth.powered_min - 1440.0).abs() < 0.1);
        assert!(Field::RUN.iter().all(|field| session.book.text(*field).is_some()));
    }
}

#[test]
fn a_run_is_had_again_from_its_journal() {
    let recorded = rehearsed(&scenario(NAME), "careful", 11);
    let found = replay::replay(&recorded.journal, Box::new(NullSink)).unwrap();
    assert_eq!(found.session.digest(), recorded.digest);
    // Hours of nobody there, and minutes of work.
    assert!((90..400).contains(&found.checks), "{}", found.checks);
}

#[test]
fn the_careful_operator_finds_what_is_wrong_with_filter_and_timer() {
    for fault in [
        "(fault: FilterTorn(area_mm2: 80))",
        "(fault: FilterPinholes(area_mm2: 3))",
        "(fault: FilterUpsideDown)",
        "(fault: FilterOffCentre)",
        "(fault: FilterWet(factor: 1.6))",
        "(fault: TripperLoose(by_h: -2))",
        "(fault: TimerGains(pct: 2))",
        "(fault: TimerWrongDay)",
        "(fault: PowerCut(minutes: 45), onset: AfterRunHours(7))",
    ] {
        let ended = with_fault(fault, 3);
        assert_eq!(verdict(&ended), FaultVerdict::Found, "{fault}");
        assert!(ended.marks.passed, "{fault}: {:?}", ended.marks.findings);
    }
}

#[test]
fn a_day_of_dust_is_taken_in_parts_and_a_short_one_is_not_valid() {
    // At 1.2 m3/min the controller has enough in hand for such a day, and the trace shows nothing.
    let more = scenario(NAME)
        .replace("target_flow_std_m3_min: 1.20", "target_flow_std_m3_min: 1.42")
        .replace("    flow_check: (readings: 8, within_pct: 7, flow_of_run: Check),\n", "");
    let storm = "(fault: FilterClogs(factor: 250), onset: AfterRunHours(6))";
    let faults = format!("    faults: [{storm}],\n    certificates: [");
    let clogged = ended(&more.replace("    certificates: [", &faults), "careful", 4);
    assert_eq!(verdict(&clogged), FaultVerdict::Found);
    let first = PointNumber::try_from(1).unwrap();
    assert!(clogged.session.book.number(Field::PartChart(first)).is_some());
    let error = clogged.marks.run.as_ref().unwrap().error_pct.unwrap();
    assert!(error.abs() < 2.5, "{error}");
    let short = with_fault("(fault: TimerGains(pct: 8))", 4);
    let validity = short.session.book.text(Field::Validity).unwrap();
    assert!(validity.starts_with("not valid: 13"), "{validity}");
    assert!(short.marks.passed, "{:?}", short.marks.findings);
}

#[test]
fn who_hurries_is_not_through() {
    for operator in ["hurried", "one-leg", "skips-warm-up"] {
        assert!(!ended(&scenario(NAME), operator, 2).marks.passed, "{operator}");
    }
}
