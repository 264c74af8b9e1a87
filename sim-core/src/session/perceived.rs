//! What a sharp eye, ear or hand makes of a view: the quantities and states that it can tell, thing by
//! thing. Two views that agree in all of them cannot be told apart there.

use super::sight::Sight;
use super::view::View;
use crate::rig::manometer::electronic::{DIGIT_IN, Shown};

/// Half a division of the manometer's scale, in.
const LEG_IN: f64 = 0.05;
/// How far two levels beside the fill mark can be told apart, mm (CHOSEN).
const FILL_MM: f64 = 2.0;
/// Half a division of the chart.
const CHART_DIVISIONS: f64 = 0.5;
/// Half a unit of barometer and thermometer, mmHg and degrees Celsius.
const DIAL: f64 = 0.5;
/// A tilt that is seen against the plumb line, degrees (CHOSEN).
const TILT_DEG: f64 = 1.0;
/// How far apart two hours on a chart or a timer's dial can be told, h (CHOSEN: half a minute on the
/// chart, which an eye reads to the minute, and six minutes on the dial).
const CHART_H: f64 = 1.0 / 120.0;
const DIAL_H: f64 = 0.1;
/// The finest division of the elapsed-time meter, min.
const METER_MIN: f64 = 0.1;
/// The part of a tone's pitch, and of its loudness, by which two are told apart from memory (CHOSEN).
const TONE: f64 = 0.03;
const LOUDNESS: f64 = 0.1;
/// A turn of the knob that is told from its mark (CHOSEN).
const KNOB: f64 = 0.01;
/// How strongly gusts are told from a steady wind (CHOSEN).
const WIND: f64 = 0.1;
/// A shade of grey that is told from another (CHOSEN).
const GREY: f64 = 0.05;

/// One thing that can be told.
#[derive(Debug, Clone, PartialEq)]
enum Mark {
    /// A quantity, and the smallest difference that can be told.
    Amount(f64, f64),
    /// A state.
    State(String),
}

impl Mark {
    /// A state by its words.
    fn state(of: impl std::fmt::Debug) -> Self {
        Self::State(format!("{of:?}"))
    }

    /// Whether two of the same thing can be told apart.
    fn differs(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Amount(one, step), Self::Amount(other, _)) => (one - other).abs() > *step,
            (one, other) => one != other,
        }
    }
}

/// Whether two views can be told apart by a look at this.
pub(super) fn looks_different(one: &View, other: &View, at: Sight) -> bool {
    differ(&seen(one, at), &seen(other, at))
}

/// Whether two views can be told apart by what reaches everybody on the roof: the blower's sound and
/// smell, thunder.
pub(super) fn sounds_different(one: &View, other: &View) -> bool {
    differ(&heard(one), &heard(other))
}

/// Whether two views can be told apart by listening closely around the holder.
pub(super) fn hisses_differently(one: &View, other: &View) -> bool {
    one.blower.hiss != other.blower.hiss
}

/// Whether two lists of marks differ.
fn differ(one: &[Mark], other: &[Mark]) -> bool {
    one.len() != other.len() || one.iter().zip(other).any(|(one, other)| one.differs(other))
}

/// What reaches everybody.
fn heard(view: &View) -> Vec<Mark> {
    let blower = &view.blower;
    vec![
        Mark::state(blower.wavering),
        Mark::state(blower.hot_smell),
        Mark::Amount(blower.pitch_hz, TONE * blower.pitch_hz.max(1.0)),
        Mark::Amount(blower.loudness, LOUDNESS),
        Mark::state(view.sky.thunder_since_s.is_some()),
    ]
}

