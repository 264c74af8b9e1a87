//! Tapping the recorder until the pen rests.

use super::mind::Mind;
use super::{Practice, Scene};
use crate::session::action::{Action, FaultPlace, Response};

/// Fewest taps.
const FEWEST: u32 = 3;
/// Most taps.
const MOST: u32 = 8;
/// A pen that moves less than this between two taps rests, divisions.
const RESTS: f64 = 0.1;
/// A pen that came further than this by tapping sticks, divisions. A good one comes 0.5 to 0.8.
const STICKS: f64 = 1.15;

/// A round of taps at one flow.
#[derive(Debug, Default)]
pub(super) struct Tapping {
    taps: u32,
    first: Option<f64>,
    last: f64,
}

impl Tapping {
    /// Taps once more if that is needed. True when the pen rests, or nobody taps.
    pub fn rests(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> bool {
        let Some(pen) = scene.view.recorder.pen else { return true };
        if mind.habits.tapping == Practice::Skipped {
            return true;
        }
        let first = *self.first.get_or_insert(pen);
        let moved = (pen - self.last).abs();
        self.last = pen;
        if self.taps >= MOST || (self.taps >= FEWEST && moved < RESTS) {
            // Near its zero a square-root chart spreads the smallest play over many divisions.
            if (pen - first).abs() > STICKS && pen > 20.0 {
                mind.reports(
                    FaultPlace::Recorder,
                    Response::Noted,
                    "the pen sticks: it moves by more than a division when the case is tapped",
                );
            }
            return true;
        }
        self.taps += 1;
        mind.does(Action::Tap);
        false
    }
}
