//! Work that is stopped before its end: what it takes to be right, and what it is worth.

use sim_core::field_book::Decision;
use sim_core::marking::{FaultVerdict, MarkPartName, Marks, Standing, mark};
use sim_core::session::action::{Action, FaultKind, FaultReport, Response, Sight, SuspectedCause};

use super::deeds::does;
use super::script::{Deed, Script};
use crate::sessions::cost::common::{as_designed, scenario, session_of};

fn marked(script: &Script) -> Marks {
    let (signed, refused) = script.had();
    assert_eq!(refused, [""; 0]);
    mark(&signed.evidence())
}

/// A fault reported as a reason to stop, the calibration refused for it, and the record signed.
fn stops_for(kind: FaultKind) -> [Action; 3] {
    let (place, cause) = (kind.place(), SuspectedCause::Known(kind));
    let (seen, shown_by) = ("seen on the roof".to_owned(), Vec::new());
    let report = FaultReport { place, cause, seen, shown_by, response: Response::Rejected };
    let reason = format!("it cannot stand: {}", kind.sheet().title);
    let refuse = Action::Decide { decision: Decision::CalibrationRefused, reason };
    [Action::Report(report), refuse, Action::Sign]
}

/// The careful session on a bench, broken off for a fault right after its first deed of a kind.
fn stopped_after(text: &str, last: impl Fn(&Deed) -> bool, kind: FaultKind) -> Script {
    let mut script = Script::rehearsed(text);
    let end = script.first(last) + 1;
    script.steps.truncate(end);
    script.steps.extend(
        stops_for(kind).map(|action| super::script::Step { ticks: 200, deed: Deed::Does(action) }),
    );
    script
}

/// Who leaves the leak check out would pass where it is what the scenario is about, with the leak
/// missed and 86 marks.
#[test]
fn who_leaves_the_leak_check_out_does_not_pass_where_there_is_a_leak() {
    let text = scenario("16_quiet_before_nine");
    for seed in 1..=10 {
        for operator in ["skips-leak-check", "skips-leak-check+accepts-any-line"] {
            let marks = mark(&session_of(&text, operator, seed).evidence());
            let missed = marks.faults.iter().any(|judged| judged.verdict == FaultVerdict::Missed);
            assert!(missed && !marks.passed, "{operator}, seed {seed}: {:.1}", marks.total);
        }
    }
}

/// A stop at the first suspicion would give all marks: at the first second, with the manometer still in
/// its case, somebody names the right fault, refuses and signs.
#[test]
fn a_stop_for_a_fault_that_has_not_shown_is_work_broken_off() {
    let text = as_designed(&scenario("02_two_lines_and_an_audit"));
    let mut script = Script::rehearsed(&text);
    script.steps.clear();
    let look = Action::Look { at: Sight::Manometer, eye_mm: 0.0 };
    let deeds = std::iter::once(look).chain(stops_for(FaultKind::ManometerValveLeaks));
    script
        .steps
        .extend(deeds.map(|action| super::script::Step { ticks: 40, deed: Deed::Does(action) }));
    let marks = marked(&script);
    assert_eq!(marks.faults[0].verdict, FaultVerdict::Guessed);
    assert_eq!(marks.standing, Standing::BrokenOff);
    assert!(!marks.passed && marks.percent() < 10.0, "{} of {}", marks.total, marks.of);
}

/// Nor is it right to go home for something that can be put right on the roof.
#[test]
fn a_stop_for_a_loose_nut_is_work_broken_off() {
    let mut bench = Script::careful();
    let nut = "(fault: NutLoose(nut: 2, leak_mm2: 15), onset: AfterRunningMinutes(0.1))";
    bench.on("    terms: (", &format!("    faults: [{nut}],\n    terms: ("));
    let script = stopped_after(&bench.text, does(Action::FreeOpenings), FaultKind::NutLoose);
    let marks = marked(&script);
    assert_eq!(marks.faults[0].verdict, FaultVerdict::WrongResponse, "{:#?}", marks.faults);
    assert_eq!(marks.standing, Standing::BrokenOff);
    assert!(!marks.passed, "{} of {}", marks.total, marks.of);
}

/// A stop for good reason passes, but it is no work of 100 marks: what was not reached is not assessed.
#[test]
fn a_stop_for_good_reason_is_marked_of_what_was_reached() {
    let text = as_designed(&scenario("16_quiet_before_nine"));
    let script = stopped_after(&text, does(Action::FreeOpenings), FaultKind::PlateWarped);
    let marks = marked(&script);
    assert_eq!(marks.standing, Standing::RightlyStopped, "{:#?}", marks.faults);
    let readings = marks.parts.iter().find(|part| part.name == MarkPartName::Readings).unwrap();
    assert!(!readings.assessed && marks.of < 70.0, "{} of {}", marks.total, marks.of);
}
