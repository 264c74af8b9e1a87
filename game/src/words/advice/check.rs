//! The flow checked against the standard, on the sampler as it runs: alone between two calibrations, or
//! on the first filter of the folder once a line is accepted.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart, TimerSwitch};
use sim_core::scenario::setup::FlowCheckOrder;
use sim_core::session::action::Sight;

use super::{Next, Scene, arrive, finish, first_blank, mount, next, points, screw};

/// The next step where only a check is ordered; none once it is judged.
pub(super) fn alone(scene: &Scene<'_>) -> Option<Next> {
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
        .or_else(|| readings(scene, order))
        .or_else(|| sums(scene))
}

/// The next step of a check of the own line; none once it is judged, or where there is no line.
pub(super) fn of_own_line(scene: &Scene<'_>) -> Option<Next> {
    let order = scene.papers.work_order.check_of_own_line()?;
    if judged(scene) {
        return None;
    }
    finish::points_closed(scene)
        .or_else(|| finish::sums(scene))
        .or_else(|| under_the_calibrator(scene))
        .or_else(|| running(scene))
        .or_else(|| screw::warm(scene))
        .or_else(|| air(scene))
        .or_else(|| if reading(scene) { None } else { screw::brought(scene) })
        .or_else(|| readings(scene, order))
        .or_else(|| sums(scene))
}

/// Whether the outcome is written, or the work given up.
fn judged(scene: &Scene<'_>) -> bool {
    scene.refused() || scene.has(Field::CheckOutcome)
}

/// Whether readings are being taken: then the screw is left alone.
fn reading(scene: &Scene<'_>) -> bool {
    PointNumber::all().any(|number| scene.has(Field::CheckChart(number)))
}

