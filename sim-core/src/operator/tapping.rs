//! Tapping the recorder until the pen rests.

use super::memory::Memory;
use super::{Observation, Practice};
use crate::rig::recorder::RecorderKind;
use crate::session::action::{Action, FaultKind, Response};

/// The least number of taps.
const FEWEST: u32 = 3;
/// The greatest number of taps.
const MOST: u32 = 8;
/// A pen that moves by less than this between two taps is at rest, divisions.
const RESTS: f64 = 0.1;
/// A pen that tapping moved by more than this sticks; divisions times the chart reading, because
/// backlash in the linkage covers more divisions low on the chart. A good pen reaches 64.
const STICKS: f64 = 107.0;
/// Below this chart reading the operator does not judge whether the pen sticks, divisions.
const LOW_ON_CHART: f64 = 29.0;

/// On a chart with even divisions, a pen that tapping moved by more than this sticks; a good pen
/// reaches 1 division.
const STICKS_EVENLY: f64 = 1.7;

/// Where the mains voltage moves the pen as well, it must have stuck this often before it is reported.
const STICKS_OFTEN: u8 = 5;

/// Whether tapping moved the pen so far that it must be sticking.
fn sticks(pen: f64, first: f64, observed: &Observation<'_>) -> bool {
    let came = (pen - first).abs();
    match observed.view.recorder.scale {
        RecorderKind::SquareRoot => came * pen > STICKS,
        RecorderKind::Linear | RecorderKind::MassFlow => came > STICKS_EVENLY,
    }
}

/// What tapping showed.
fn tapped(taps: u32, pen: f64, first: f64, observed: &Observation<'_>) -> String {
    let (came, sticks_at) = match observed.view.recorder.scale {
        _ if pen <= LOW_ON_CHART => (pen - first, None),
        RecorderKind::SquareRoot => (pen - first, Some(STICKS / pen)),
        RecorderKind::Linear | RecorderKind::MassFlow => (pen - first, Some(STICKS_EVENLY)),
    };
    let limit = sticks_at.map_or_else(
        || "; so low on the chart nothing can be said of its friction".to_owned(),
        |limit| format!(" (it sticks if that is more than {limit:.1})"),
    );
    format!(
        "After {taps} taps the pen stands at {pen:.1} divisions; tapping moved it by {came:+.1}{limit}."
    )
}

/// A series of taps at one flow.
#[derive(Debug, Default)]
pub(super) struct Tapping {
    taps: u32,
    first: Option<f64>,
    last: f64,
}

impl Tapping {
    /// Taps once more if needed. True once the pen is at rest, or if this operator does not tap.
    pub fn rests(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> bool {
        let Some(pen) = observed.view.recorder.pen else { return true };
        if memory.habits.tapping == Practice::Skipped {
            return true;
        }
        let first = *self.first.get_or_insert(pen);
        let moved = (pen - self.last).abs();
        self.last = pen;
        if self.taps >= MOST || (self.taps >= FEWEST && moved < RESTS) {
            // On a chart of another range, both readings are converted to the right chart's
            // divisions.
            let (pen, first) = (pen * memory.chart_scale, first * memory.chart_scale);
            memory.thinks(tapped(self.taps, pen, first, observed));
            if pen > LOW_ON_CHART && sticks(pen, first, observed) {
                memory.pen_stuck += 1;
                let moved_by_mains = memory.has_reported(FaultKind::WanderingVoltage);
                if moved_by_mains && memory.pen_stuck < STICKS_OFTEN {
                    return true;
                }
                memory.reports(
                    FaultKind::PenSticks,
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
