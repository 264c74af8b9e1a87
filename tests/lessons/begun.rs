//! The beginning of a lesson, bit for bit, and its journal.

use sim_core::operator::{self, by_name, in_session, rehearse};
use sim_core::session::journal::{Chain, JournalLine, NullSink};
use sim_core::session::replay::replay;
use sim_core::session::{BeginError, Session};
use sim_core::time::Tick;

use super::{lesson, lessons, read, whole};
use crate::sessions::recorded::{Paper, Recorded, advance_to, recorded};

/// The bodies of a journal's lines.
fn bodies(journal: &str) -> Vec<String> {
    journal.lines().map(|line| line.split_once(' ').unwrap().1.to_owned()).collect()
}

/// A journal of these bodies, with a chain of its own.
fn rebuilt(bodies: &[String]) -> String {
    let mut chain = Chain::default();
    bodies.iter().map(|body| chain.add(body) + "\n").collect()
}

fn is_action(body: &str) -> bool {
    matches!(ron::from_str(body), Ok(JournalLine::Act { .. }))
}

/// A lesson worked by an operator.
fn worked(text: &str, name: &str, seed: u64) -> Recorded {
    let paper = Paper::default();
    let mut session = operator::begin(text, seed, Box::new(paper.clone())).unwrap();
    let mut hands = in_session(name, &session).unwrap();
    rehearse(&mut session, hands.as_mut()).unwrap();
    recorded(session, paper.text())
}

/// The journal of the careful operator's session of the whole job.
fn careful_journal(text: &str, seed: u64) -> String {
    let paper = Paper::default();
    let mut session = Session::begin(text, seed, Box::new(paper.clone())).unwrap();
    rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
    paper.text()
}

/// The checksum that a session has at a tick, after so many of the actions in its journal.
fn checksum_at(journal: &str, actions: usize, tick: Tick) -> String {
    let mut kept = Vec::new();
    let mut done = 0;
    for body in bodies(journal) {
        let later = match ron::from_str(&body).unwrap() {
            JournalLine::Act { .. } => {
                done += 1;
                done > actions
            }
            JournalLine::Check { tick: at, .. } => at > tick,
            _ => false,
        };
        if later {
            break;
        }
        kept.push(body);
    }
    let mut session = replay(&rebuilt(&kept), Box::new(NullSink)).unwrap().session;
    advance_to(&mut session, tick);
    session.digest()
}

#[test]
fn each_lesson_begins_where_the_careful_operator_comes_in_the_whole_job_bit_for_bit() {
    let mut before = 0;
    for (name, text) in lessons() {
        for seed in [1, 7, 23] {
            let paper = Paper::default();
            let session = operator::begin(&text, seed, Box::new(paper.clone())).unwrap();
            let begun = bodies(&paper.text());
            let Ok(JournalLine::Lesson { tick, digest }) = ron::from_str(begun.last().unwrap())
            else {
                panic!("{name}: no lesson begins in {:?}", begun.last());
            };
            let careful = careful_journal(&whole(&text), seed);
            let done: Vec<&String> = begun.iter().filter(|body| is_action(body)).collect();
            let of_whole = bodies(&careful);
            let of_whole: Vec<&String> =
                of_whole.iter().filter(|body| is_action(body)).take(done.len()).collect();
            assert_eq!(done, of_whole, "{name}, seed {seed}");
            let there = checksum_at(&careful, done.len(), tick);
            assert_eq!(digest, there, "{name}, seed {seed}: another state at {tick:?}");
            let began = session.lesson_began().unwrap();
            assert_eq!((began.tick, began.events), (tick, done.len()), "{name}");
            before += done.len();
        }
    }
    assert!(before > 1_000, "{before} actions were done before the lessons");
}

