//! Nobody sees what happens at a site that nobody is at.

use super::unattended_tests::{begun, does, prepared, text};
use super::*;
use crate::session::action::{Action, Sight};
use crate::session::view::{RunStanding, View};
use crate::time::TICKS_PER_SECOND;

/// What happens while nobody is there, in words of a scenario.
const HAPPENINGS: [&str; 5] = [
    "(fault: PowerCut(minutes: 45), onset: AfterRunHours(7))",
    "(fault: FilterClogs(factor: 6), onset: AfterRunHours(3))",
    "(fault: WornBrushes(added_ohm: 3), onset: AfterRunHours(2))",
    "(fault: PenDry, onset: AfterRunHours(1))",
    "(fault: LowVoltage(by_v: 9), onset: AfterRunHours(4))",
];

/// A session that was left to its run, with this happening.
fn left(happens: &str, changes: &[(&str, &str)]) -> Session {
    let faults = format!("    faults: [{happens}],\n    certificates: [");
    let mut changes = changes.to_vec();
    changes.push(("    certificates: [", &faults));
    let mut session = begun(&text(&changes), 3);
    prepared(&mut session);
    does(&mut session, [Action::LeaveSite]);
    session
}

/// The view at every quarter of an hour until the return, and once after it.
fn views(mut session: Session) -> Vec<View> {
    let mut seen = vec![session.view()];
    while session.is_away() {
        session.advance(900 * TICKS_PER_SECOND).unwrap();
        seen.push(session.view());
    }
    seen
}

#[test]
fn what_happens_during_the_run_is_not_seen_before_the_return() {
    let quiet = views(left("", &[]));
    assert!(quiet.len() > 90, "{}", quiet.len());
    for happens in HAPPENINGS {
        let seen = views(left(happens, &[]));
        assert_eq!(seen.len(), quiet.len(), "{happens}");
        let (back, away) = seen.split_last().unwrap();
        let (quiet_back, quiet_away) = quiet.split_last().unwrap();
        for (one, other) in away.iter().zip(quiet_away) {
            assert!(one == other, "{happens}: at {}", one.time);
            assert_eq!(one.run.as_ref().unwrap().standing, RunStanding::Away);
        }
        assert!(back != quiet_back, "{happens}: nothing is seen of it on the return either");
    }
}

#[test]
fn neither_weather_nor_instruments_nor_timer_go_on_in_the_view() {
    let mut session = left("", &[]);
    let first = session.view();
    let mut copy = session.preview();
    copy.advance(60 * TICKS_PER_SECOND);
    session.advance(5 * 3600 * TICKS_PER_SECOND).unwrap();
    for later in [copy.view(), session.view()] {
        assert!(later.tick > first.tick && later.time != first.time);
        let same = View {
            tick: first.tick,
            date: first.date,
            time: first.time,
            seconds_left: first.seconds_left,
            ..later.clone()
        };
        assert!(same == first, "{later:?}");
    }
    session.act(Action::Look { at: Sight::Certificate(0), eye_mm: 0.0 }).unwrap();
    assert_eq!(session.view().focus, Sight::Certificate(0), "the papers are at hand");
    session.come_back().unwrap();
    let back = session.view();
    assert!(back.run.unwrap().timer.meter_min > first.run.unwrap().timer.meter_min + 1000.0);
}
