//! The flow checked against the standard, on the sampler as it runs: alone between two calibrations, or
//! on the first filter of the folder once a calibration line is accepted.

use content::advice::Deed;
use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{BlowerPlug, Grip, PartPlace, RigPart, TimerSwitch};
use sim_core::scenario::setup::{CheckedLine, FlowCheckOrder};
use sim_core::session::action::{Action, Sight};

use super::goal::Goal;
use super::next::{Advice, act, acts, first_blank, next, wait};
use super::scene::Scene;
use super::{arrive, finish, mount, plates, points, screw};
use crate::moves::{carry, loosen_all, tighten_all};

/// The rule behind most of it.
const AS_IT_RUNS: &str = "check-as-it-runs";

/// The next step where only a check is ordered; none once it is judged.
pub(super) fn alone(scene: &Scene<'_>) -> Option<Advice> {
    let order = scene.papers.work_order.flow_check?;
    if !scene.papers.work_order.is_check_alone() || judged(scene) {
        return None;
    }
    arrive::next_step(scene)
        .or_else(|| mount::sampler(scene))
        .or_else(|| mount::manometer(scene))
        .or_else(|| running(scene))
        .or_else(|| points::proved(scene))
        .or_else(|| screw::warm(scene))
        .or_else(|| trimmed(scene, order))
        .or_else(|| readings(scene, order))
        .or_else(|| sums(scene, order))
}

/// The next step of a check of the trainee's own calibration line; none once it is judged, or where
/// no check is ordered.
pub(super) fn of_own_line(scene: &Scene<'_>) -> Option<Advice> {
    let order = scene.papers.work_order.check_of_own_line()?;
    if judged(scene) {
        return None;
    }
    finish::points_closed(scene)
        .or_else(|| finish::sums(scene))
        .or_else(|| under_the_calibrator(scene))
        .or_else(|| running(scene))
        .or_else(|| points::proved(scene))
        .or_else(|| screw::warm(scene))
        .or_else(|| air(scene))
        .or_else(|| if reading(scene) { None } else { screw::brought(scene) })
        .or_else(|| readings(scene, order))
        .or_else(|| sums(scene, order))
}

/// The sampler running as it runs, its joints proved tight and the blower warm.
pub(super) fn started(scene: &Scene<'_>) -> Option<Advice> {
    running(scene).or_else(|| points::proved(scene)).or_else(|| screw::warm(scene))
}

/// The controller trimmed by the standard, where no line is checked. Once readings are being taken, the
/// screw is left alone.
fn trimmed(scene: &Scene<'_>, order: FlowCheckOrder) -> Option<Advice> {
    if order.line != CheckedLine::ControlledFlow || reading(scene) {
        return None;
    }
    screw::brought_by_standard(scene)
}

/// Whether the outcome is written, or the work given up.
fn judged(scene: &Scene<'_>) -> bool {
    let charted = || Field::HISTORY.into_iter().all(|field| scene.has(field));
    let without_chart = scene.papers.work_order.history.is_none();
    scene.refused() || scene.has(Field::CheckOutcome) && (without_chart || charted())
}

/// Whether readings are being taken: then the screw is left alone.
fn reading(scene: &Scene<'_>) -> bool {
    PointNumber::all().any(|number| scene.has(Field::CheckChart(number)))
}

