//! A sampler calibrated at its controlled flow alone (40 CFR Part 50 App. B, 9.4, from memory): the
//! controller is trimmed until the standard shows the ordered flow.

use sim_core::field_book::{Decision, Field};
use sim_core::marking::compared::compare;
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;

const SCENARIO: &str = include_str!("../../scenarios/41_one_flow_only.ron");

/// The session of an operator.
fn session_of(operator: &str, seed: u64) -> EndedSession {
    let mut session = Session::begin_unrecorded(SCENARIO, seed).unwrap();
    rehearse(&mut session, by_name(operator, seed).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

/// By how much the ordered flow is above the true one at the readings of the standard, percent.
fn off_pct(session: &EndedSession) -> f64 {
    compare(session).check.and_then(|check| check.true_difference_pct).expect("readings")
}

fn broken(session: &EndedSession) -> Vec<&'static str> {
    mark(&session.evidence()).findings.iter().map(|finding| finding.rule).collect()
}

#[test]
fn the_flow_is_trimmed_to_the_ordered_one_and_held_there() {
    for seed in 1..=20 {
        let session = session_of("careful", seed);
        let marks = mark(&session.evidence());
        assert!(marks.passed && marks.total > 97.0, "seed {seed}: {} marks", marks.total);
        assert_eq!(session.book.decision(Field::CheckOutcome), Some(Decision::CheckPassed));
        // The screw moves the flow by one percent for each fifth of a turn; legs are read to half a tenth
        // of an inch of some three inches.
        let off = off_pct(&session);
        assert!(off.abs() < 3.0, "seed {seed}: {off:+.2} %");
        let turns = |action: &Action| matches!(action, Action::TurnTrim { .. });
        assert!(session.events.iter().any(|event| turns(&event.action)), "seed {seed}");
        // No line is made, and the flow of none is told.
        for field in [Field::Slope, Field::SetPoint, Field::CheckLineFlow] {
            assert_eq!(session.book.text(field), None, "seed {seed}: {field:?}");
        }
    }
}

#[test]
fn who_leaves_the_screw_as_it_was_found_calibrates_another_flow() {
    for seed in 1..=5 {
        let session = session_of("leaves-screw", seed);
        let off = off_pct(&session);
        assert!(off.abs() > 5.0, "seed {seed}: {off:+.2} %");
        assert!(broken(&session).contains(&"check-trimmed"), "seed {seed}");
        assert!(!mark(&session.evidence()).passed, "seed {seed}");
    }
}

#[test]
fn one_leg_trims_to_a_flow_that_is_far_too_high() {
    let session = session_of("one-leg", 1);
    let off = off_pct(&session);
    // Half the pressure reads as 0.707 of the flow: the true flow is to become 1.41 times the ordered one,
    // which the blower does not reach through a filter.
    assert!(off < -10.0, "{off:+.2} %");
    assert!(broken(&session).contains(&"check-trimmed"));
}
