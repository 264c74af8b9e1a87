//! What a trial says of a scenario that is unfair in a known way: the moment, what it is about, what the
//! operator saw, and the parameter that puts it right.

use sim_core::scenario::{KnownRules, check};
use sim_core::trial::{Tally, TrialReason, TrialVerdict, block, judge, told};

/// Seeds of a quick trial.
const SEEDS: std::ops::Range<u64> = 1..5;

/// The first scenario with other lines in place of some of its own.
fn first(changes: &[(&str, &str)]) -> String {
    let path = bench_tests::repository().join("scenarios/01_first_calibration.ron");
    let mut text = std::fs::read_to_string(path).unwrap();
    for (from, to) in changes {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    text
}

/// The verdict on a scenario after a quick trial, and its reasons told.
fn trial(text: &str) -> (TrialVerdict, Vec<TrialReason>) {
    let scenario = check(text, KnownRules::Any).unwrap();
    let faults: Vec<_> = scenario.faults.iter().map(|entry| entry.fault).collect();
    let names: Vec<_> = faults.iter().map(|fault| fault.name()).collect();
    let sitting = std::iter::once("careful").chain(scenario.about.iter().map(String::as_str));
    let sat: Vec<(&str, Tally)> = sitting
        .map(|operator| (operator, block(text, &faults, operator, SEEDS).unwrap().tally))
        .collect();
    for (_, tally) in &sat {
        assert!(tally.is_of(SEEDS.end - SEEDS.start, faults.len()), "{tally:?}");
    }
    let sat: Vec<(&str, &Tally)> = sat.iter().map(|(name, tally)| (*name, tally)).collect();
    let judged = judge(&scenario.about, &names, &sat);
    let told: Vec<_> = judged.objections.iter().filter_map(|one| told(text, one)).collect();
    assert_eq!(told.len(), judged.reasons.len(), "each reason is told: {:?}", judged.reasons);
    for (reason, told) in judged.reasons.iter().zip(&told) {
        assert_eq!(&told.reason, reason);
        assert!(
            !told.saw.is_empty() && !told.phase.is_empty() && !told.what.is_empty(),
            "{told:?}"
        );
    }
    (judged.verdict, told)
}

/// The only reason of a scenario, with its verdict.
fn only(text: &str) -> (TrialVerdict, TrialReason) {
    let (verdict, mut told) = trial(text);
    assert_eq!(told.len(), 1, "{told:#?}");
    (verdict, told.remove(0))
}

/// The number at the beginning of a value.
fn number(value: &str) -> f64 {
    value.split_whitespace().next().unwrap().parse().unwrap()
}

/// Nothing but the careful operator.
const CAREFUL_ALONE: (&str, &str) = (
    "about: [\"hurried\", \"one-leg\", \"skips-warm-up\", \"on-controller\", \"never-zeroes\", \"slant-reader\"],",
    "",
);

#[test]
fn a_fault_that_is_too_small_to_be_seen_is_told_with_its_size() {
    let fault = "faults: [(fault: ManometerValveLeaks(leg: Left, ratio: 0.02))],\n    terms:";
    let text = first(&[CAREFUL_ALONE, ("terms:", fault)]);
    let (verdict, told) = trial(&text);
    assert_eq!(verdict, TrialVerdict::CannotBeNoticed);
    let told = &told[0];
    assert_eq!(told.about, "ManometerValveLeaks", "{told:#?}");
    assert_eq!(told.change.parameter, "faults[0].fault.ratio");
    assert_eq!(number(&told.change.from), 0.02);
    // What it saw is the check by which the larger fault is found, with its limit.
    assert!(
        told.saw.contains("Behind the shut left valve") && told.saw.contains("at most 0.12 in"),
        "{told:#?}"
    );
    // With the size that is named, the operator notices it.
    let to = number(told.change.to.as_ref().unwrap());
    assert!(to > 0.02, "{told:#?}");
    let better = text.replace("ratio: 0.02", &format!("ratio: {to}"));
    let (_, told) = trial(&better);
    assert!(
        told.iter().all(|one| one.seed != 1 || one.about != "ManometerValveLeaks"),
        "{told:#?}"
    );
}

#[test]
fn a_fault_that_begins_too_late_is_told_with_its_onset() {
    let fault =
        "faults: [(fault: PenSticks(play_inh2o: 0.4), onset: AfterMinutes(200))],\n    terms:";
    let (verdict, told) = trial(&first(&[CAREFUL_ALONE, ("terms:", fault)]));
    let told = &told[0];
    assert_eq!((verdict, told.about.as_str()), (TrialVerdict::CannotBeNoticed, "PenSticks"));
    assert_eq!(told.change.parameter, "faults[0].onset", "{told:#?}");
    assert_eq!(told.change.to.as_deref(), Some("Start"));
    assert!(told.what.contains("had not begun when the session ended"), "{told:#?}");
}

#[test]
fn a_time_limit_that_is_too_short_is_told_with_the_time_that_the_work_takes() {
    let terms = ("terms: (sums: true, pass_mark: 75)", "terms: (sums: true, time_limit_min: 20)");
    let text = first(&[CAREFUL_ALONE, terms]);
    let (verdict, told) = only(&text);
    assert_eq!((verdict, told.about.as_str()), (TrialVerdict::TooHard, "time limit"), "{told:#?}");
    assert_eq!(told.change.parameter, "terms.time_limit_min");
    assert_eq!(told.change.from, "20 min");
    assert_eq!(told.time.to_string(), "08:50:00");
    assert_eq!(told.phase, "points", "{told:#?}");
    let enough = number(told.change.to.as_ref().unwrap());
    let better = text.replace("time_limit_min: 20", &format!("time_limit_min: {enough}"));
    let (_, told) = trial(&better);
    assert!(told.iter().all(|one| one.seed != 1), "{told:#?}");
}

#[test]
fn a_pass_mark_that_is_too_high_is_told_with_the_marks_that_were_reached() {
    let terms = ("pass_mark: 75", "pass_mark: 100");
    let text = first(&[CAREFUL_ALONE, terms]);
    let (verdict, told) = only(&text);
    assert_eq!(verdict, TrialVerdict::TooHard);
    assert_eq!(told.change.parameter, "terms.pass_mark", "{told:#?}");
    assert_eq!(told.change.from, "100");
    let reached = number(told.change.to.as_ref().unwrap());
    assert!((90.0..100.0).contains(&reached), "{told:#?}");
    assert!(told.what.contains("and 100 are needed; most of them were lost for"), "{told:#?}");
}

#[test]
fn a_habit_that_costs_too_little_is_told_with_the_pass_mark_above_it() {
    let about = (CAREFUL_ALONE.0, "about: [\"skips-pen-zero\"],");
    let (verdict, told) = only(&first(&[about, ("pass_mark: 75", "pass_mark: 50")]));
    assert_eq!((verdict, told.operator.as_str()), (TrialVerdict::TooEasy, "skips-pen-zero"));
    assert_eq!(told.change.parameter, "terms.pass_mark", "{told:#?}");
    assert_eq!(told.change.from, "50");
    assert!(number(told.change.to.as_ref().unwrap()) > 75.0, "{told:#?}");
    assert!(told.what.contains("which does not decide"), "{told:#?}");
}

#[test]
fn a_habit_that_nothing_punishes_is_told_to_be_taken_out() {
    let about = (CAREFUL_ALONE.0, "about: [\"trusts-copies\"],");
    let (verdict, told) = only(&first(&[about]));
    assert_eq!(
        (verdict, told.change.parameter.as_str()),
        (TrialVerdict::TooEasy, "about"),
        "{told:#?}"
    );
    assert_eq!(told.change.to, None);
    assert!(told.what.starts_with("no rule that careful work keeps was broken"), "{told:#?}");
}