/// A filter of the folder under plate and calibrator, the knob open, the tube on its tap.
fn under_the_calibrator(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.mounting;
    let place = |part| seen.place(part);
    let rule = "check-as-it-runs";
    let loose = seen.nuts.iter().any(|nut| nut.quarter_turns < 6);
    if place(RigPart::Filter) == PartPlace::Holder
        && place(RigPart::Calibrator) == PartPlace::Adapter
        && !loose
    {
        if scene.view.calibrator.knob < 1.0 {
            return next(rule, "Open the knob fully.", "open knob fully");
        }
        return match scene.view.tube.on_tap {
            true => None,
            false => next(rule, "Push the tube onto the tap.", "connect tube"),
        };
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    match place(RigPart::Filter) {
        PartPlace::Holder if place(RigPart::Adapter) != PartPlace::Holder => {
            next(rule, "Put the adapter plate over the filter.", "carry adapter to holder")
        }
        PartPlace::Holder if loose => {
            next("nuts-snug", "Tighten the four nuts, opposite corners in turn.", "tighten nuts")
        }
        PartPlace::Holder => next(rule, "Put the calibrator on.", "carry calibrator to adapter"),
        PartPlace::Hand => in_hand(scene),
        _ if scene.view.tube.on_tap => {
            let step =
                "The flow is checked with a filter in: pull the tube off and make room for it.";
            next(rule, step, "disconnect tube")
        }
        _ if place(RigPart::Calibrator) == PartPlace::Adapter => {
            next(rule, "Lay the calibrator aside.", "carry calibrator to ground")
        }
        _ if place(RigPart::Adapter) == PartPlace::Holder => {
            let held = seen.nuts.iter().any(|nut| nut.quarter_turns > 0);
            let sentence = if held { "loosen nuts" } else { "carry adapter to ground" };
            next(rule, "Take the adapter plate off.", sentence)
        }
        _ if scene.view.run.is_some() => {
            next("filter-by-edges", "Take a fresh filter.", "take filter by its edges")
        }
        _ => next(rule, "Put the filter on the holder.", "carry filter to holder"),
    }
}

/// A filter in the hand, looked over before it is laid down.
fn in_hand(scene: &Scene<'_>) -> Option<Next> {
    let looked = scene.view.run.as_deref().is_none_or(|run| run.filter.holes.is_some());
    if !looked {
        return next("filter-inspected", "Hold it against the light.", "hold filter to light");
    }
    next("check-as-it-runs", "Lay it on the holder.", "put it on holder")
}

/// The blower on its controller and running, the pen on the paper.
fn running(scene: &Scene<'_>) -> Option<Next> {
    let power = &scene.view.power;
    let rule = "check-as-it-runs";
    if power.blower_plug != BlowerPlug::Controller {
        let step = "The sampler is checked as it runs: the blower's plug into the flow controller.";
        return next(rule, step, "plug blower into controller");
    }
    if scene.view.calibrator.knob < 1.0 {
        return next(rule, "Open the knob fully.", "open knob fully");
    }
    if let Some(step) = points::pen(scene) {
        return Some(step);
    }
    if !power.sampler_cord_in {
        return next(rule, "Put the sampler's cord into the mains.", "plug in sampler");
    }
    if power.timer_switch != TimerSwitch::On {
        return next(rule, "Start the blower.", "set timer to on");
    }
    match scene.runs() {
        true => None,
        false => next("warm-up", "Let the blower run up.", "wait 10 s"),
    }
}

/// Temperature and pressure at the check.
fn air(scene: &Scene<'_>) -> Option<Next> {
    let rule = "check-sums";
    if !scene.has(Field::CheckTemperature) {
        let sentence = match scene.view.focus {
            Sight::Thermometer => "write check temperature ...",
            _ => "look at thermometer",
        };
        return next(rule, "Read the thermometer once more.", sentence);
    }
    if !scene.has(Field::CheckPressure) {
        let sentence = match scene.view.focus {
            Sight::Barometer => "write check pressure ...",
            _ => "look at barometer",
        };
        return next(rule, "Read the barometer once more.", sentence);
    }
    None
}

/// Pen and both legs, as often as ordered.
fn readings(scene: &Scene<'_>, order: FlowCheckOrder) -> Option<Next> {
    let read = |number: u8, (rule, of): (&'static str, &str), at: Sight, look: &str| {
        let step = format!("Reading {number} of the check: {of}.");
        let write = of.split(' ').next_back().unwrap_or(of);
        let here = scene.view.focus == at;
        let sentence =
            if here { format!("write check {number} {write} ...") } else { look.to_owned() };
        next(rule, step, sentence)
    };
    for number in PointNumber::all().take(usize::from(order.readings)) {
        let n = number.number();
        if !scene.has(Field::CheckChart(number)) {
            if let Some(step) = screw::tapped(scene) {
                return Some(step);
            }
            return read(n, ("check-read", "the chart"), Sight::Pen, "read pen");
        }
        let up = ("check-read", "the leg that went up");
        if !scene.has(Field::CheckUp(number)) {
            return read(n, up, Sight::LeftLeg, "read left leg");
        }
        if !scene.has(Field::CheckDown(number)) {
            let down = ("check-read", "the leg that went down");
            return read(n, down, Sight::RightLeg, "read right leg");
        }
    }
    None
}

/// Both flows, their difference, and what follows.
fn sums(scene: &Scene<'_>) -> Option<Next> {
    let fields = [
        (
            Field::CheckFlow,
            "check-sums",
            "The flow by the standard, mean of the readings: (sqrt(dH P/760 298/T) - intercept)/slope.",
            "write check flow ...",
        ),
        (
            Field::CheckLineFlow,
            "check-sums",
            "The flow that the line tells for the pen, mean of the readings.",
            "write check line flow ...",
        ),
        (
            Field::CheckDifference,
            "check-sums",
            "How much more the line tells than the standard, percent.",
            "write check difference ...",
        ),
        (
            Field::CheckOutcome,
            "check-judged",
            "Within the limit of the work order it has passed; otherwise say what follows.",
            "write check outcome ...",
        ),
    ];
    first_blank(scene, fields)
}
