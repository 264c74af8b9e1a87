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
    let once = |ended: &EndedSession| {
        let begun = Instant::now();
        assert!(mark(&ended.evidence()).total.is_finite());
        begun.elapsed()
    };
    for field in [Field::Up(point(1)), Field::Slope] {
        let ended = [1_000, 8_000].map(|count| written_before(count, field));
        // In turn, so that other work on the machine falls on both; the fastest of each counts.
        let times: Vec<[Duration; 2]> =
            (0..7).map(|_| ended.each_ref().map(|ended| once(ended))).collect();
        let [few, many] = [0, 1].map(|at| times.iter().map(|both| both[at]).min().unwrap());
        let ratio = many.as_secs_f64() / few.as_secs_f64();
        println!("{field:?}: {ratio:.1} times, {few:?} and {many:?}");
        // Eight times the entries take eight times as long, or somewhat longer where they no longer
        // fit the processor's cache; with the square of their number it would be sixty-four.
        assert!(ratio < 28.0, "{field:?}: {ratio:.1} times, {few:?} and {many:?}");
    }
}
