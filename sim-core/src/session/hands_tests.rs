//! Hands take time, whoever gives the actions.

use super::*;
use crate::digest::sha256_hex;
use crate::field_book::Field;
use crate::rig::parts::{Nut, PartPlace, RigPart};
use crate::session::action::{Action, HelpTopic, Sight};
use crate::session::journal::{Chain, JournalError, JournalLine, JournalSink, NullSink, SinkError};
use crate::session::preview::Preview;
use crate::session::replay::replay;
use crate::time::{TICKS_PER_SECOND, Tick};
use std::sync::{Arc, Mutex};

const SCENARIO: &str = include_str!("../../../scenarios/01_first_calibration.ron");

/// Keeps the lines of a journal.
#[derive(Clone, Default)]
struct Paper(Arc<Mutex<Vec<String>>>);

impl JournalSink for Paper {
    fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
        self.0.lock().unwrap().push(line.to_owned());
        Ok(())
    }
}

fn begun() -> Session {
    Session::begin(SCENARIO, 1, Box::new(NullSink)).unwrap()
}

fn seconds(session: &Session) -> f64 {
    session.now().seconds()
}

fn look(at: Sight) -> Action {
    Action::Look { at, eye_mm: 0.0 }
}

#[test]
fn what_is_asked_too_early_begins_when_the_hands_are_free() {
    let mut session = begun();
    session.act(Action::OpenLid).unwrap();
    assert!(session.view().mounting.lid_open, "the effect comes at once");
    assert_eq!((session.now(), session.busy_until()), (Tick(0), Tick(60)));
    let [nut, ..] = Nut::ALL;
    session.act(Action::TurnNut { nut, quarter_turns: -8 }).unwrap();
    assert_eq!((session.now(), session.busy_until()), (Tick(60), Tick(140)));
    session.advance(200).unwrap();
    session.act(Action::CloseLid).unwrap();
    assert_eq!(session.now(), Tick(260), "whoever is slower than that loses nothing");
}

#[test]
fn a_calibrator_is_carried_for_twenty_seconds_and_an_eye_moves_in_half_a_second() {
    let mut session = begun();
    let part = RigPart::Calibrator;
    session.act(Action::Take { part }).unwrap();
    session.act(Action::Put { place: PartPlace::Ground }).unwrap();
    session.finish_hands().unwrap();
    assert!((seconds(&session) - 20.0).abs() < 1e-9);
    session.act(look(Sight::LeftLeg)).unwrap();
    session.act(Action::Look { at: Sight::LeftLeg, eye_mm: 5.0 }).unwrap();
    assert!((seconds(&session) - 24.0).abs() < 1e-9);
    session.finish_hands().unwrap();
    assert!((seconds(&session) - 24.5).abs() < 1e-9);
    session.act(Action::AskHelp { topic: HelpTopic::WhatNow }).unwrap();
    assert_eq!(session.busy_until(), session.now());
    session.wait(10.0).unwrap();
    assert!((seconds(&session) - 34.5).abs() < 1e-9);
}

#[test]
fn what_cannot_be_done_costs_no_time() {
    let mut session = begun();
    session.act(look(Sight::WorkOrder)).unwrap();
    let before = (session.now(), session.digest());
    let [nut, ..] = Nut::ALL;
    for refused in [Action::CloseLid, Action::TurnNut { nut, quarter_turns: 4 }] {
        assert!(matches!(session.act(refused), Err(ActError::Refused(_))));
        assert_eq!((session.now(), session.digest()), before);
    }
}

#[test]
fn time_that_runs_out_while_the_hands_are_busy_ends_the_session() {
    let limited = SCENARIO.replace("terms: (", "terms: (time_limit_min: 30, ");
    let mut session = Session::begin(&limited, 1, Box::new(NullSink)).unwrap();
    let limit = session.limit_tick().unwrap();
    session.advance(limit.0 - 10).unwrap();
    session.act(Action::OpenLid).unwrap();
    assert_eq!(session.act(Action::CloseLid), Err(ActError::Ended));
    assert_eq!((session.ended(), session.now()), (Some(ending::Ending::TimeOut), limit));
}

#[test]
fn checksums_that_fall_due_while_the_hands_are_busy_are_written() {
    let paper = Paper::default();
    let mut session = Session::begin(SCENARIO, 1, Box::new(paper.clone())).unwrap();
    session.wait(58.0).unwrap();
    session.act(look(Sight::WorkOrder)).unwrap();
    session.act(Action::Sign).unwrap();
    let lines = paper.0.lock().unwrap().clone();
    assert!(lines.iter().any(|line| line.contains("Check(tick:1200")), "{lines:#?}");
    let text = lines.join("\n") + "\n";
    assert_eq!(replay(&text, Box::new(NullSink)).unwrap().checks, 2);
}

#[test]
fn a_journal_in_which_hands_are_too_quick_is_refused() {
    let mut chain = Chain::default();
    let mut text = String::new();
    let mut write = |line: JournalLine| text += &(chain.add(&line.body().unwrap()) + "\n");
    write(JournalLine::Journal { form: journal::FORM, version: crate::VERSION.to_owned() });
    let sha256 = sha256_hex(SCENARIO.as_bytes());
    write(JournalLine::Scenario { sha256, text: SCENARIO.to_owned() });
    let drawn = begun().scenario.drawn.to_journal();
    write(JournalLine::Drawn { seed: 1, values: drawn });
    write(JournalLine::Act { tick: Tick(0), action: Action::OpenLid });
    write(JournalLine::Act { tick: Tick(59), action: Action::CloseLid });
    let error = replay(&text, Box::new(NullSink)).unwrap_err();
    assert_eq!(error, JournalError::HandsBusy { line: 5, seconds: 2 });
    assert!(error.to_string().contains("the hands are still busy"), "{error}");
}

#[test]
fn a_demonstration_spends_its_minute_with_its_hands() {
    let session = begun();
    let mut copy = session.preview();
    let lid = |copy: &mut Preview, open: bool| {
        copy.act(if open { Action::OpenLid } else { Action::CloseLid })
    };
    for turn in 0..21 {
        lid(&mut copy, turn % 2 == 0).unwrap();
    }
    assert_eq!(copy.now(), Tick(60 * TICKS_PER_SECOND));
    assert!(matches!(lid(&mut copy, false), Err(ActError::Refused(_))));
}

#[test]
fn a_checksum_that_could_not_be_written_is_written_before_anything_else() {
    /// Fails once, at the first checksum.
    #[derive(Clone, Default)]
    struct FullDisk(Paper, Arc<Mutex<bool>>);
    impl JournalSink for FullDisk {
        fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
            let mut failed = self.1.lock().unwrap();
            if line.contains("Check(") && !*failed {
                *failed = true;
                return Err(SinkError("the disk is full".to_owned()));
            }
            self.0.write_line(line)
        }
    }
    let disk = FullDisk::default();
    let mut session = Session::begin(SCENARIO, 1, Box::new(disk.clone())).unwrap();
    assert!(session.advance(61 * TICKS_PER_SECOND).is_err());
    let field = Field::Remarks;
    session.act(Action::Write { field, text: "the disk was full".to_owned() }).unwrap();
    session.act(Action::Sign).unwrap();
    let text = disk.0.0.lock().unwrap().join("\n") + "\n";
    let again = replay(&text, Box::new(NullSink)).unwrap();
    assert_eq!(again.session.digest(), session.digest());
}
