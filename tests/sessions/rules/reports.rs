//! What a report of a fault is worth: the cause at its place, once something has shown it.

use sim_core::field_book::Field;
use sim_core::marking::{FaultVerdict, MarkPartName, Marks, mark};
use sim_core::session::action::{
    Action, FaultKind, FaultPlace, FaultReport, Response, Sight, SuspectedCause,
};

use super::deeds::does;
use super::script::{Deed, Script, point};

/// A report.
fn report(place: FaultPlace, cause: SuspectedCause, response: Response) -> Action {
    let seen = "seen on the roof".to_owned();
    Action::Report(FaultReport { place, cause, seen, shown_by: Vec::new(), response })
}

/// A report of a fault that the catalogue knows.
fn known(kind: FaultKind, response: Response) -> Action {
    report(kind.place(), SuspectedCause::Known(kind), response)
}

/// A cause in words of the trainee's own.
fn in_words(words: &str) -> SuspectedCause {
    SuspectedCause::SomethingElse(words.to_owned())
}

/// The careful session with a fault of which nobody says anything.
fn silent(fault: &str) -> Script {
    let mut script = Script::careful().rehearsed_with(fault);
    script.without(|deed| matches!(deed, Deed::Does(Action::Report(_))));
    script
}

/// The marks of a session in which something is reported before the calculations.
fn reporting(script: &Script, reports: &[Action]) -> Marks {
    let mut script = script.clone();
    script.insert(script.written(Field::PointFlow(point(1))), reports.to_vec());
    marked(&script)
}

fn marked(script: &Script) -> Marks {
    let (signed, refused) = script.had();
    assert_eq!(refused, [""; 0]);
    mark(&signed.evidence())
}

/// The verdicts, in order.
fn verdicts(marks: &Marks) -> Vec<FaultVerdict> {
    marks.faults.iter().map(|judged| judged.verdict).collect()
}

/// What judgement earned.
fn judgement(marks: &Marks) -> f64 {
    marks.parts.iter().find(|part| part.name == MarkPartName::Judgement).unwrap().got
}

/// Who reports every place would be right once, and must not gain by it: each further report is a
/// false alarm, and all of them together cost more than to say nothing.
#[test]
fn a_report_of_every_place_is_worth_no_more_than_none() {
    let script = silent("TubeKinked");
    let all =
        FaultPlace::ALL.map(|place| report(place, SuspectedCause::NotKnownYet, Response::Repaired));
    let everywhere = reporting(&script, &all);
    let alarms = verdicts(&everywhere).into_iter().filter(|one| *one == FaultVerdict::FalseAlarm);
    assert_eq!(alarms.count(), FaultPlace::ALL.len() - 1, "{:#?}", everywhere.faults);
    assert!(judgement(&everywhere) < judgement(&marked(&script)));
}

/// Nonsense at the right place with the right response would be "found", and so would the words of the
/// catalogue filed at another place.
#[test]
fn nonsense_at_the_right_place_and_right_words_at_another_are_not_the_fault() {
    let script = silent("TubeKinked");
    let of = |place, cause| reporting(&script, &[report(place, cause, Response::Repaired)]);
    let right = reporting(&script, &[known(FaultKind::TubeKinked, Response::Repaired)]);
    assert_eq!(verdicts(&right), [FaultVerdict::Found]);
    let nonsense = of(FaultPlace::Tube, in_words("the moon is full"));
    assert_eq!(verdicts(&nonsense), [FaultVerdict::WrongCause]);
    assert!(judgement(&nonsense) < judgement(&right));
    let elsewhere = of(FaultPlace::Calibrator, in_words(FaultKind::TubeKinked.sheet().title));
    assert!(verdicts(&elsewhere).contains(&FaultVerdict::FalseAlarm), "{:#?}", elsewhere.faults);
    assert!(!verdicts(&elsewhere).contains(&FaultVerdict::Found));
    assert!(judgement(&elsewhere) < judgement(&nonsense));
}

/// A look at a place would do to "find" whatever is wrong there. What was seen must have shown it: a
/// valve that leaks does not show on a manometer in its case, nor a kink before the tubing kinks.
#[test]
fn a_fault_that_nothing_has_shown_yet_is_guessed_however_right_it_is() {
    let mut script = silent("ManometerValveLeaks(leg: left, ratio: 0.3)");
    let look = Action::Look { at: Sight::Manometer, eye_mm: 0.0 };
    script.insert(0, [look, known(FaultKind::ManometerValveLeaks, Response::Rejected)]);
    assert_eq!(verdicts(&marked(&script)), [FaultVerdict::Guessed]);

    let kinks = "    faults: [(fault: TubeKinked, onset: AtEvent(PointWritten(2)))],\n    terms: (";
    let text = Script::careful().text.replace("    terms: (", kinks);
    let mut script = Script::rehearsed(&text);
    script.without(|deed| matches!(deed, Deed::Does(Action::Report(_))));
    let says = known(FaultKind::TubeKinked, Response::Repaired);
    let mut before = script.clone();
    before.insert(script.written(Field::Up(point(1))), [says.clone()]);
    assert_eq!(verdicts(&marked(&before)), [FaultVerdict::Guessed]);
    assert_eq!(verdicts(&reporting(&script, &[says])), [FaultVerdict::Found]);
}

/// A fault that has no effect where a scenario puts it would be counted against everybody: weather that
/// begins hours after a run began touches no reading of the calibration.
#[test]
fn a_fault_that_comes_too_late_for_every_reading_costs_nothing() {
    let clean = Script::careful_run();
    for fault in ["Gusts(sd_pa: 20)", "FastWeather(k_h: -8)"] {
        let mut script = clean.clone();
        let later = format!("(fault: {fault}, onset: AfterRunHours(6))");
        script.on("    terms: (", &format!("    faults: [{later}],\n    terms: ("));
        let marks = marked(&script);
        assert_eq!(verdicts(&marks), [], "{fault}: {:#?}", marks.faults);
        let whole = judgement(&marked(&clean));
        assert!((judgement(&marks) - whole).abs() < 1e-9, "{fault}: {}", judgement(&marks));
    }
}

/// A deed before the fault is there would count as its remedy: one early straightening of the tubing
/// made up for a kink that came later.
#[test]
fn a_deed_before_a_fault_begins_does_not_put_it_right() {
    let early: [(&str, &[Action]); 3] = [
        ("TubeKinked", &[Action::StraightenTube]),
        (
            "TubeLoose(ratio: 0.2)",
            &[Action::ConnectTube, Action::DisconnectTube, Action::ConnectTube],
        ),
        ("TubeWet(height_in: 0.4)", &[Action::DrainTube]),
    ];
    for (fault, deeds) in early {
        let mut script = Script::careful();
        let later = format!("(fault: {fault}, onset: AtEvent(PointWritten(2)))");
        script.on("    terms: (", &format!("    faults: [{later}],\n    terms: ("));
        let connects = script.first(does(Action::ConnectTube));
        let instead: Vec<Action> = deeds.to_vec();
        if instead.first() != Some(&Action::ConnectTube) {
            script.insert(connects, instead);
        } else {
            script.insert(connects + 1, instead.into_iter().skip(1));
        }
        assert_eq!(verdicts(&marked(&script)), [FaultVerdict::Missed], "{fault}");
    }
}