#[test]
fn a_lesson_is_replayed_to_the_same_bits_and_marks_by_a_program_that_knows_no_operator() {
    for (name, text) in lessons() {
        let about = read(&text).about.remove(0);
        for who in ["careful", about.as_str()] {
            let first = worked(&text, who, 3);
            let again = replay(&first.journal, Box::new(NullSink)).unwrap();
            assert_eq!(recorded(again.session, first.journal.clone()), first, "{name}, {who}");
        }
    }
}

#[test]
fn a_lesson_without_a_journal_is_the_same_session() {
    for (name, text) in lessons() {
        let one = operator::begin(&text, 5, Box::new(NullSink)).unwrap();
        let other = operator::begin_unrecorded(&text, 5).unwrap();
        assert_eq!(one.view(), other.view(), "{name}");
        assert_eq!(one.lesson_began(), other.lesson_began(), "{name}");
    }
}

#[test]
fn a_journal_goes_on_after_its_lesson_began_and_not_before() {
    let text = lesson("5_seven_flows.ron");
    let first = worked(&text, "careful", 3);
    let all = bodies(&first.journal);
    let at = all.iter().position(|body| body.starts_with("Lesson(")).unwrap();
    let before = rebuilt(&all[..at]);
    let error = replay(&before, Box::new(NullSink)).unwrap_err().to_string();
    assert!(error.contains("the journal ends before its lesson begins"), "{error}");
    let begun = replay(&rebuilt(&all[..=at]), Box::new(NullSink)).unwrap().session;
    let mut hands = in_session("careful", &begun).unwrap();
    let paper = Paper::default();
    let mut session = replay(&rebuilt(&all[..=at]), Box::new(paper.clone())).unwrap().session;
    rehearse(&mut session, hands.as_mut()).unwrap();
    assert_eq!(session.digest(), first.digest);
}

#[test]
fn the_line_at_which_a_lesson_begins_cannot_be_moved_removed_or_written_twice() {
    let text = lesson("5_seven_flows.ron");
    let all = bodies(&worked(&text, "careful", 3).journal);
    let at = all.iter().position(|body| body.starts_with("Lesson(")).unwrap();
    let mut removed = all.clone();
    let line = removed.remove(at);
    assert!(replay(&rebuilt(&removed), Box::new(NullSink)).is_err());
    for to in [at - 3, at + 2] {
        let mut moved = removed.clone();
        moved.insert(to, line.clone());
        assert!(replay(&rebuilt(&moved), Box::new(NullSink)).is_err(), "moved to {to}");
    }
    let mut twice = all.clone();
    twice.insert(at + 1, line.clone());
    assert!(replay(&rebuilt(&twice), Box::new(NullSink)).is_err());
    // Nor does a lesson begin in a job that is none.
    let mut whole_job = bodies(&careful_journal(&whole(&text), 3));
    whole_job.insert(4, line);
    assert!(replay(&rebuilt(&whole_job), Box::new(NullSink)).is_err());
}

#[test]
fn nobody_works_in_a_lesson_before_it_has_begun() {
    let text = lesson("3_hung_and_zeroed.ron");
    let refused = [
        Session::begin(&text, 1, Box::new(NullSink)).err(),
        Session::begin_unrecorded(&text, 1).err(),
    ];
    assert!(refused.iter().all(|error| *error == Some(BeginError::IsLesson)), "{refused:?}");
}

#[test]
fn a_lesson_whose_beginning_is_not_reached_says_why() {
    let stopped = lesson("5_seven_flows.ron").replace(
        "    terms: (",
        "    faults: [(fault: ManometerBubble(length_mm: 5))],\n    terms: (",
    );
    let error = operator::begin_unrecorded(&stopped, 1).unwrap_err().to_string();
    assert!(error.contains("the careful operator gave the work up before it"), "{error}");
    let thunder =
        lesson("5_seven_flows.ron").replace("weather: (", "weather: (thunder_min: Fixed(3),");
    let error = operator::begin_unrecorded(&thunder, 1).unwrap_err().to_string();
    assert!(error.contains("left the roof before it"), "{error}");
}
