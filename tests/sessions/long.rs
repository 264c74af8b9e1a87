//! Marking a long session takes time in proportion to its length.

use std::time::{Duration, Instant};

use sim_core::field_book::Field;
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::action::{Action, Sight};
use sim_core::session::ended_session::EndedSession;
use sim_core::session::journal::NullSink;

use super::recorded::scenario;
use super::rules::point;

/// A careful session before which a leg was looked at and a cell written so many times.
fn written_before(count: usize, field: Field) -> EndedSession {
    let text = scenario("01_first_calibration.ron");
    let mut session = Session::begin(&text, 1, Box::new(NullSink)).unwrap();
    for number in 0..count {
        session.act(Action::Look { at: Sight::Manometer, eye_mm: 0.0 }).unwrap();
        session.act(Action::Write { field, text: format!("{}.5", number % 7) }).unwrap();
    }
    rehearse(&mut session, by_name("careful", 1).unwrap().as_mut()).unwrap();
    session.open().unwrap()
}

/// Whoever writes a cell over and over, or sends such a journal, would keep the marking busy: when its
/// time grew with the square of the entries, 4 000 of them took 6.7 s and 8 000 over 40 s.
#[test]
fn the_time_of_marking_grows_with_the_session_and_not_with_its_square() {
    let times = |ended: &EndedSession, times: u32| {
        let begun = Instant::now();
        for _ in 0..times {
            assert!(mark(&ended.evidence()).total.is_finite());
        }
        begun.elapsed()
    };
    for field in [Field::Up(point(1)), Field::Slope] {
        let [short, long] = [1_000, 8_000].map(|count| written_before(count, field));
        // In turn, and eight short ones against a long one, so that other work on the machine falls on
        // both alike; the fastest of each counts.
        let took: Vec<[Duration; 2]> =
            (0..9).map(|_| [times(&short, 8), times(&long, 1)]).collect();
        let [short, long] = [0, 1].map(|at| took.iter().map(|both| both[at]).min().unwrap());
        let ratio = long.as_secs_f64() / short.as_secs_f64();
        // They are as long together, but for what no longer fits the processor's cache; with the square
        // of the entries the long one would take eight times as long.
        assert!(ratio < 3.0, "{field:?}: {ratio:.2} times, {long:?} against {short:?}");
    }
}
