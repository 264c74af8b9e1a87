//! The time line shows the work in its order, and leaves nothing out.

use super::*;
use crate::marking::mark;
use crate::operator::{by_name, rehearse};
use crate::session::Session;
use crate::session::ended_session::EndedSession;
use crate::session::journal::NullSink;

const PLAIN: &str = include_str!("../../../../scenarios/01_first_calibration.ron");
const LEAK: &str = include_str!("../../../../scenarios/03_a_new_blower.ron");
const RUN: &str = include_str!("../../../../scenarios/27_from_set_point_to_volume.ron");

fn signed(scenario: &str, operator: &str) -> EndedSession {
    let mut session = Session::begin(scenario, 3, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name(operator, 3).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

fn line(signed: &EndedSession) -> (TimeLine, Marks) {
    let evidence = signed.evidence();
    let marks = mark(&evidence);
    (TimeLine::of(&evidence, &marks), marks)
}

/// The phases in the order in which they first began.
fn begun(line: &TimeLine) -> Vec<WorkPhase> {
    let mut begun = Vec::new();
    for span in &line.phases {
        if !begun.contains(&span.phase) {
            begun.push(span.phase);
        }
    }
    begun
}

#[test]
fn the_phases_of_a_careful_calibration_come_in_the_order_of_the_work() {
    let (line, _) = line(&signed(PLAIN, "careful"));
    use WorkPhase::{Arrive, Manometer, Points, Power, Restore, Strip, Sums};
    let begun = begun(&line);
    let (work, rest) = begun.split_at(5);
    assert_eq!(work, [Arrive, Strip, Manometer, Power, Points], "{:?}", line.phases);
    // The calculations are done before or after the rig is dismantled; the set point takes no time
    // of its own.
    let mut rest = rest.to_vec();
    rest.sort_unstable();
    assert_eq!(rest, [Restore, Sums], "{:?}", line.phases);
}

#[test]
fn a_run_brings_its_own_phases_and_the_day_away() {
    let (line, _) = line(&signed(RUN, "careful"));
    let begun = begun(&line);
    assert_eq!(begun[begun.len() - 3..], [WorkPhase::Load, WorkPhase::Recover, WorkPhase::Volume]);
    let away: Vec<&Wait> = line.waits.iter().filter(|wait| wait.kind == WaitKind::Away).collect();
    let [away] = away.as_slice() else { panic!("{:?}", line.waits) };
    assert!(away.to.seconds_since(away.from) > 20.0 * 3600.0);
    assert_eq!(line.phase_at(away.from), Some(WorkPhase::Load));
}

#[test]
fn phases_follow_each_other_without_a_gap_and_few_are_gone_back_to() {
    for (scenario, operator) in [(PLAIN, "careful"), (LEAK, "careful"), (PLAIN, "hurried")] {
        let (line, _) = line(&signed(scenario, operator));
        assert_eq!(line.phases.first().unwrap().from, Tick(0));
        assert_eq!(line.phases.last().unwrap().to, line.end);
        for pair in line.phases.windows(2) {
            assert!(pair[0].from < pair[0].to && pair[0].to == pair[1].from, "{pair:?}");
            assert_ne!(pair[0].phase, pair[1].phase);
        }
        assert!(line.phases.len() <= 14, "{operator}: {:?}", line.phases);
    }
}

#[test]
fn the_five_minutes_of_the_warm_up_are_a_wait_and_hands_at_work_are_none() {
    let (line, _) = line(&signed(PLAIN, "careful"));
    let warm = |wait: &&Wait| line.phase_at(wait.from) == Some(WorkPhase::Power);
    let longest = line.waits.iter().filter(warm).map(|w| w.to.seconds_since(w.from));
    assert!(longest.fold(0.0, f64::max) >= 200.0, "{:?}", line.waits);
    assert!(line.waits.iter().all(|wait| wait.to.seconds_since(wait.from) >= WAIT_FROM_S));
}

#[test]
fn every_reading_finding_remark_and_the_decision_stand_at_their_moments() {
    let signed = signed(LEAK, "careful+one-leg");
    let (line, marks) = line(&signed);
    assert!(line.notes.is_sorted_by_key(|note| note.tick));
    let count =
        |wanted: fn(&NoteKind) -> bool| line.notes.iter().filter(|n| wanted(&n.what)).count();
    assert_eq!(count(|what| matches!(what, NoteKind::Reading(_))), marks.readings.len());
    assert_eq!(count(|what| matches!(what, NoteKind::Finding(_))), marks.findings.len());
    assert!(count(|what| matches!(what, NoteKind::Remark(_))) > 0);
    assert_eq!(count(|what| matches!(what, NoteKind::Decision)), 1);
    assert!(!marks.findings.is_empty());
    for note in &line.notes {
        match note.what {
            NoteKind::Reading(n) => assert_eq!(marks.readings[n].tick, note.tick),
            NoteKind::Finding(n) => assert_eq!(marks.findings[n].tick, note.tick),
            NoteKind::Remark(_) | NoteKind::Decision => assert!(note.tick <= line.end),
        }
    }
}

#[test]
fn a_session_in_which_nothing_was_done_is_one_phase() {
    let mut session = Session::begin(PLAIN, 1, Box::new(NullSink)).unwrap();
    session.act(Action::Sign).unwrap();
    let (line, _) = line(&session.open().unwrap());
    assert_eq!(line.phases, [Span { phase: WorkPhase::Arrive, from: Tick(0), to: Tick(0) }]);
    assert!(line.waits.is_empty());
}
