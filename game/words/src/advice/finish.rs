//! Everything back as it was, then the calculations, the decision, the set point.

use content::advice::Deed;
use sim_core::field_book::Field;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{BlowerPlug, Leg, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, OnOff};

use super::goal::Goal;
use super::mount;
use super::next::{Advice, act, acts, by_season, enter, first_blank, next};
use super::scene::Scene;
use crate::moves::{carry, loosen_all, shut_both, tighten_all};

/// What is written for the expression of the corrected chart reading.
const EXPRESSION: &str = "I sqrt(P/760 298/T)";
/// The same with the averages Pa, Ta of the season built in.
const WITH_AVERAGES: &str = "I sqrt(P/Pa Ta/T)";

/// The next step until everything is back.
pub(super) fn restore(scene: &Scene<'_>) -> Option<Advice> {
    if let Some(step) = points_closed(scene) {
        return Some(step);
    }
    if run_goes_on(scene) {
        // Before a run only what belongs to the calibration is put away.
        return manometer(scene).or_else(|| calibrator(scene));
    }
    closed(scene)
}

/// The next step until the last point is whole and the blower off.
pub(super) fn points_closed(scene: &Scene<'_>) -> Option<Advice> {
    let view = &scene.view;
    if let Some(&point) = scene.book.points().last()
        && !scene.has(Field::DeltaH(point))
    {
        return enter("legs-added", Field::DeltaH(point));
    }
    // Once the calculations are begun another chart may be on.
    let begun = scene.book.points().first().is_some_and(|&one| scene.has(Field::PointFlow(one)));
    let marks = view.recorder.marks.len();
    if !begun && marks < scene.book.points().len() {
        let mark = Action::MarkChart { label: (marks + 1).to_string() };
        return act("chart-marked", Goal::ChartMarked, mark);
    }
    let on_line = view.power.blower_plug == BlowerPlug::LineOutlet;
    if on_line && view.power.line_switch == OnOff::On {
        let off = Action::SwitchLine { to: OnOff::Off };
        return act("blower-off", Goal::BlowerOffAfterPoints, off);
    }
    None
}

/// Whether filter, pen and timer are still needed for a run, or are seen to with it.
fn run_goes_on(scene: &Scene<'_>) -> bool {
    scene.view.run.is_some() && !scene.refused()
}

/// The next step until recorder, sampler and power are as they were found.
pub(super) fn closed(scene: &Scene<'_>) -> Option<Advice> {
    let recorder = &scene.view.recorder;
    let set_up = scene.view.run.is_some()
        && scene.papers.work_order.next_run().is_some()
        && !scene.refused();
    // The next run is to draw with the pen: it stays down, uncapped.
    if !set_up && recorder.on_paper {
        return act("pen-capped", Goal::AsDone, Action::LiftPen);
    }
    if !set_up && !recorder.capped {
        return act("pen-capped", Goal::AsDone, Action::CapPen);
    }
    manometer(scene).or_else(|| sampler(scene)).or_else(|| power(scene))
}

fn manometer(scene: &Scene<'_>) -> Option<Advice> {
    let view = &scene.view;
    if view.tube.on_tap {
        return act("tube-off", Goal::AsDone, Action::DisconnectTube);
    }
    if view.mounting.place(RigPart::Manometer) == PartPlace::Case {
        return None;
    }
    if view.manometer.display.is_some_and(|display| display.shows != Shown::Nothing) {
        let off = Action::SwitchManometer { to: OnOff::Off };
        return act("nothing-left", Goal::AsDone, off);
    }
    if [Leg::Left, Leg::Right].iter().any(|&leg| view.manometer.leg(leg).valve_quarters > 0) {
        return acts("valves-shut", Goal::AsDone, shut_both(view));
    }
    let away = carry(view, RigPart::Manometer, PartPlace::Case);
    acts("nothing-left", Goal::PutAway(RigPart::Manometer), away)
}

