//! How each repair is made when a session is replayed.

use super::edits::{Edits, TAPS};
use super::openings::missing_openings;
use super::sample::SampleWay;
use super::story::Story;
use crate::fault::Fault;
use crate::field_book::Field;
use crate::procedure::Repair;
use crate::procedure::evidence::PointTaken;
use crate::procedure::instrument::Instrument;
use crate::rig::parts::{BlowerPlug, Leg};
use crate::session::action::{Action, BarometerReference, Exposure, OnOff};
use crate::session::again::{Deed, Mend};
use crate::time::TICKS_PER_SECOND;

/// Running time before the first point, s (40 CFR Part 50 App. B, 9.3.3, READ).
const WARM_UP_S: f64 = 300.0;
/// Time at a flow before it is read, s (40 CFR Part 50 App. B, 9.3.6, READ).
const SETTLE_S: f64 = 120.0;
/// Quarter turns of a fully open valve.
const OPEN_QUARTERS: i8 = 4;

/// How a slip is undone.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Way {
    /// The session is replayed with changes.
    Again(Box<Edits>),
    /// The calculations are repeated.
    Sums,
    /// The calculations are repeated with the right expression of the corrected chart reading.
    Expression,
    /// The run is set to another chart reading.
    SetPoint,
    /// It affects the volume of the sample that was taken.
    Sample(SampleWay),
    /// It does not affect the volume of this run, and why.
    NoVolume(&'static str),
}

/// How a slip with this repair is undone.
pub(super) fn way(repair: Repair, story: &Story<'_>) -> Way {
    let mut edits = Edits::default();
    match repair {
        Repair::None => return Way::NoVolume("it does not change the volume"),
        Repair::RedoSums => return Way::Sums,
        Repair::RightExpression => return Way::Expression,
        Repair::SetPointFromLine => return Way::SetPoint,
        Repair::RightDecision => {
            return Way::NoVolume(
                "a decision does not change the volume: what it let pass is counted separately",
            );
        }
        Repair::RedoRunSums => {
            return Way::NoVolume("no sample was taken whose volume it could change");
        }
        Repair::RestoreSampler => {
            return Way::NoVolume("it spoils the run itself, not the calibration line");
        }
        Repair::RightCertificate => edits.values.right_certificate = true,
        Repair::StandardPair => edits.values.standard_pair = true,
        Repair::CopyCertificate => edits.values.as_printed = true,
        Repair::ReadConditions => edits.values.conditions = true,
        Repair::StationPressure => station_pressure(story, &mut edits),
        Repair::ShadeTemperature => shade(story, &mut edits),
        Repair::CloseLeak => edits.bench.held_tight = true,
        Repair::RemoveFilter => edits.bench.filter_out = true,
        Repair::PlumbManometer => plumb(story, &mut edits),
        Repair::OpenValves => open_valves(story, &mut edits),
        Repair::ZeroManometer => zero(story, &mut edits),
        Repair::ClearTube => clear_tube(story, &mut edits),
        Repair::MotorOnLine => motor_on_line(story, &mut edits),
        Repair::WaitFiveMinutes => warm_up(story, &mut edits),
        Repair::WaitTwoMinutes => settle(story, &mut edits),
        Repair::AddPoints => edits.values.openings = missing_openings(story),
        Repair::TapPen => tap(story, &mut edits),
        Repair::PenOnPaper => {
            let charts = story.points_of(repair).into_iter().map(Field::Chart);
            edits.values.as_seen.extend(charts);
        }
        Repair::AddSecondLeg => edits.values.both_legs.extend(story.points_of(repair)),
        Repair::EyeLevel => edits.values.level.extend(story.points_of(repair)),
        Repair::ReadAsSeen => {
            let points = story.points_of(repair).into_iter();
            let fields = points.flat_map(|p| [Field::Up(p), Field::Down(p), Field::Chart(p)]);
            edits.values.as_seen.extend(fields);
        }
    }
    Way::Again(Box::new(edits))
}