/// What a look at something shows.
fn seen(view: &View, at: Sight) -> Vec<Mark> {
    match at {
        Sight::Manometer => manometer(view),
        Sight::LeftLeg => {
            vec![Mark::Amount(view.manometer.left.meniscus_in, LEG_IN), filling(view)]
        }
        Sight::RightLeg => {
            vec![Mark::Amount(view.manometer.right.meniscus_in, LEG_IN), filling(view)]
        }
        Sight::Display => display(view),
        Sight::Tube => vec![
            Mark::state((view.tube.on_tap, view.tube.kinked, view.tube.drops)),
            Mark::state((view.tube.crack, view.tube.loose, view.tube.ice)),
        ],
        Sight::Calibrator => vec![
            Mark::state((&view.calibrator.serial, view.calibrator.edge)),
            Mark::state(view.calibrator.plates),
            Mark::Amount(view.calibrator.knob, KNOB),
            Mark::state((view.mounting.calibrator_gasket, view.mounting.flat_gasket)),
        ],
        Sight::Holder => vec![
            Mark::state((&view.mounting.nuts, &view.mounting.places)),
            Mark::state((view.mounting.holder_gasket, view.mounting.calibrator_gasket)),
            Mark::state((view.mounting.flat_gasket, view.mounting.inlet)),
        ],
        Sight::Recorder | Sight::Pen => recorder(view),
        Sight::Barometer => vec![
            Mark::Amount(view.barometer.pointer_mmhg, DIAL),
            Mark::state((view.barometer.set_to, view.barometer.certified)),
        ],
        Sight::Thermometer => vec![
            Mark::Amount(view.thermometer.column_c, DIAL),
            Mark::state((view.thermometer.exposure, view.thermometer.certified)),
        ],
        Sight::Station => vec![
            Mark::state((view.sky.sunny, view.mounting.inlet, view.mounting.exhaust)),
            Mark::Amount(view.sky.wind, WIND),
        ],
        Sight::Sky | Sight::RoofEdge => {
            vec![Mark::state(view.sky.sunny), Mark::Amount(view.sky.wind, WIND)]
        }
        Sight::Controller => vec![Mark::state(view.power.controller_lamp)],
        Sight::Plugs | Sight::Blower => vec![
            Mark::state((view.power.sampler_cord_in, view.power.blower_plug)),
            Mark::state((view.power.controller_lamp, view.power.timer_switch)),
            Mark::state((view.power.outlet_tripped, view.power.cord_damaged)),
            Mark::state(view.mounting.exhaust),
        ],
        Sight::Filter | Sight::Timer | Sight::WeatherSheet => of_run(view, at),
        Sight::WorkOrder | Sight::Certificate(_) | Sight::Watch => Vec::new(),
    }
}

fn manometer(view: &View) -> Vec<Mark> {
    let manometer = &view.manometer;
    if manometer.display.is_some() {
        return display(view);
    }
    vec![
        Mark::Amount(manometer.tilt_deg, TILT_DEG),
        Mark::state(manometer.bubble),
        Mark::Amount(manometer.left.meniscus_in, LEG_IN),
        Mark::Amount(manometer.right.meniscus_in, LEG_IN),
        Mark::Amount(manometer.scale_in, LEG_IN),
        Mark::Amount(manometer.below_mark_mm, FILL_MM),
        filling(view),
    ]
}

/// What is seen of the filling in the glass.
fn filling(view: &View) -> Mark {
    let manometer = &view.manometer;
    Mark::state((manometer.fluid, manometer.ice, manometer.dirty))
}

/// The display of an electronic manometer, and its label.
fn display(view: &View) -> Vec<Mark> {
    let Some(display) = view.manometer.display else { return Vec::new() };
    let shows = match display.shows {
        Shown::Reading(reading_in) => Mark::Amount(reading_in, DIGIT_IN),
        other => Mark::state(other),
    };
    vec![shows, Mark::state((display.battery_low, display.calibrated))]
}

fn recorder(view: &View) -> Vec<Mark> {
    let recorder = &view.recorder;
    vec![
        Mark::state((recorder.door_open, recorder.capped, recorder.on_paper)),
        Mark::state(recorder.leaves_ink),
        recorder.pen.map_or(Mark::state(""), |pen| Mark::Amount(pen, CHART_DIVISIONS)),
        Mark::Amount(recorder.chart_hour, CHART_H),
        Mark::Amount(recorder.printed_to, 1.0),
        Mark::state(recorder.scale),
        Mark::state((recorder.line_off, recorder.line_kinked, recorder.line_drops)),
        Mark::state(recorder.arm_bent),
        ends(&recorder.trace),
    ]
}

/// Where a trace ends.
fn ends(trace: &[(f64, f64)]) -> Mark {
    trace.last().map_or(Mark::state(""), |&(hour, _)| Mark::Amount(hour, CHART_H))
}

/// Filter, timer and weather sheet, where a run is ordered.
fn of_run(view: &View, at: Sight) -> Vec<Mark> {
    let Some(run) = view.run.as_deref() else { return Vec::new() };
    match at {
        Sight::Filter => vec![
            Mark::state((run.filter.up, run.filter.holes, run.filter.seat, run.filter.damp)),
            Mark::Amount(run.filter.grey, GREY),
            Mark::state((run.masses.is_some(), run.added_filters)),
        ],
        Sight::Timer => vec![
            Mark::state((run.timer.weekday, run.timer.on.weekday, run.timer.off.weekday)),
            Mark::Amount(run.timer.hours, DIAL_H),
            Mark::Amount(run.timer.on.hours, DIAL_H),
            Mark::Amount(run.timer.off.hours, DIAL_H),
            Mark::state((run.timer.on.loose, run.timer.off.loose)),
            Mark::Amount(run.timer.meter_min, METER_MIN),
        ],
        _ => {
            let lines = run.weather.iter();
            lines
                .flat_map(|line| {
                    [Mark::Amount(line.pressure_mmhg, DIAL), Mark::Amount(line.temperature_c, DIAL)]
                })
                .collect()
        }
    }
}
