//! After the points: a second look at whatever may have gone wrong in the meantime.

use super::hold_test::HoldTest;
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::{Observation, Practice};
use crate::session::action::{Action, Exposure, FaultKind, Response, Sight};

/// The chart's clock may be behind the watch by this much, minutes: less cannot be seen on a
/// one-day chart.
const BEHIND_MIN: f64 = 0.8;
/// The part of the time that even a very slow clock does not lose.
const MOST_LOST: f64 = 0.12;
/// On a calm day, the air temperature changes by less than this within an hour, K.
const CHANGED_K: f64 = 2.0;
/// A pen that has left no ink for this long is dry, hours of the chart.
const DRY_H: f64 = 0.05;

/// How far the phase has come.
#[derive(Debug)]
pub(super) enum ClosingPhase {
    /// The manometer is being tested for leaks.
    Manometer(HoldTest),
    /// The recorder is in focus.
    Recorder,
    /// The thermometer is in focus.
    Thermometer,
    /// Everything has been inspected.
    Over,
}

impl Default for ClosingPhase {
    fn default() -> Self {
        Self::Manometer(HoldTest::Begin)
    }
}

impl OperatorPhase for ClosingPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        // An operator who leaves out the leak check or the tapping does not notice this either.
        let looks = memory.checks_leaks()
            && memory.habits.tapping == Practice::Kept
            && memory.habits.looking_back == Practice::Kept;
        if memory.refusal.is_some() || !looks {
            return PhaseProgress::Finished;
        }
        match self {
            Self::Manometer(test) => {
                if test.go_on(observed, memory) == PhaseProgress::Finished {
                    memory.looks(Sight::Recorder);
                    *self = Self::Recorder;
                }
            }
            Self::Recorder => {
                memory.waits(2.0);
                recorder(observed, memory);
                memory.looks(Sight::Thermometer);
                *self = Self::Thermometer;
            }
            Self::Thermometer => {
                memory.waits(2.0);
                weather(observed, memory);
                *self = Self::Over;
            }
            Self::Over => return PhaseProgress::Finished,
        }
        PhaseProgress::More
    }
}

/// Compares the air temperature with that on arrival.
fn weather(observed: &Observation<'_>, memory: &mut Memory) {
    let seen = &observed.view.thermometer;
    let before_c = memory.arrival_c.unwrap_or(memory.temperature_c);
    memory.thinks(format!(
        "The air was {before_c:.1} °C on arrival and is {:.1} °C now; a calm day changes by less than {CHANGED_K:.1} K.",
        seen.column_c
    ));
    if seen.exposure == Exposure::Shade && (seen.column_c - before_c).abs() > CHANGED_K {
        memory.reports(
            FaultKind::FastWeather,
            Response::Noted,
            "the weather changed while the points were taken",
        );
    }
}

/// Inspects the trace and the chart's clock.
fn recorder(observed: &Observation<'_>, memory: &mut Memory) {
    let seen = &observed.view.recorder;
    // The hours of a chart wrap around, so the difference is between 0 and 24 h.
    let behind_h = |hour: f64| (seen.chart_hour - hour).rem_euclid(24.0);
    let inked = seen.trace.last().map(|&(hour, _)| 60.0 * behind_h(hour));
    memory.thinks(inked.map_or_else(
        || "The pen has left no trace at all.".to_owned(),
        |min| {
            format!(
                "The trace ends {min:.1} min before the pen; a pen that inks is within {:.0} min.",
                60.0 * DRY_H
            )
        },
    ));
    if seen.trace.last().is_none_or(|&(hour, _)| behind_h(hour) > DRY_H) {
        memory.reports(FaultKind::PenDry, Response::Noted, "the pen is dry: it leaves no trace");
    }
    if let Some((fitted, hour)) = memory.chart_fitted {
        let watch_min = observed.view.tick.seconds_since(fitted) / 60.0;
        let chart_min = 60.0 * behind_h(hour);
        memory.thinks(format!(
            "Since it was fitted the chart turned by {chart_min:.1} min, the watch by {watch_min:.1} min; a difference of \
             {BEHIND_MIN:.1} min can be seen."
        ));
        let behind_min = (watch_min - chart_min + 720.0).rem_euclid(1440.0) - 720.0;
        let slow_min = MOST_LOST * watch_min + 1.0;
        if behind_min > slow_min || behind_min < -slow_min {
            memory.thinks(format!(
                "No clock loses {behind_min:.0} min in that time: the chart slipped on its hub."
            ));
            memory.does(Action::TurnChart { minutes: behind_min.clamp(-720.0, 720.0) });
            memory.reports(
                FaultKind::ChartSlips,
                Response::Repaired,
                "the chart slipped on its hub; turned to the hour of the watch",
            );
        } else if watch_min - chart_min > BEHIND_MIN {
            memory.reports(
                FaultKind::ChartClockSlow,
                Response::Noted,
                "the chart's clock loses time",
            );
        }
    }
}