/// How a session would have gone without a fault.
pub(super) fn without(fault: &Fault, story: &Story<'_>) -> Edits {
    let mut edits = Edits::default();
    match fault {
        Fault::CertificateExpired | Fault::CertificateOfAnother => {
            edits.values.right_certificate = true;
        }
        Fault::CertificateActualFirst => edits.values.standard_pair = true,
        Fault::CertificateDigitsExchanged => edits.values.as_printed = true,
        Fault::ManometerOutOfPlumb { .. } => plumb(story, &mut edits),
        // A scale that is no longer stuck must also be set to zero.
        Fault::ManometerScaleStuck => zero(story, &mut edits),
        // Turning the screw against the fault would now turn the pen away from zero.
        Fault::PenZeroOff { .. } => {
            drop_all(story, &mut edits, |action| matches!(action, Action::SetPenZero { .. }));
        }
        _ => {}
    }
    if !edits.bench.without.contains(fault) {
        edits.bench.without.push(*fault);
    }
    edits
}

/// The repair that also undoes a fault, if there is one.
pub(super) const fn repair_of(fault: &Fault) -> Option<Repair> {
    Some(match fault {
        Fault::CalibratorGasketMissing { .. }
        | Fault::HolderGasketMissing { .. }
        | Fault::WasherBelow { .. }
        | Fault::NutLoose { .. } => Repair::CloseLeak,
        Fault::ManometerOutOfPlumb { .. } => Repair::PlumbManometer,
        Fault::ManometerScaleStuck => Repair::ZeroManometer,
        Fault::TubeKinked | Fault::TubeLoose { .. } | Fault::TubeWet { .. } => Repair::ClearTube,
        Fault::BarometerAtSeaLevel => Repair::StationPressure,
        Fault::ThermometerInSun { .. } => Repair::ShadeTemperature,
        Fault::PenSticks { .. } => Repair::TapPen,
        Fault::CertificateExpired | Fault::CertificateOfAnother => Repair::RightCertificate,
        Fault::CertificateActualFirst => Repair::StandardPair,
        Fault::CertificateDigitsExchanged => Repair::CopyCertificate,
        _ => return None,
    })
}

/// Leaves out every action of a kind up to the last reading.
fn drop_all(story: &Story<'_>, edits: &mut Edits, unwanted: fn(&Action) -> bool) {
    let last = story.last_index().unwrap_or(0);
    let moments = story.evidence.timeline().take(last);
    edits.dropped.extend(moments.filter(|at| unwanted(&at.moment.action)).map(|at| at.index));
}

/// Removes faults of a kind from the bench.
fn without_all(story: &Story<'_>, edits: &mut Edits, unwanted: fn(&Fault) -> bool) {
    let faults = story.evidence.setup.faults.iter().map(|(fault, _)| *fault);
    edits.bench.without.extend(faults.filter(unwanted));
}

fn station_pressure(story: &Story<'_>, edits: &mut Edits) {
    without_all(story, edits, |fault| matches!(fault, Fault::BarometerAtSeaLevel));
    drop_all(story, edits, |action| {
        matches!(action, Action::SetBarometer { to: BarometerReference::SeaLevel })
    });
}

fn shade(story: &Story<'_>, edits: &mut Edits) {
    without_all(story, edits, |fault| matches!(fault, Fault::ThermometerInSun { .. }));
    drop_all(story, edits, |action| {
        matches!(action, Action::PlaceThermometer { at: Exposure::Sun })
    });
}

fn plumb(story: &Story<'_>, edits: &mut Edits) {
    without_all(story, edits, |fault| matches!(fault, Fault::ManometerOutOfPlumb { .. }));
    drop_all(story, edits, |action| matches!(action, Action::SwingManometer { .. }));
    for place in story.hangings() {
        edits.does_after(place, [Deed::Mend(Mend::Plumb)]);
    }
}

fn open_valves(story: &Story<'_>, edits: &mut Edits) {
    drop_all(
        story,
        edits,
        |action| matches!(action, Action::TurnValve { quarter_turns, .. } if *quarter_turns < 0),
    );
    let open = |leg| Deed::Act(Action::TurnValve { leg, quarter_turns: OPEN_QUARTERS });
    let flows = story.points.iter().filter_map(|point| story.flow_set(point));
    for place in story.hangings().chain(flows) {
        edits.does_after(place, [open(Leg::Left), open(Leg::Right)]);
    }
}

