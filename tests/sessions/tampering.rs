//! A journal from which an action or a checksum was removed, or in which one was added or changed,
//! with its chain rebuilt so that every line follows from the lines before it.

use sim_core::rig::parts::Leg;
use sim_core::session::action::{Action, FaultPlace, FaultReport, Response, Sight, SuspectedCause};
use sim_core::session::journal::{Chain, JournalLine, NullSink};
use sim_core::session::replay::replay;
use sim_core::time::Tick;

use super::recorded::{rehearsed, scenario};

/// Lines at the head of every journal.
const HEAD: usize = 3;

/// The bodies of a journal's lines.
fn bodies(journal: &str) -> Vec<String> {
    journal.lines().map(|line| line.split_once(' ').unwrap().1.to_owned()).collect()
}

/// A journal of these bodies, with a chain of its own.
fn rebuilt(bodies: &[String]) -> String {
    let mut chain = Chain::default();
    bodies.iter().map(|body| chain.add(body) + "\n").collect()
}

fn line(body: &str) -> JournalLine {
    ron::from_str(body).unwrap()
}

/// The same line with something else done, or with another checksum. `None` for a line that is
/// neither.
fn changed(body: &str) -> Option<String> {
    let line = match line(body) {
        JournalLine::Act { tick, action } => JournalLine::Act { tick, action: another(action) },
        JournalLine::Check { tick, digest } => {
            JournalLine::Check { tick, digest: digest.chars().rev().collect() }
        }
        _ => return None,
    };
    Some(line.body().unwrap())
}

/// An action that changes the bench as little as possible, and is not the same.
fn another(action: Action) -> Action {
    match action {
        Action::Look { at, eye_mm } => Action::Look { at, eye_mm: eye_mm + 0.25 },
        Action::Write { field, text } => Action::Write { field, text: text + " " },
        Action::Report(report) => {
            Action::Report(FaultReport { seen: report.seen.clone() + ".", ..report })
        }
        Action::Wait { seconds } => Action::Wait { seconds: seconds - 0.01 },
        Action::Listen => Action::Look { at: Sight::Sky, eye_mm: 0.0 },
        _ => Action::Listen,
    }
}

/// Actions that leave the bench as it is.
fn idle() -> [Action; 3] {
    let report = FaultReport {
        place: FaultPlace::Tube,
        cause: SuspectedCause::NotKnownYet,
        seen: "nothing".to_owned(),
        shown_by: Vec::new(),
        response: Response::Noted,
    };
    [
        Action::Look { at: Sight::LeftLeg, eye_mm: 0.0 },
        Action::Report(report),
        Action::TurnValve { leg: Leg::Left, quarter_turns: 0 },
    ]
}

/// What is wrong with a journal of these bodies; the line that was altered if nothing is.
fn refused(bodies: &[String], at: usize) -> Result<(), usize> {
    match replay(&rebuilt(bodies), Box::new(NullSink)) {
        Ok(_) => Err(at + 1),
        Err(_) => Ok(()),
    }
}

fn a_journal() -> Vec<String> {
    let recorded = rehearsed(&scenario("01_first_calibration.ron"), "hurried", 5);
    let bodies = bodies(&recorded.journal);
    assert!(replay(&rebuilt(&bodies), Box::new(NullSink)).is_ok(), "untouched, it replays");
    assert!(bodies.iter().any(|body| body.starts_with("Check")));
    bodies
}

#[test]
fn an_action_or_checksum_cannot_be_left_out() {
    let bodies = a_journal();
    // Without its seal a journal is one that is still being written.
    for at in HEAD..bodies.len() - 1 {
        let mut fewer = bodies.clone();
        fewer.remove(at);
        assert_eq!(refused(&fewer, at), Ok(()), "{}", bodies[at]);
    }
}

#[test]
fn an_action_or_checksum_cannot_be_changed() {
    let bodies = a_journal();
    for at in HEAD..bodies.len() - 1 {
        let mut other = bodies.clone();
        other[at] = changed(&bodies[at]).unwrap();
        assert_eq!(refused(&other, at), Ok(()), "{}", bodies[at]);
        // The same action a tick later is another one.
        if let JournalLine::Act { tick, action } = line(&bodies[at]) {
            other[at] = JournalLine::Act { tick: Tick(tick.0 + 1), action }.body().unwrap();
            assert_eq!(refused(&other, at), Ok(()), "{}", bodies[at]);
        }
    }
}

#[test]
fn an_action_or_checksum_cannot_be_added() {
    let bodies = a_journal();
    for at in HEAD..bodies.len() {
        let tick = match line(&bodies[at]) {
            JournalLine::Act { tick, .. }
            | JournalLine::Check { tick, .. }
            | JournalLine::Sealed { tick, .. } => tick,
            other => panic!("{other:?}"),
        };
        let mut lines: Vec<JournalLine> =
            idle().into_iter().map(|action| JournalLine::Act { tick, action }).collect();
        lines.push(JournalLine::Check { tick, digest: "0123456789abcdef".to_owned() });
        for added in lines {
            let mut more = bodies.clone();
            more.insert(at, added.body().unwrap());
            assert_eq!(refused(&more, at), Ok(()), "{added:?}");
        }
        let mut twice = bodies.clone();
        twice.insert(at, bodies[at].clone());
        assert_eq!(refused(&twice, at), Ok(()), "{} twice", bodies[at]);
    }
}
