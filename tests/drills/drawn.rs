//! What is drawn: every kind, the same each time, never the same twice, and over the whole range.

use std::collections::BTreeSet;

use sim_core::drill::{Answer, Asked, DrillKind, Question};
use sim_core::session::action::BarometerReference;

/// Draws of each kind.
const DRAWS: u32 = 200;

fn drawn(kind: DrillKind, seed: u64, number: u32) -> Question {
    Question::draw(kind, seed, number).unwrap_or_else(|error| panic!("{kind} {number}: {error}"))
}

/// Everything that can be seen of a question, in words.
fn visible(question: &Question) -> String {
    let looks: Vec<_> = question.looks().iter().map(|look| (look.at_s, &look.view)).collect();
    let papers = question.papers();
    format!("{looks:?} {:?} {:?} {:?}", papers.certificates, question.sheet(), question.asked())
}

/// What is right.
pub fn truth(question: &Question) -> Answer {
    let given = match question.choices().first() {
        Some(first) => Answer::Choice((*first).to_owned()),
        None => Answer::Number(0.0),
    };
    question.judge(&given).unwrap().truth
}

/// What is right, where that is a number.
pub fn number(question: &Question) -> f64 {
    match truth(question) {
        Answer::Number(number) => number,
        Answer::Choice(name) => panic!("{name} is no number"),
    }
}

/// The kinds in two halves, so that both processors have work.
const FIRST: [DrillKind; 7] = [
    DrillKind::Leg,
    DrillKind::Difference,
    DrillKind::Pen,
    DrillKind::Barometer,
    DrillKind::Thermometer,
    DrillKind::ElapsedTime,
    DrillKind::WaterAtRest,
];
const SECOND: [DrillKind; 6] = [
    DrillKind::Certificate,
    DrillKind::Station,
    DrillKind::PointSums,
    DrillKind::Line,
    DrillKind::ChartMean,
    DrillKind::PenAtRest,
];

fn no_two_are_alike(kinds: &[DrillKind]) {
    for &kind in kinds {
        let mut seen = BTreeSet::new();
        let mut answers = BTreeSet::new();
        for number in 0..DRAWS {
            let question = drawn(kind, 5, number);
            assert!(seen.insert(visible(&question)), "{kind} {number} is like another");
            answers.insert(format!("{:?}", truth(&question)));
            if number % 40 == 0 {
                assert_eq!(visible(&drawn(kind, 5, number)), visible(&question), "{kind} {number}");
                assert_ne!(visible(&drawn(kind, 6, number)), visible(&question), "{kind} {number}");
            }
        }
        assert!(answers.len() >= 2, "{kind} always has the same answer: {answers:?}");
    }
}

#[test]
fn no_two_questions_of_the_first_kinds_are_alike() {
    no_two_are_alike(&FIRST);
}

#[test]
fn no_two_questions_of_the_other_kinds_are_alike() {
    no_two_are_alike(&SECOND);
    let all: BTreeSet<DrillKind> = FIRST.into_iter().chain(SECOND).collect();
    assert_eq!(all.len(), DrillKind::ALL.len(), "a kind is in neither half");
}

/// The least and the greatest number that is right, over all draws of a kind.
fn range(kind: DrillKind) -> (f64, f64) {
    (0..DRAWS)
        .map(|at| number(&drawn(kind, 9, at)))
        .fold((f64::MAX, f64::MIN), |(low, high), one| (low.min(one), high.max(one)))
}

/// The readings that the scenarios bring, and some beyond them.
#[test]
fn questions_are_spread_over_the_range_of_the_bench() {
    for (kind, low, high) in [
        (DrillKind::Leg, -5.0, 5.0),
        (DrillKind::Difference, 1.5, 11.0),
        (DrillKind::Pen, 20.0, 85.0),
        (DrillKind::Barometer, 585.0, 755.0),
        (DrillKind::Thermometer, -12.0, 38.0),
    ] {
        let (least, most) = range(kind);
        assert!(least < low && most > high, "{kind} reaches from {least} to {most}");
    }
}

/// What is right is what a level eye sees, and the station pressure; off level and at sea level
/// something else is seen.
#[test]
fn the_truth_is_what_is_seen_from_the_right_place() {
    let (mut off_level, mut at_sea_level) = (0, 0);
    for at in 0..DRAWS {
        let leg = drawn(DrillKind::Leg, 3, at);
        let look = &leg.looks()[0].view;
        let Asked::Leg(of) = leg.asked() else { panic!("a leg is asked for") };
        let parallax = -look.eye_mm * 6.0 / 350.0 / 25.4;
        let seen = look.manometer.leg(*of).meniscus_in;
        assert!((seen - parallax - number(&leg)).abs() < 1e-12, "question {at}");
        off_level += u32::from(look.eye_mm.abs() > 1.0);
        let barometer = drawn(DrillKind::Barometer, 3, at);
        let look = barometer.looks()[0].view.barometer;
        if look.set_to == Some(BarometerReference::SeaLevel) {
            at_sea_level += 1;
            assert!(look.pointer_mmhg > number(&barometer), "question {at}");
        } else {
            assert_eq!(look.pointer_mmhg.to_bits(), number(&barometer).to_bits());
        }
    }
    assert!((60..140).contains(&off_level), "{off_level} of 200 are looked at from off level");
    assert!((25..80).contains(&at_sea_level), "{at_sea_level} of 200 are set to sea level");
}
