//! After the points: what may have gone wrong meanwhile, looked at once more.

use super::hold_test::HoldTest;
use super::mind::{Mind, Phase, Progress};
use super::{Practice, Scene};
use crate::session::action::{Exposure, FaultPlace, Response, Sight};

/// The chart's clock may be behind the watch by so much, minutes: what can be seen on a day's chart.
const BEHIND_MIN: f64 = 0.8;
/// The air of a calm day changes by less than this within the hour, K.
const CHANGED_K: f64 = 2.0;
/// A pen that left no ink for so long is dry, hours of the chart.
const DRY_H: f64 = 0.05;

/// Where the phase stands.
#[derive(Debug)]
pub(super) enum Closing {
    /// The manometer holds its column, or not.
    Manometer(HoldTest),
    /// The recorder is in focus.
    Recorder,
    /// The thermometer is in focus.
    Thermometer,
    /// All was looked at.
    Over,
}

impl Default for Closing {
    fn default() -> Self {
        Self::Manometer(HoldTest::Begin)
    }
}

impl Phase for Closing {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        // Who leaves out the leak check or the tapping has no eye for this either.
        let looks = mind.minds_leaks()
            && mind.habits.tapping == Practice::Kept
            && mind.habits.looking_back == Practice::Kept;
        if mind.refusal.is_some() || !looks {
            return Progress::Finished;
        }
        match self {
            Self::Manometer(test) => {
                if test.go_on(scene, mind) == Progress::Finished {
                    mind.looks(Sight::Recorder);
                    *self = Self::Recorder;
                }
            }
            Self::Recorder => {
                mind.waits(2.0);
                recorder(scene, mind);
                mind.looks(Sight::Thermometer);
                *self = Self::Thermometer;
            }
            Self::Thermometer => {
                mind.waits(2.0);
                weather(scene, mind);
                *self = Self::Over;
            }
            Self::Over => return Progress::Finished,
        }
        Progress::More
    }
}

/// Holds the air's temperature against that on arrival.
fn weather(scene: &Scene<'_>, mind: &mut Mind) {
    let seen = &scene.view.thermometer;
    let before_c = mind.arrival_c.unwrap_or(mind.temperature_c);
    if seen.exposure == Exposure::Shade && (seen.column_c - before_c).abs() > CHANGED_K {
        mind.reports(
            FaultPlace::Weather,
            Response::Noted,
            "the weather changed while the points were taken",
        );
    }
}

/// Looks at the trace and at the chart's clock.
fn recorder(scene: &Scene<'_>, mind: &mut Mind) {
    let seen = &scene.view.recorder;
    // Hours of a chart go round: what lies behind is between nothing and a turn.
    let behind_h = |hour: f64| (seen.chart_hour - hour).rem_euclid(24.0);
    if seen.trace.last().is_none_or(|&(hour, _)| behind_h(hour) > DRY_H) {
        mind.reports(FaultPlace::Recorder, Response::Noted, "the pen is dry: it leaves no trace");
    }
    if let Some((fitted, hour)) = mind.chart_fitted {
        let watch_min = scene.view.tick.seconds_since(fitted) / 60.0;
        if watch_min - 60.0 * behind_h(hour) > BEHIND_MIN {
            mind.reports(FaultPlace::Recorder, Response::Noted, "the chart's clock loses time");
        }
    }
}
