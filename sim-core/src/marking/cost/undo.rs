//! How each repair is made when a session is replayed.

use super::context::CostContext;
use super::edits::{Edits, TAPS};
use super::openings::missing_openings;
use super::sample::SampleMethod;
use crate::fault::{Fault, Remedy};
use crate::field_book::Field;
use crate::procedure::Repair;
use crate::procedure::evidence::PointTaken;
use crate::procedure::instrument::Instrument;
use crate::rig::parts::{BlowerPlug, Leg};
use crate::session::action::{Action, BarometerReference, Exposure, OnOff};
use crate::session::counterfactual::{EventKind, Intervention};
use crate::time::TICKS_PER_SECOND;

/// Running time before the first point, s (40 CFR Part 50 App. B, 9.3.3, READ).
const WARM_UP_S: f64 = 300.0;
/// Time at a flow before it is read, s (40 CFR Part 50 App. B, 9.3.6, READ).
const SETTLE_S: f64 = 120.0;
/// Quarter turns of a fully open valve.
const OPEN_QUARTERS: i8 = 4;

/// How a slip is undone.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum UndoMethod {
    /// The session is replayed with changes.
    Replay(Box<Edits>),
    /// The calculations are repeated.
    Sums,
    /// The calculations are repeated with the right expression of the corrected chart reading.
    Expression,
    /// The run is set to another chart reading.
    SetPoint,
    /// It affects the volume of the sample that was taken.
    Sample(SampleMethod),
    /// It does not affect the volume of this run, and why.
    NoVolume(&'static str),
}

/// How a slip with this repair is undone.
pub(super) fn way(repair: Repair, context: &CostContext<'_>) -> UndoMethod {
    let mut edits = Edits::default();
    match repair {
        Repair::None => return UndoMethod::NoVolume("it does not change the volume"),
        Repair::RedoSums => return UndoMethod::Sums,
        Repair::RightExpression => return UndoMethod::Expression,
        Repair::SetPointFromLine => return UndoMethod::SetPoint,
        Repair::RightDecision => {
            return UndoMethod::NoVolume(
                "a decision does not change the volume: what it let pass is counted separately",
            );
        }
        Repair::RedoRunSums => {
            return UndoMethod::NoVolume("no sample was taken whose volume it could change");
        }
        Repair::RestoreSampler => {
            return UndoMethod::NoVolume("it spoils the run itself, not the calibration line");
        }
        Repair::RightCertificate => edits.values.right_certificate = true,
        Repair::StandardPair => edits.values.standard_pair = true,
        Repair::CopyCertificate => edits.values.as_printed = true,
        Repair::ReadConditions => edits.values.conditions = true,
        Repair::StationPressure => station_pressure(context, &mut edits),
        Repair::ShadeTemperature => shade(context, &mut edits),
        Repair::CloseLeak => edits.bench.held_tight = true,
        Repair::KeepFluid => edits.bench.fluid_kept = true,
        Repair::RemoveFilter => edits.bench.filter_out = true,
        Repair::PlumbManometer => plumb(context, &mut edits),
        Repair::OpenValves => open_valves(context, &mut edits),
        Repair::ZeroManometer => zero(context, &mut edits),
        Repair::ClearTube => clear_tube(context, &mut edits),
        Repair::MotorOnLine => motor_on_line(context, &mut edits),
        Repair::WaitFiveMinutes => warm_up(context, &mut edits),
        Repair::WaitTwoMinutes => settle(context, &mut edits),
        Repair::AddPoints => edits.values.openings = missing_openings(context),
        Repair::FreshBattery => without_all(context, &mut edits, Remedy::FreshBattery),
        Repair::TapPen => tap(context, &mut edits),
        Repair::PenOnPaper => {
            let charts = context.points_of(repair).into_iter().map(Field::Chart);
            edits.values.as_seen.extend(charts);
        }
        Repair::AddSecondLeg => edits.values.both_legs.extend(context.points_of(repair)),
        Repair::EyeLevel => edits.values.level.extend(context.points_of(repair)),
        Repair::ReadAsSeen => {
            let points = context.points_of(repair).into_iter();
            let fields = points
                .flat_map(|p| [Field::Up(p), Field::Down(p), Field::DeltaH(p), Field::Chart(p)]);
            edits.values.as_seen.extend(fields);
        }
    }
    UndoMethod::Replay(Box::new(edits))
}

