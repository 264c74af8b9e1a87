//! Everything back as it was, then the sums, the decision, the set point.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{BlowerPlug, Leg, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::OnOff;

use super::{Next, Scene, first_blank, mount, next};

/// The next step until everything is back.
pub(super) fn restore(scene: &Scene<'_>) -> Option<Next> {
    if let Some(step) = points_closed(scene) {
        return Some(step);
    }
    if run_goes_on(scene) {
        // Before a run only what belongs to the calibration is put away.
        return manometer(scene).or_else(|| calibrator(scene));
    }
    closed(scene)
}

/// The next step until the last point is whole and the blower off the line.
pub(super) fn points_closed(scene: &Scene<'_>) -> Option<Next> {
    let view = &scene.view;
    if let Some(point) = last_point(scene)
        && !scene.has(Field::DeltaH(point))
    {
        let number = point.number();
        let step = format!("Add both legs of point {number}.");
        return next("legs-added", step, format!("write point {number} sum ..."));
    }
    // Once the sums are begun another chart may be on.
    let summed = scene.book.points().first().is_some_and(|&one| scene.has(Field::PointFlow(one)));
    let marks = view.recorder.marks.len();
    if !summed && marks < scene.book.points().len() {
        let step = "Mark the chart beside the trace with the number of the point.";
        return next("chart-marked", step, format!("mark chart \"{}\"", marks + 1));
    }
    let on_line = view.power.blower_plug == BlowerPlug::LineOutlet;
    if on_line && view.power.line_switch == OnOff::On {
        return next("blower-off", "The points are taken: stop the blower.", "switch line off");
    }
    None
}

/// Whether filter, pen and timer are still needed for a run, or are seen to with it.
fn run_goes_on(scene: &Scene<'_>) -> bool {
    scene.view.run.is_some() && !scene.refused()
}

/// The next step until recorder, sampler and power are as they were found.
pub(super) fn closed(scene: &Scene<'_>) -> Option<Next> {
    let recorder = &scene.view.recorder;
    let armed = scene.view.run.is_some()
        && scene.papers.work_order.next_run().is_some()
        && !scene.refused();
    // The next run is to draw with the pen: it stays down, uncapped.
    if armed {
        return manometer(scene).or_else(|| sampler(scene)).or_else(|| power(scene));
    }
    if recorder.on_paper {
        return next("pen-capped", "Lift the pen off the paper.", "lift pen");
    }
    if !recorder.capped {
        return next("pen-capped", "Put the cap on the pen.", "cap pen");
    }
    manometer(scene).or_else(|| sampler(scene)).or_else(|| power(scene))
}

fn last_point(scene: &Scene<'_>) -> Option<PointNumber> {
    scene.book.points().last().copied()
}

fn manometer(scene: &Scene<'_>) -> Option<Next> {
    let view = &scene.view;
    if view.tube.on_tap {
        return next("tube-off", "Pull the tube off the tap.", "disconnect tube");
    }
    if view.mounting.place(RigPart::Manometer) == PartPlace::Case {
        return None;
    }
    if [Leg::Left, Leg::Right].iter().any(|&leg| view.manometer.leg(leg).valve_quarters > 0) {
        return next("valves-shut", "Shut both valves.", "shut both valves");
    }
    next("nothing-left", "Put the manometer into its case.", "carry manometer to case")
}

fn sampler(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.mounting;
    let place = |part| seen.place(part);
    // The filter of a run that is over stays in its envelope.
    let kept = scene.view.run.as_ref().is_some_and(|run| run.filter.folded_out.is_some());
    let apart = place(RigPart::Calibrator) != PartPlace::Case
        || place(RigPart::Adapter) != PartPlace::Case
        || place(RigPart::Frame) != PartPlace::Holder
        || (place(RigPart::Filter) != PartPlace::Holder && !kept);
    let loose = seen.nuts.iter().any(|nut| nut.quarter_turns < 6);
    if !apart && !loose {
        return match seen.lid_open {
            true => next("lid-closed", "Close the lid.", "close lid"),
            false => None,
        };
    }
    if let Some(step) = mount::dead(scene).or_else(|| calibrator(scene)) {
        return Some(step);
    }
    if place(RigPart::Filter) != PartPlace::Holder && !kept {
        return next("holder-closed", "Put the filter back.", "carry filter to holder");
    }
    if place(RigPart::Frame) != PartPlace::Holder {
        return next("holder-closed", "Put the filter frame back.", "carry frame to holder");
    }
    next("holder-closed", "Tighten the nuts.", "tighten nuts")
}

/// Calibrator and adapter plate into their case, the sampler dead.
fn calibrator(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.mounting;
    let place = |part| seen.place(part);
    if place(RigPart::Calibrator) == PartPlace::Case && place(RigPart::Adapter) == PartPlace::Case {
        return None;
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    if place(RigPart::Calibrator) != PartPlace::Case {
        let step = "Put the calibrator into its case.";
        return next("calibrator-off", step, "carry calibrator to case");
    }
    if place(RigPart::Adapter) == PartPlace::Holder
        && seen.nuts.iter().any(|nut| nut.quarter_turns > 0)
    {
        return next("calibrator-off", "Loosen the nuts of the adapter plate.", "loosen nuts");
    }
    if place(RigPart::Adapter) != PartPlace::Case {
        let step = "Put the adapter plate into its case.";
        return next("calibrator-off", step, "carry adapter to case");
    }
    None
}

fn power(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.power;
    let rule = "plug-on-controller";
    if seen.blower_plug != BlowerPlug::Controller {
        let step = "Put the blower's plug back into the flow controller.";
        return next(rule, step, "plug blower into controller");
    }
    if !seen.sampler_cord_in {
        return next(rule, "Put the sampler's cord back into the mains.", "plug in sampler");
    }
    if seen.timer_switch != TimerSwitch::Auto {
        return next(rule, "Leave the timer in charge.", "set timer to auto");
    }
    if scene.view.recorder.door_open {
        return next("nothing-left", "Close the recorder's door.", "close door");
    }
    None
}

/// The next step of the sums; none when the book is full.
pub(super) fn sums(scene: &Scene<'_>) -> Option<Next> {
    if scene.refused() || scene.papers.work_order.is_check_alone() {
        return None;
    }
    for point in scene.book.points() {
        let number = point.number();
        if !scene.has(Field::PointFlow(point)) {
            let step = "Work out the flow of each point: (sqrt(dH P/760 298/T) - intercept)/slope.";
            return next("point-flows", step, format!("write point {number} flow ..."));
        }
        if !scene.has(Field::ChartTerm(point)) {
            let step = "Work out the chart term of each point: I sqrt(P/760 298/T).";
            return next("chart-terms", step, format!("write point {number} chart term ..."));
        }
    }
    let line = "Fit the line of the chart terms over the flows.";
    let fields = [
        (
            Field::Expression,
            "chart-expression",
            "Write which expression the chart term has.",
            "write expression I sqrt(P/760 298/T)",
        ),
        (Field::Slope, "line", line, "write slope ..."),
        (Field::Intercept, "line", line, "write intercept ..."),
        (Field::Correlation, "line", line, "write correlation ..."),
        (
            Field::Decision,
            "decision-written",
            "Hold the line against the last one and its limits, and accept or refuse it.",
            "write decision ...",
        ),
        (
            Field::TargetFlow,
            "target-as-ordered",
            "Write the flow that the work order asks for.",
            "write target flow ...",
        ),
        (
            Field::SetPoint,
            "set-point-written",
            "Work out the chart reading for that flow, at the pressure and temperature of the run.",
            "write set point ...",
        ),
    ];
    first_blank(scene, fields)
}