fn sampler(scene: &Scene<'_>) -> Option<Advice> {
    let (view, seen) = (&scene.view, &scene.view.mounting);
    let place = |part| seen.place(part);
    // The filter of a run that is over stays in its envelope.
    let kept = view.run.as_ref().is_some_and(|run| run.filter.folded_out.is_some());
    let apart = place(RigPart::Calibrator) != PartPlace::Case
        || place(RigPart::Adapter) != PartPlace::Case
        || place(RigPart::Frame) != PartPlace::Holder
        || (place(RigPart::Filter) != PartPlace::Holder && !kept);
    let loose = seen.nuts.iter().any(|nut| nut.quarter_turns < 6);
    if !apart && !loose {
        return match seen.lid_open {
            true => act("lid-closed", Goal::AsDone, Action::CloseLid),
            false => None,
        };
    }
    if let Some(step) = mount::dead(scene).or_else(|| calibrator(scene)) {
        return Some(step);
    }
    let back = |part| acts("holder-closed", Goal::Back(part), carry(view, part, PartPlace::Holder));
    if place(RigPart::Filter) != PartPlace::Holder && !kept {
        return back(RigPart::Filter);
    }
    if place(RigPart::Frame) != PartPlace::Holder {
        return back(RigPart::Frame);
    }
    acts("holder-closed", Goal::NutsTight, tighten_all(view))
}

/// Calibrator and adapter plate into their case, the sampler dead.
fn calibrator(scene: &Scene<'_>) -> Option<Advice> {
    let (view, seen) = (&scene.view, &scene.view.mounting);
    let place = |part| seen.place(part);
    if place(RigPart::Calibrator) == PartPlace::Case && place(RigPart::Adapter) == PartPlace::Case {
        return None;
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    let away =
        |part| acts("calibrator-off", Goal::PutAway(part), carry(view, part, PartPlace::Case));
    if place(RigPart::Calibrator) != PartPlace::Case {
        return away(RigPart::Calibrator);
    }
    if place(RigPart::Adapter) == PartPlace::Holder
        && seen.nuts.iter().any(|nut| nut.quarter_turns > 0)
    {
        return acts("calibrator-off", Goal::AsDone, loosen_all(view));
    }
    if place(RigPart::Adapter) != PartPlace::Case {
        return away(RigPart::Adapter);
    }
    None
}

fn power(scene: &Scene<'_>) -> Option<Advice> {
    let seen = &scene.view.power;
    let rule = "plug-on-controller";
    if seen.blower_plug != BlowerPlug::Controller {
        let plug = Action::PlugBlower { into: BlowerPlug::Controller };
        return act(rule, Goal::BlowerOnController, plug);
    }
    if !seen.sampler_cord_in {
        return act(rule, Goal::AsDone, Action::PlugSampler);
    }
    if seen.timer_switch != TimerSwitch::Auto {
        let auto = Action::SwitchTimer { to: TimerSwitch::Auto };
        return act(rule, Goal::TimerInCharge, auto);
    }
    if scene.view.recorder.door_open {
        return act("nothing-left", Goal::AsDone, Action::CloseDoor);
    }
    None
}

/// The next step of the calculations; none when the book is full.
pub(super) fn sums(scene: &Scene<'_>) -> Option<Advice> {
    if scene.refused() || scene.papers.work_order.is_check_alone() {
        return None;
    }
    let of_points = scene.book.points().into_iter().flat_map(|point| {
        [(Field::PointFlow(point), "point-flows"), (Field::ChartTerm(point), "chart-terms")]
    });
    if let Some(step) = first_blank(scene, of_points) {
        return Some(by_season(scene, step));
    }
    if !scene.has(Field::Expression) {
        let field = Field::Expression;
        let built_in = scene.averages_built_in() == Some(true);
        let text = if built_in { WITH_AVERAGES } else { EXPRESSION };
        let write = Action::Write { field, text: text.to_owned() };
        return next("chart-expression", Goal::Enter(field), [Deed::Do(write)]);
    }
    let fields = [
        (Field::Slope, "line"),
        (Field::Intercept, "line"),
        (Field::Correlation, "line"),
        (Field::Decision, "decision-written"),
        (Field::TargetFlow, "target-as-ordered"),
        (Field::SetPoint, "set-point-written"),
    ];
    first_blank(scene, fields).map(|step| by_season(scene, step))
}