/// How a session would have gone without a fault.
pub(super) fn without(fault: &Fault, context: &CostContext<'_>) -> Edits {
    let mut edits = Edits::default();
    match fault.sheet().remedy {
        Remedy::RightCertificate => edits.values.right_certificate = true,
        Remedy::StandardPair => edits.values.standard_pair = true,
        Remedy::CopyCertificate => edits.values.as_printed = true,
        Remedy::PlumbManometer => plumb(context, &mut edits),
        // A scale that is no longer stuck must also be set to zero.
        Remedy::ZeroManometer => zero(context, &mut edits),
        // Turning the screw against the fault would now turn the pen away from zero.
        Remedy::PenZeroLeftAlone => {
            drop_all(context, &mut edits, |action| matches!(action, Action::SetPenZero { .. }));
        }
        Remedy::Absence
        | Remedy::CloseLeak
        | Remedy::ClearTube
        | Remedy::StationPressure
        | Remedy::ShadeTemperature
        | Remedy::FreshBattery
        | Remedy::TapPen => {}
    }
    if !edits.bench.without.contains(fault) {
        edits.bench.without.push(*fault);
    }
    edits
}

/// The repair that also undoes a fault, if there is one.
pub(super) const fn repair_of(fault: &Fault) -> Option<Repair> {
    Some(match fault.sheet().remedy {
        Remedy::Absence | Remedy::PenZeroLeftAlone => return None,
        Remedy::CloseLeak => Repair::CloseLeak,
        Remedy::PlumbManometer => Repair::PlumbManometer,
        Remedy::ZeroManometer => Repair::ZeroManometer,
        Remedy::ClearTube => Repair::ClearTube,
        Remedy::StationPressure => Repair::StationPressure,
        Remedy::ShadeTemperature => Repair::ShadeTemperature,
        Remedy::TapPen => Repair::TapPen,
        Remedy::RightCertificate => Repair::RightCertificate,
        Remedy::StandardPair => Repair::StandardPair,
        Remedy::CopyCertificate => Repair::CopyCertificate,
        Remedy::FreshBattery => Repair::FreshBattery,
    })
}

/// Leaves out every action of a kind up to the last reading.
fn drop_all(context: &CostContext<'_>, edits: &mut Edits, unwanted: fn(&Action) -> bool) {
    let last = context.last_index().unwrap_or(0);
    let moments = context.evidence.indexed_events().take(last);
    edits.dropped.extend(moments.filter(|at| unwanted(&at.event.action)).map(|at| at.index));
}

/// Removes every fault that a remedy undoes from the bench.
fn without_all(context: &CostContext<'_>, edits: &mut Edits, remedy: Remedy) {
    let faults = context.evidence.setup.faults.iter().map(|(fault, _)| *fault);
    edits.bench.without.extend(faults.filter(|fault| fault.sheet().remedy == remedy));
}

fn station_pressure(context: &CostContext<'_>, edits: &mut Edits) {
    without_all(context, edits, Remedy::StationPressure);
    drop_all(context, edits, |action| {
        matches!(action, Action::SetBarometer { to: BarometerReference::SeaLevel })
    });
}

fn shade(context: &CostContext<'_>, edits: &mut Edits) {
    without_all(context, edits, Remedy::ShadeTemperature);
    drop_all(context, edits, |action| {
        matches!(action, Action::PlaceThermometer { at: Exposure::Sun })
    });
}

fn plumb(context: &CostContext<'_>, edits: &mut Edits) {
    without_all(context, edits, Remedy::PlumbManometer);
    drop_all(context, edits, |action| matches!(action, Action::SwingManometer { .. }));
    for place in context.hangings() {
        edits.does_after(place, [EventKind::Intervene(Intervention::Plumb)]);
    }
}

fn open_valves(context: &CostContext<'_>, edits: &mut Edits) {
    // No valve is turned, so that none is shut for the leak check either: its water stays all the same.
    drop_all(context, edits, |action| matches!(action, Action::TurnValve { .. }));
    edits.bench.fluid_kept = true;
    let open = |leg| EventKind::Act(Action::TurnValve { leg, quarter_turns: OPEN_QUARTERS });
    let flows = context.points.iter().filter_map(|point| context.flow_set(point));
    for place in context.hangings().chain(flows) {
        edits.does_after(place, [open(Leg::Left), open(Leg::Right)]);
    }
}

