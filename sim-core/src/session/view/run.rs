//! What a person could see of filter, timer, chart and weather if a run is ordered.

use serde::Serialize;

use crate::rig::parts::{FilterSide, Grip, Seat};
use crate::time::{Date, TimeOfDay};

/// Everything that can be seen of a run.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunView {
    /// How far the run has got.
    pub standing: RunStanding,
    /// When the trainee returns: day and time.
    pub back: (Date, TimeOfDay),
    /// The timer.
    pub timer: DialView,
    /// The filter being handled, as far as it is in sight.
    pub filter: FilterView,
    /// Fresh filters left in the folder.
    pub fresh_filters: u8,
    /// Clean filters that lie on the filter on the holder, to test the controller.
    pub added_filters: u8,
    /// Whether the filter that is taken next is a fresh one from the folder.
    pub takes_fresh: bool,
    /// What the station's logger printed for the hours of the run; empty before its end.
    pub weather: Vec<WeatherLine>,
    /// The trace of the chart that was taken off, hour and divisions.
    pub kept_chart: Option<Vec<(f64, f64)>>,
    /// What the laboratory wrote, once the filter of the run is in its envelope.
    pub masses: Option<LabMasses>,
    /// Number of the filter of the run, once another filter has been taken for the next run.
    pub sample: Option<String>,
}

/// How far the run has got.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RunStanding {
    /// It is still to come.
    Before,
    /// Nobody is at the site.
    Away,
    /// The trainee is back.
    Back,
}

/// The timer's dial and elapsed-time meter.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DialView {
    /// Day under the dial's pointer, 0 (Monday) to 6.
    pub weekday: u8,
    /// Hour under it, 0 to 24.
    pub hours: f64,
    /// The tripper that switches on.
    pub on: TripperView,
    /// The tripper that switches off.
    pub off: TripperView,
    /// Running time on the elapsed-time meter, min.
    pub meter_min: f64,
}

/// A tripper on the dial.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TripperView {
    /// Its day, 0 (Monday) to 6; none when it acts every day.
    pub weekday: Option<u8>,
    /// Its hour, 0 to 24.
    pub hours: f64,
    /// Whether it gives way under the finger, when the timer is in focus.
    pub loose: Option<bool>,
}

/// A filter as seen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FilterView {
    /// The number on its edge, when it is in the hand or in focus; none on a sheet without one.
    pub number: Option<String>,
    /// The side that is up.
    pub up: FilterSide,
    /// What was seen when it was held up to the light, or a tear that is visible without it.
    pub holes: Option<Holes>,
    /// How it lies on the holder, when it is in focus and at most the hold-down frame covers it.
    pub seat: Option<Seat>,
    /// How it is held.
    pub grip: Option<Grip>,
    /// How grey its face is, 0 (white) to 1.
    pub grey: f64,
    /// Whether it looks and feels damp.
    pub damp: bool,
    /// Which side is out, once it is folded.
    pub folded_out: Option<FilterSide>,
    /// Whether it is in its envelope.
    pub in_envelope: bool,
}

/// What was seen of holes in a filter sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Holes {
    /// No light comes through.
    Sound,
    /// Points of light.
    Pinholes,
    /// A tear.
    Tear,
}

/// A line of the weather sheet.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct WeatherLine {
    /// The day.
    pub date: Date,
    /// The time.
    pub time: TimeOfDay,
    /// Station pressure, mmHg, to a tenth.
    pub pressure_mmhg: f64,
    /// Air temperature, degrees Celsius, to a tenth.
    pub temperature_c: f64,
}

/// What the laboratory wrote.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LabMasses {
    /// Before the run, g.
    pub before_g: f64,
    /// After it, g.
    pub after_g: f64,
}
