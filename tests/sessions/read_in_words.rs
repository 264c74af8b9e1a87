//! Readings in words: a replay has the same ones, and whoever has them finds the same bench as everybody.

use sim_core::rig::parts::{Leg, PartPlace, RigPart};
use sim_core::session::Session;
use sim_core::session::action::{Action, Sight};
use sim_core::session::journal::NullSink;
use sim_core::session::replay::replay;
use sim_core::session::view::View;

use super::recorded::{Paper, scenario};

const SIGHTS: [Sight; 4] = [Sight::LeftLeg, Sight::RightLeg, Sight::Barometer, Sight::Thermometer];

/// What is read off the scales, bit for bit.
fn scales(view: &View) -> [u64; 4] {
    let manometer = &view.manometer;
    [
        manometer.left.meniscus_in,
        manometer.right.meniscus_in,
        view.barometer.pointer_mmhg,
        view.thermometer.column_c,
    ]
    .map(f64::to_bits)
}

/// The manometer on its hook with open valves, and every scale looked at in turn; each is read out, or the
/// same time passes without that.
fn worked(paper: &Paper, reads: impl Fn(&mut Session)) -> Session {
    let text = scenario("01_first_calibration.ron");
    let mut session = Session::begin(&text, 7, Box::new(paper.clone())).expect("a session");
    let mut actions =
        vec![Action::Take { part: RigPart::Manometer }, Action::Put { place: PartPlace::Hook }];
    actions.extend([Leg::Left, Leg::Right].map(|leg| Action::TurnValve { leg, quarter_turns: 4 }));
    for action in actions {
        session.act(action).expect("it can be done");
    }
    for at in SIGHTS.into_iter().cycle().take(12) {
        session.act(Action::Look { at, eye_mm: 0.0 }).expect("it can be looked at");
        session.finish_hands().expect("time passes");
        reads(&mut session);
        session.finish_hands().expect("time passes");
    }
    session
}

#[test]
fn a_replay_reads_the_same_from_every_place_of_the_journal() {
    let paper = Paper::default();
    let read = std::sync::Mutex::new(Vec::new());
    let session = worked(&paper, |session| {
        session.act(Action::ReadInWords).expect("practice allows it");
        let said = session.read_in_words().expect("it was asked for");
        read.lock().expect("one at a time").push((paper.text().len(), scales(&said)));
    });
    let journal = paper.text();
    let mut whole = replay(&journal, Box::new(NullSink)).expect("it replays").session;
    whole.finish_hands().expect("time passes");
    assert_eq!(whole.digest(), session.digest());
    let read = read.into_inner().expect("nobody has it");
    assert_eq!(read.len(), 12);
    for (length, scales_then) in read {
        let again = replay(&journal[..length], Box::new(NullSink)).expect("it replays").session;
        let said = again.read_in_words().expect("the journal ends with it");
        assert_eq!(scales(&said), scales_then);
    }
}

#[test]
fn to_have_readings_in_words_shifts_nothing_on_the_bench() {
    let read = worked(&Paper::default(), |session| {
        session.act(Action::ReadInWords).expect("practice allows it");
    });
    let unread = worked(&Paper::default(), |session| {
        session.act(Action::Wait { seconds: 1.0 }).expect("time passes");
    });
    assert_eq!(read.now(), unread.now());
    assert_eq!(read.view(), unread.view());
}
