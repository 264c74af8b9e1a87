//! A session that has ended is gone through again: any moment of two hours, within 100 ms.

use std::time::{Duration, Instant};

use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::history::History;
use sim_core::session::journal::NullSink;
use sim_core::time::Tick;

use super::recorded::scenario;

/// The longest that a moment may take to come, ms.
const MOST: Duration = Duration::from_millis(100);

#[test]
fn any_moment_of_a_session_of_two_hours_comes_within_100_ms() {
    let text = scenario("01_first_calibration.ron");
    let mut session = Session::begin(&text, 1, Box::new(NullSink)).unwrap();
    session.wait(7200.0).unwrap();
    rehearse(&mut session, by_name("careful", 1).unwrap().as_mut()).unwrap();
    let signed = session.open().unwrap();
    assert!(signed.end_tick.seconds() > 7200.0);
    let begun = Instant::now();
    let track = History::of(&signed);
    let made = begun.elapsed();
    // The slowest moments are the last before a kept state: many ticks, spread over all of it.
    let mut took: Vec<Duration> = (0..400)
        .map(|n| {
            let begun = Instant::now();
            let glimpse = track.at(Tick(n * signed.end_tick.0 / 399));
            assert!(glimpse.truth.flow_std_m3_min.is_finite());
            begun.elapsed()
        })
        .collect();
    took.sort_unstable();
    // A machine that is busy with other things may hold up a few of them.
    let (middle, late) = (took[200], took[380]);
    assert!(
        late < MOST,
        "made in {made:?}; a moment: median {middle:?}, 95 % {late:?}, most {:?}",
        took[399]
    );
}
