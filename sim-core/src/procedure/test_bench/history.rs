//! The careful flow check of the tests on a sampler with a history, which its chart shows to be in
//! control.

use super::TestSession;
use super::flow_check::careful_check;
use crate::control_chart::ChartReading;
use crate::field_book::Field;
use crate::scenario::setup::{PastVisit, PastWork, SamplerHistory};
use crate::session::action::Decision;
use crate::time::Date;

/// Percent differences of the past checks, with their mean near that of the careful check.
const PAST_PCT: [f64; 16] =
    [0.4, -0.5, 0.1, -0.2, 0.6, -0.4, 0.2, 0.0, -0.6, 0.3, -0.1, 0.2, 0.5, -0.3, -0.4, 0.1];

/// The day of a repair, between the fourteenth check and the fifteenth.
pub fn repaired_on() -> Date {
    Date::new(2026, 7, 28).unwrap()
}

/// A session that only checks the line of the last calibration and keeps the sampler's control chart.
pub fn careful_history() -> TestSession {
    let mut session = careful_check();
    with_past(&mut session, &PAST_PCT);
    let difference = session.text_of(Field::CheckDifference);
    session.write(Field::HistoryPoint, &difference);
    session.decide(reads(ChartReading::InControl), "");
    session
}

/// Gives the sampler these past checks, one every four weeks before the day of the session.
pub fn with_past(session: &mut TestSession, past_pct: &[f64]) {
    let first = Date::new(2025, 7, 15).unwrap();
    let checks = past_pct.iter().enumerate().map(|(index, &difference_pct)| PastVisit {
        date: first.later(28 * index as i64),
        work: PastWork::FlowCheck { difference_pct },
    });
    let repair = PastWork::Repair { text: "Motor replaced.".to_owned() };
    let repair = PastVisit { date: repaired_on(), work: repair };
    session.setup.work_order.history = Some(SamplerHistory::new(checks.chain([repair]).collect()));
}

/// A decision about the chart from which nothing follows.
pub const fn reads(shows: ChartReading) -> Decision {
    Decision::HistoryRead { shows, calibrate_again: false, in_doubt_since: None }
}