fn zero(story: &Story<'_>, edits: &mut Edits) {
    without_all(story, edits, |fault| matches!(fault, Fault::ManometerScaleStuck));
    let legs = story.points.iter().filter_map(|point| point.legs().map(|at| at.index).min());
    let Some(first) = legs.min() else { return };
    let looked = story
        .readings
        .iter()
        .filter(|reading| matches!(reading.instrument, Instrument::LegUp | Instrument::LegDown));
    // Before the first leg was seen, which may be before it was written.
    let place = looked.map(|reading| reading.at.index).min().unwrap_or(first).min(first);
    edits.does_before(place, [Deed::Mend(Mend::Zero)]);
}

fn clear_tube(story: &Story<'_>, edits: &mut Edits) {
    without_all(story, edits, |fault| {
        matches!(fault, Fault::TubeKinked | Fault::TubeLoose { .. } | Fault::TubeWet { .. })
    });
    for point in &story.points {
        if let Some(place) = story.flow_set(point) {
            edits.does_after(place, [Deed::Act(Action::ConnectTube)]);
        }
        // If the tube was pulled off after the flow was set, it stays on.
        let from = story.flow_set(point).unwrap_or(0);
        let until = point.last.index;
        let moments = story.evidence.timeline().take(until).skip(from);
        let pulled = moments.filter(|at| at.moment.action == Action::DisconnectTube);
        edits.dropped.extend(pulled.map(|at| at.index));
    }
}

fn motor_on_line(story: &Story<'_>, edits: &mut Edits) {
    let Some(first) = story.first_point() else { return };
    let before = story.evidence.timeline().take(first.first.index);
    let started = before
        .rev()
        .find(|at| !at.moment.before.powered && at.moment.after.powered)
        .map(|at| at.index)
        .or_else(|| story.flow_set(first));
    let Some(started) = started else { return };
    let last = story.last_index().unwrap_or(started);
    let elsewhere = story.evidence.timeline().take(last).skip(started + 1).filter(|at| {
        let action = &at.moment.action;
        let plugs = |into: &BlowerPlug| *into != BlowerPlug::LineOutlet;
        matches!(action, Action::PlugBlower { into } if plugs(into))
    });
    edits.dropped.extend(elsewhere.map(|at| at.index));
    edits.does_after(
        started,
        [
            Deed::Act(Action::PlugBlower { into: BlowerPlug::LineOutlet }),
            Deed::Act(Action::SwitchLine { to: OnOff::On }),
        ],
    );
}

fn warm_up(story: &Story<'_>, edits: &mut Edits) {
    if let Some(first) = story.first_point() {
        pause(story, edits, first, WARM_UP_S - first.first.facts().running_s);
    }
}

fn settle(story: &Story<'_>, edits: &mut Edits) {
    for point in &story.points {
        pause(story, edits, point, SETTLE_S - point.first.facts().steady_s);
    }
}

/// Lets time pass between the last change of the flow and everything that was done for a point.
fn pause(story: &Story<'_>, edits: &mut Edits, point: &PointTaken<'_>, seconds: f64) {
    let ticks = (seconds.max(0.0) * TICKS_PER_SECOND as f64).ceil() as u64;
    if let Some(place) = story.flow_set(point).filter(|_| ticks > 0) {
        let pause = edits.pauses.entry(place).or_default();
        *pause = ticks.max(*pause);
    }
}

fn tap(story: &Story<'_>, edits: &mut Edits) {
    for number in story.points_of(Repair::TapPen) {
        let Some(reading) = story.reading(Field::Chart(number)) else { continue };
        let sights = Instrument::Pen.sights();
        let look = story.evidence.last_look(sights, reading.write).map(|look| look.index);
        // Before the pen was seen. A look before the flow was set does not count.
        let place = look.map_or(reading.at.index, |look| look.min(reading.at.index));
        let point = story.points.iter().find(|point| point.number == number);
        let set = point.and_then(|point| story.flow_set(point));
        let place = set.map_or(place, |set| place.max(set + 1));
        edits.does_before(place, std::iter::repeat_n(Deed::Act(Action::Tap), TAPS));
    }
}