/// A filter of the folder under plate and calibrator, the knob open, the tube on its tap.
fn under_the_calibrator(scene: &Scene<'_>) -> Option<Advice> {
    let view = &scene.view;
    let place = |part| view.mounting.place(part);
    let loose = view.mounting.nuts.iter().any(|nut| nut.quarter_turns < 6);
    if place(RigPart::Filter) == PartPlace::Holder
        && place(RigPart::Calibrator) == PartPlace::Adapter
        && !loose
    {
        return knob_open(scene).or_else(|| match view.tube.on_tap {
            true => None,
            false => act(AS_IT_RUNS, Goal::Joined, Action::ConnectTube),
        });
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    let moved = |goal, part, place| acts(AS_IT_RUNS, goal, carry(view, part, place));
    match place(RigPart::Filter) {
        PartPlace::Holder if place(RigPart::Adapter) != PartPlace::Holder => {
            moved(Goal::AdapterOverFilter, RigPart::Adapter, PartPlace::Holder)
        }
        PartPlace::Holder if loose => acts("nuts-snug", Goal::NutsTight, tighten_all(view)),
        PartPlace::Holder => moved(Goal::CalibratorOn, RigPart::Calibrator, PartPlace::Adapter),
        PartPlace::Hand => in_hand(scene),
        _ if view.tube.on_tap => act(AS_IT_RUNS, Goal::RoomForFilter, Action::DisconnectTube),
        _ if place(RigPart::Calibrator) == PartPlace::Adapter => {
            moved(Goal::Off(RigPart::Calibrator), RigPart::Calibrator, PartPlace::Ground)
        }
        _ if place(RigPart::Adapter) == PartPlace::Holder => {
            let held = view.mounting.nuts.iter().any(|nut| nut.quarter_turns > 0);
            let nuts_first = loosen_all(view);
            let off = carry(view, RigPart::Adapter, PartPlace::Ground);
            acts(AS_IT_RUNS, Goal::Off(RigPart::Adapter), if held { nuts_first } else { off })
        }
        _ if view.run.is_some() => {
            let take = Action::TakeFilter { grip: Grip::Edges };
            act("filter-by-edges", Goal::FreshFilter, take)
        }
        _ => moved(Goal::FilterOnHolder, RigPart::Filter, PartPlace::Holder),
    }
}

/// A filter in the hand, looked over before it is laid down.
fn in_hand(scene: &Scene<'_>) -> Option<Advice> {
    let looked = scene.view.run.as_deref().is_none_or(|run| run.filter.holes.is_some());
    if !looked {
        return act("filter-inspected", Goal::FilterInspected, Action::HoldToLight);
    }
    act(AS_IT_RUNS, Goal::FilterOnHolder, Action::Put { place: PartPlace::Holder })
}

/// The knob, or the plate, as it is during a check.
fn knob_open(scene: &Scene<'_>) -> Option<Advice> {
    if scene.view.calibrator.plates.is_some() {
        return plates::widest(scene);
    }
    let open = scene.view.calibrator.knob >= 1.0;
    if open { None } else { act(AS_IT_RUNS, Goal::AsDone, Action::TurnKnob { opening: 1.0 }) }
}

/// The blower on its controller and running, the pen on the paper.
fn running(scene: &Scene<'_>) -> Option<Advice> {
    let power = &scene.view.power;
    if power.blower_plug != BlowerPlug::Controller {
        let plug = Action::PlugBlower { into: BlowerPlug::Controller };
        return act(AS_IT_RUNS, Goal::CheckedAsItRuns, plug);
    }
    if let Some(step) = knob_open(scene).or_else(|| points::pen(scene)) {
        return Some(step);
    }
    if !power.sampler_cord_in {
        return act(AS_IT_RUNS, Goal::AsDone, Action::PlugSampler);
    }
    if power.timer_switch != TimerSwitch::On {
        let on = Action::SwitchTimer { to: TimerSwitch::On };
        return act(AS_IT_RUNS, Goal::BlowerAtSpeed, on);
    }
    match scene.runs() {
        true => None,
        false => wait("warm-up", Goal::BlowerAtSpeed, 10.0),
    }
}

/// Temperature and pressure at the check.
fn air(scene: &Scene<'_>) -> Option<Advice> {
    let (field, at) =
        [(Field::CheckTemperature, Sight::Thermometer), (Field::CheckPressure, Sight::Barometer)]
            .into_iter()
            .find(|(field, _)| !scene.has(*field))?;
    next("check-sums", Goal::Enter(field), scene.look_and_write(at, field))
}

/// Pen and both legs, as often as ordered.
fn readings(scene: &Scene<'_>, order: FlowCheckOrder) -> Option<Advice> {
    for number in PointNumber::all().take(usize::from(order.readings)) {
        let lacking: Vec<(Sight, Field)> = [
            (Sight::Pen, Field::CheckChart(number)),
            (Sight::LeftLeg, Field::CheckUp(number)),
            (Sight::RightLeg, Field::CheckDown(number)),
        ]
        .into_iter()
        .filter(|(_, field)| !scene.has(*field))
        .collect();
        if lacking.is_empty() {
            continue;
        }
        let sights: Vec<Sight> = lacking.iter().map(|(at, _)| *at).collect();
        let reads = scene.reading(&sights);
        if !reads.is_empty() {
            return acts("check-read", Goal::CheckRead(number), reads);
        }
        let writes = lacking.into_iter().map(|(_, field)| Deed::Write(field));
        return next("check-read", Goal::CheckRead(number), writes);
    }
    None
}

/// Both flows, their difference, and what follows.
fn sums(scene: &Scene<'_>, order: FlowCheckOrder) -> Option<Advice> {
    let fields = order.sums().iter().map(|&field| (field, "check-sums"));
    let fields = fields.chain([(Field::CheckOutcome, "check-judged")]);
    let chart = [(Field::HistoryPoint, "history-kept"), (Field::HistoryReading, "history-read")];
    let charted = scene.papers.work_order.history.iter().flat_map(|_| chart);
    first_blank(scene, fields.chain(charted))
}
