//! What a trial says of a scenario that is unfair in a known way: the moment, what it is about, what the
//! operator saw, and the parameter that puts it right.

use sim_core::fault::Fault;
use sim_core::scenario::{KnownRules, check};
use sim_core::trial::{Tally, TrialReason, TrialVerdict, block, judge, told};

/// Seeds of a quick trial.
const SEEDS: std::ops::Range<u64> = 1..5;

/// The first scenario with other words in place of some of its own.
fn first(changes: &[(&str, &str)]) -> String {
    of("01_first_calibration.ron", changes)
}

/// A scenario with other words in place of some of its own.
fn of(name: &str, changes: &[(&str, &str)]) -> String {
    let path = bench_tests::repository().join("scenarios").join(name);
    let mut text = std::fs::read_to_string(path).unwrap();
    for (from, to) in changes {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    text
}

/// The faults of a scenario.
fn faults(text: &str) -> Vec<Fault> {
    let scenario = check(text, KnownRules::Any).unwrap();
    scenario.faults.iter().map(|entry| entry.fault).collect()
}

/// The verdict on a scenario after a quick trial, and its reasons told.
fn trial(text: &str) -> (TrialVerdict, Vec<TrialReason>) {
    let scenario = check(text, KnownRules::Any).unwrap();
    let faults = faults(text);
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
    let text = of("19_two_charts_in_june.ron", &[("pct: 7", "pct: 1")]);
    let (verdict, told) = trial(&text);
    assert_eq!((verdict, told.len()), (TrialVerdict::CannotBeNoticed, 2), "{told:#?}");
    // The fault is overlooked, and its marks are missed: both come from its size.
    for told in &told {
        assert_eq!(told.about, "ChartClockSlow", "{told:#?}");
        assert_eq!(told.change.parameter, "faults[0].fault.pct");
        assert_eq!(told.change.from, "1 %");
        // What it saw is the check by which the larger fault is found, with its limit.
        assert_eq!(told.phase, "second look", "{told:#?}");
        assert!(told.saw.starts_with("Since it was fitted the chart turned by"), "{told:#?}");
        assert!(told.saw.ends_with("a difference of 0.8 min can be seen."), "{told:#?}");
        // With the size that is named, the session goes as it should.
        let to = number(told.change.to.as_ref().unwrap());
        assert!((1.0..7.0).contains(&to), "{told:#?}");
        let better = text.replace("pct: 1)", &format!("pct: {to})"));
        assert_ne!(better, text);
        let tally =
            block(&better, &faults(&better), "careful", told.seed..told.seed + 1).unwrap().tally;
        assert_eq!((tally.passed, tally.faults[0].noticed()), (1, 1), "{tally:?}");
    }
}

#[test]
fn a_fault_that_begins_too_late_is_told_with_its_onset() {
    let fault =
        "faults: [(fault: PenSticks(play_inh2o: 0.4), onset: AfterMinutes(110))],\n    terms:";
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
    let about = ("about: [\"ignores-blower\", \"hurried\"],", "");
    // The knob is set by the certificate, and with this one the first session loses marks for readings.
    let certificate = ("\", date: ", "\", laboratory_bias_pct: Fixed(0), date: ");
    let marks = ("pass_mark: 88", "pass_mark: 100");
    let text = of("25_wind_permitting.ron", &[about, marks, certificate]);
    let (verdict, told) = only(&text);
    assert_eq!((verdict, told.seed), (TrialVerdict::TooHard, 2));
    assert_eq!(told.change.parameter, "terms.pass_mark", "{told:#?}");
    assert_eq!((told.change.from.as_str(), told.change.to.as_deref()), ("100", Some("99")));
    // The moment is that of the first reading that lost marks: the wind moved the column.
    assert_eq!(
        (told.phase.as_str(), told.about.as_str()),
        ("points", "leg down of point 2"),
        "{told:#?}"
    );
    assert!(
        told.what.contains("and 100 are needed; most marks were lost for readings"),
        "{told:#?}"
    );
}

#[test]
fn a_habit_that_costs_too_little_is_told_with_the_pass_mark_above_it() {
    let text = of("17_counting_geese.ron", &[("pass_mark: 85", "pass_mark: 50")]);
    let (verdict, told) = only(&text);
    assert_eq!((verdict, told.operator.as_str()), (TrialVerdict::TooEasy, "skips-pen-zero"));
    assert_eq!(
        (told.about.as_str(), told.change.parameter.as_str()),
        ("PenZeroOff", "terms.pass_mark")
    );
    assert_eq!(
        (told.change.from.as_str(), told.change.to.as_deref()),
        ("50", Some("81")),
        "{told:#?}"
    );
    assert!(told.what.contains("was not noticed, and that does not decide; 80."), "{told:#?}");
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
