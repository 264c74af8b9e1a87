//! Tapping the recorder until the pen rests.

use super::memory::Memory;
use super::{Observation, Practice};
use crate::rig::recorder::RecorderKind;
use crate::session::action::{Action, FaultPlace, Response};

/// Fewest taps.
const FEWEST: u32 = 3;
/// Most taps.
const MOST: u32 = 8;
/// A pen that moves less than this between two taps rests, divisions.
const RESTS: f64 = 0.1;
/// A pen that came further by tapping sticks; divisions times the chart reading, because play in the
/// linkage spreads over more divisions low on the chart. A good pen comes to 30.
const STICKS: f64 = 50.0;
/// Chart reading below which nothing is said about sticking, divisions.
const LOW_ON_CHART: f64 = 20.0;

/// Divisions by which a pen sticks on an even chart, wherever it stands; a good one comes to 1.
const STICKS_EVENLY: f64 = 1.7;

/// Whether a pen came so far by tapping that it sticks.
fn sticks(pen: f64, first: f64, observed: &Observation<'_>) -> bool {
    let came = (pen - first).abs();
    match observed.view.recorder.scale {
        RecorderKind::SquareRoot => came * pen > STICKS,
        RecorderKind::Linear | RecorderKind::MassFlow => came > STICKS_EVENLY,
    }
}

/// A round of taps at one flow.
#[derive(Debug, Default)]
pub(super) struct Tapping {
    taps: u32,
    first: Option<f64>,
    last: f64,
}

impl Tapping {
    /// Taps once more if that is needed. True when the pen rests, or nobody taps.
    pub fn rests(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> bool {
        let Some(pen) = observed.view.recorder.pen else { return true };
        if memory.habits.tapping == Practice::Skipped {
            return true;
        }
        let first = *self.first.get_or_insert(pen);
        let moved = (pen - self.last).abs();
        self.last = pen;
        if self.taps >= MOST || (self.taps >= FEWEST && moved < RESTS) {
            // On a chart of another range both are counted in the divisions of this one.
            let (pen, first) = (pen * memory.chart_scale, first * memory.chart_scale);
            if pen > LOW_ON_CHART && sticks(pen, first, observed) {
                memory.reports(
                    FaultPlace::Recorder,
                    Response::Noted,
                    "the pen sticks: it moves by more than a division when the case is tapped",
                );
            }
            return true;
        }
        self.taps += 1;
        memory.does(Action::Tap);
        false
    }
}