fn zero(context: &CostContext<'_>, edits: &mut Edits) {
    without_all(context, edits, Remedy::ZeroManometer);
    let legs = context
        .points
        .iter()
        .filter_map(|point| point.legs().chain(point.sum).map(|at| at.index).min());
    let Some(first) = legs.min() else { return };
    if context.evidence.is_electronic() {
        zero_display(context, edits);
        return;
    }
    let looked = context
        .readings
        .iter()
        .filter(|reading| matches!(reading.instrument, Instrument::LegUp | Instrument::LegDown));
    // Before the first leg was seen, which may be before it was read.
    let seen = looked.map(|reading| reading.look.unwrap_or(reading.read));
    let place = seen.min().unwrap_or(first).min(first);
    edits.does_before(place, [EventKind::Intervene(Intervention::Zero)]);
}

/// The zero of a display drifts: it is set right before each reading, and a key pressed at a wrong moment
/// is left alone.
fn zero_display(context: &CostContext<'_>, edits: &mut Edits) {
    drop_all(context, edits, |action| *action == Action::ZeroManometer);
    let displays = context.readings.iter().filter(|r| r.instrument == Instrument::Display);
    for reading in displays {
        let place = reading.look.unwrap_or(reading.read);
        edits.does_before(place, [EventKind::Intervene(Intervention::Zero)]);
    }
}

fn clear_tube(context: &CostContext<'_>, edits: &mut Edits) {
    without_all(context, edits, Remedy::ClearTube);
    for point in &context.points {
        if let Some(place) = context.flow_set(point) {
            edits.does_after(place, [EventKind::Act(Action::ConnectTube)]);
        }
        // If the tube was pulled off after the flow was set, it stays on.
        let from = context.flow_set(point).unwrap_or(0);
        let until = point.last.index;
        let moments = context.evidence.indexed_events().take(until).skip(from);
        let pulled = moments.filter(|at| at.event.action == Action::DisconnectTube);
        edits.dropped.extend(pulled.map(|at| at.index));
    }
}

fn motor_on_line(context: &CostContext<'_>, edits: &mut Edits) {
    let Some(first) = context.first_point() else { return };
    let before = context.evidence.indexed_events().take(first.first.index);
    let started = before
        .rev()
        .find(|at| !at.event.before.powered && at.event.after.powered)
        .map(|at| at.index)
        .or_else(|| context.flow_set(first));
    let Some(started) = started else { return };
    let last = context.last_index().unwrap_or(started);
    let elsewhere = context.evidence.indexed_events().take(last).skip(started + 1).filter(|at| {
        let action = &at.event.action;
        let plugs = |into: &BlowerPlug| *into != BlowerPlug::LineOutlet;
        matches!(action, Action::PlugBlower { into } if plugs(into))
    });
    edits.dropped.extend(elsewhere.map(|at| at.index));
    edits.does_after(
        started,
        [
            EventKind::Act(Action::PlugBlower { into: BlowerPlug::LineOutlet }),
            EventKind::Act(Action::SwitchLine { to: OnOff::On }),
        ],
    );
}

fn warm_up(context: &CostContext<'_>, edits: &mut Edits) {
    if let Some(first) = context.first_point() {
        pause(context, edits, first, WARM_UP_S - first.first.facts().running_s);
    }
}

fn settle(context: &CostContext<'_>, edits: &mut Edits) {
    for point in &context.points {
        pause(context, edits, point, SETTLE_S - point.first.facts().steady_s);
    }
}

/// Lets time pass between the last change of the flow and everything that was done for a point.
fn pause(context: &CostContext<'_>, edits: &mut Edits, point: &PointTaken<'_>, seconds: f64) {
    let ticks = (seconds.max(0.0) * TICKS_PER_SECOND as f64).ceil() as u64;
    if let Some(place) = context.flow_set(point).filter(|_| ticks > 0) {
        let pause = edits.pauses.entry(place).or_default();
        *pause = ticks.max(*pause);
    }
}

fn tap(context: &CostContext<'_>, edits: &mut Edits) {
    for number in context.points_of(Repair::TapPen) {
        let Some(reading) = context.reading(Field::Chart(number)) else { continue };
        // Before the pen was seen. A look before the flow was set does not count.
        let place = reading.look.unwrap_or(reading.read);
        let point = context.points.iter().find(|point| point.number == number);
        let set = point.and_then(|point| context.flow_set(point));
        let place = set.map_or(place, |set| place.max(set + 1));
        edits.does_before(place, std::iter::repeat_n(EventKind::Act(Action::Tap), TAPS));
    }
}
