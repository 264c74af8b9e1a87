//! What counts as a leak check.

use super::super::test_bench::{TestSession, careful};
use super::broken;
use crate::session::action::Action;
use crate::time::Tick;

fn is_one(change: impl FnOnce(&mut TestSession)) -> bool {
    let mut session = careful();
    change(&mut session);
    !broken(&session).contains(&"leak-check")
}

/// Uncovers the openings so many ticks after they were covered.
fn uncovered_after(session: &mut TestSession, ticks: u64) {
    let covered = session.events.iter().find(|at| at.action == Action::BlockOpenings).unwrap();
    let covered = covered.tick.0;
    for moment in &mut session.events {
        if matches!(moment.action, Action::Listen | Action::FreeOpenings) {
            moment.tick = moment.tick.min(Tick(covered + ticks));
        }
    }
}

#[test]
fn openings_covered_for_no_time_are_no_leak_check() {
    assert!(is_one(|_| ()));
    assert!(!is_one(|session| uncovered_after(session, 0)));
    assert!(!is_one(|session| uncovered_after(session, 59)));
    assert!(is_one(|session| uncovered_after(session, 60)));
}

#[test]
fn a_rotor_that_does_not_run_yet_draws_no_air_through_a_leak() {
    let listens = |action: &Action| matches!(action, Action::Listen);
    assert!(!is_one(|session| session.at(listens, |facts| facts.speed_ratio = 0.3)));
    assert!(is_one(|session| session.at(listens, |facts| facts.speed_ratio = 0.9)));
}
