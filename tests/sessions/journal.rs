//! The journal: a session can be had again from it, bit for bit, from whatever was left of it.

use sim_core::session::action::Action;
use sim_core::session::ending::Ending;
use sim_core::session::journal::{self, JournalError, JournalSink, NullSink, SinkError};
use sim_core::session::{ActError, Session, replay};
use sim_core::time::Tick;
use steady_draw::commands::drive::{DriveArguments, run_on};

use super::recorded::{
    Paper, Recorded, actions, advance_to, recorded, rehearsed, scenario, sealed_at,
};

const CLEAN: &str = "01_first_calibration.ron";

/// A clean session, one of a bad habit, and one that the time limit ends; the last in a scenario
/// with letters of two and three bytes.
fn sessions() -> [Recorded; 3] {
    let clean = scenario(CLEAN);
    let limited = clean
        .replace("Teasel Quay", "Mühle am Kai – 2 µm")
        .replace("terms: (", "terms: (time_limit_min: 20, ");
    [
        rehearsed(&clean, "careful", 1),
        rehearsed(&scenario("03_a_new_blower.ron"), "hurried+one-leg", 3),
        rehearsed(&limited, "careful", 2),
    ]
}

/// What a journal comes to when it is replayed to its end.
fn replayed(text: &str) -> (Recorded, usize) {
    let replayed = replay::replay(text, Box::new(NullSink)).unwrap();
    assert!(!replayed.cut_short);
    (recorded(replayed.session, text.to_owned()), replayed.checks)
}

/// Goes on with what is left of a journal, does what is missing at its ticks, and gives the whole.
fn resumed(left: &str, all: &[(Tick, Action)], end: Tick) -> Result<Recorded, JournalError> {
    let paper = Paper::default();
    let whole_bytes = replay::whole_bytes(left)?;
    let replayed = replay::replay(left, Box::new(paper.clone()))?;
    assert_eq!(replayed.whole_bytes, whole_bytes);
    assert_eq!(replayed.cut_short, whole_bytes < left.len());
    let mut session = replayed.session;
    let done = actions(&left[..whole_bytes]).len();
    for (tick, action) in &all[done..] {
        advance_to(&mut session, *tick);
        session.act(action.clone()).unwrap();
    }
    advance_to(&mut session, end);
    Ok(recorded(session, left[..whole_bytes].to_owned() + &paper.text()))
}

#[test]
fn a_replay_ends_in_the_same_bits_and_marks() {
    for session in sessions() {
        let (again, checks) = replayed(&session.journal);
        assert_eq!(again, session);
        let minutes = sealed_at(&session.journal).seconds() / 60.0;
        assert_eq!(checks, minutes as usize + 1, "one checksum a minute and the seal");
    }
}

#[test]
fn the_same_actions_through_drive_end_in_the_same_bits_and_marks() {
    let folder = tempfile::tempdir().unwrap();
    for (index, (name, operator, seed)) in
        [(CLEAN, "careful", 1), ("03_a_new_blower.ron", "hurried+one-leg", 3)].iter().enumerate()
    {
        let rehearsed = rehearsed(&scenario(name), operator, *seed);
        // The same, with the waits written down that this front end needs between two actions.
        let paper = Paper::default();
        let mut shadow = Session::begin(&scenario(name), *seed, Box::new(paper.clone())).unwrap();
        let mut input = String::new();
        for (tick, action) in actions(&rehearsed.journal) {
            let ticks = tick.0 - shadow.now().max(shadow.busy_until()).0;
            if ticks > 0 {
                let seconds = ticks as f64 / 20.0;
                input += &format!("{{\"wait\":{{\"seconds\":{seconds}}}}}\n");
                shadow.wait(seconds).unwrap();
            }
            input += &serde_json::to_string(&action).unwrap();
            input += "\n";
            match action {
                Action::Wait { seconds } => shadow.wait(seconds).unwrap(),
                action => shadow.act(action).unwrap(),
            }
        }
        let shadow = recorded(shadow, paper.text());
        let path = folder.path().join(format!("{index}.journal"));
        let arguments = DriveArguments {
            ask_judgement: false,
            name: None,
            scenario: Some(bench_tests::repository().join("scenarios").join(name)),
            drawn: Default::default(),
            seed: *seed,
            words: false,
            journal: Some(path.clone()),
            resume: None,
        };
        let mut out = Vec::new();
        run_on(arguments, &mut input.as_bytes(), &mut out).unwrap();
        let (driven, _) = replayed(&std::fs::read_to_string(&path).unwrap());
        assert_eq!((&driven.digest, &driven.marks), (&shadow.digest, &shadow.marks));
        assert_eq!(driven.marks, rehearsed.marks);
        let said = String::from_utf8(out).unwrap();
        let last: serde_json::Value = serde_json::from_str(said.lines().last().unwrap()).unwrap();
        let marks: serde_json::Value = serde_json::from_str(&rehearsed.marks).unwrap();
        assert_eq!((&last["marks"], last["journal_head"].as_str()), (&marks, Some(&*driven.head)));
    }
}

#[test]
fn a_journal_cut_at_any_line_goes_on_to_the_same_end() {
    for session in sessions() {
        let all = actions(&session.journal);
        let end = sealed_at(&session.journal);
        let mut cut = 0;
        let mut lines = 0;
        for piece in session.journal.split_inclusive('\n') {
            cut += piece.len();
            lines += 1;
            let left = &session.journal[..cut];
            match resumed(left, &all, end) {
                Ok(whole) => assert!(lines > 2 && whole == session, "cut behind line {lines}"),
                Err(error) => {
                    assert!(lines <= 2, "cut behind line {lines}: {error}");
                    assert_eq!(error.to_string(), format!("line {lines}: {UNBEGUN}"));
                }
            }
        }
    }
}

/// What is said about a journal that holds its head only.
const UNBEGUN: &str = "the journal ends before its session begins: there is nothing to replay, so begin a new session";

#[test]
fn a_journal_cut_inside_a_line_loses_that_line_only() {
    for session in sessions() {
        let all = actions(&session.journal);
        let end = sealed_at(&session.journal);
        let bytes = session.journal.as_bytes();
        let head: usize = session.journal.split_inclusive('\n').take(3).map(str::len).sum();
        // Every byte of the head and a prime step behind it, so that every part of a line is met.
        for cut in (1..head).chain((head..bytes.len()).step_by(7)) {
            let left = journal::text(bytes[..cut].to_vec()).unwrap();
            let whole = bytes[..cut].iter().rposition(|&byte| byte == b'\n').map_or(0, |at| at + 1);
            match journal::read(&left) {
                Ok(read) => {
                    assert_eq!((read.whole_bytes, read.cut_short), (whole, whole < cut), "{cut}");
                }
                Err(error) => assert!(whole == 0, "cut at byte {cut}: {error}"),
            }
            if cut >= head && cut % 29 == 0 {
                let gone_on = resumed(&left, &all, end).unwrap();
                assert!(gone_on == session, "cut at byte {cut}");
            }
        }
    }
}

/// Ink that fails now and then, and can be read.
struct Flaky {
    paper: Paper,
    lines: usize,
    fails_at: usize,
}

impl JournalSink for Flaky {
    fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
        self.lines += 1;
        if self.lines == self.fails_at {
            return Err(SinkError("the disk is full".to_owned()));
        }
        self.paper.write_line(line)
    }
}

#[test]
fn a_line_that_could_not_be_written_was_not_done_and_the_journal_still_holds() {
    let session = rehearsed(&scenario("02_two_lines_and_an_audit.ron"), "careful", 1);
    let all = actions(&session.journal);
    let end = sealed_at(&session.journal);
    for fails_at in 4..=session.journal.lines().count() {
        let paper = Paper::default();
        let ink = Flaky { paper: paper.clone(), lines: 0, fails_at };
        let text = scenario("02_two_lines_and_an_audit.ron");
        let mut live = Session::begin(&text, 1, Box::new(ink)).unwrap();
        let mut failures = 0;
        for (tick, action) in &all {
            while live.now() < *tick {
                let left = tick.0 - live.now().0;
                failures += usize::from(live.advance(left).is_err());
            }
            let before = live.digest();
            if let Err(error) = live.act(action.clone()) {
                assert!(matches!(error, ActError::Sink(_)), "{error}");
                failures += 1;
                if live.ended().is_none() {
                    assert_eq!(live.digest(), before, "{action:?}");
                    live.act(action.clone()).unwrap();
                }
            }
        }
        assert_eq!((failures, live.now(), live.ended()), (1, end, Some(Ending::Signed)));
        // The missing line was a checksum, the seal, or was written in the second try.
        let missing = session.journal.lines().count() - paper.text().lines().count();
        assert!(missing <= 1, "{missing} lines are missing when line {fails_at} failed");
        let again = replay::replay(&paper.text(), Box::new(NullSink)).unwrap().session;
        assert_eq!((again.digest(), again.ended()), (session.digest.clone(), live.ended()));
        assert_eq!(recorded(again, String::new()).marks, session.marks);
    }
}
