//! Phase F: everything as it was found, and the signature.

use super::Scene;
use super::load::ordered;
use super::mind::{Mind, Phase, Progress, stands_still};
use super::mount::TIGHT_QUARTERS;
use super::strip::take_nuts_off;
use crate::rig::parts::{BlowerPlug, Leg, Part, Place, TimerSwitch};
use crate::session::action::{Action, OnOff};

/// The phase looks at what is left to be done each time and does the next thing.
#[derive(Debug)]
pub(super) struct Restore;

impl Phase for Restore {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        let goals: [fn(&Scene<'_>, &mut Mind) -> bool; 6] =
            [make_safe, pen, manometer, calibrator, filter, power];
        // Before a run filter, lid and power are the next phase's.
        let count = if ordered(scene, mind) { 4 } else { goals.len() };
        // The first goal that is not reached yet puts its steps into the mind.
        if goals.into_iter().take(count).any(|goal| goal(scene, mind)) {
            Progress::More
        } else {
            Progress::Finished
        }
    }
}

/// Whether hands have to go into the shelter.
fn opened(scene: &Scene<'_>) -> bool {
    let mounting = &scene.view.mounting;
    mounting.lid_open
        && (mounting.place(Part::Frame) != Place::Holder
            || mounting.place(Part::Adapter) == Place::Holder)
}

/// The sampler dead and the rotor still, before hands go in.
fn make_safe(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    if !opened(scene) {
        return false;
    }
    if mind.stops_blower(scene) {
        return true;
    }
    if scene.view.calibrator.blocked {
        mind.does(Action::FreeOpenings);
        return true;
    }
    let still = stands_still(scene);
    if !still {
        mind.waits(5.0);
    }
    !still
}

/// The pen off the paper and capped.
fn pen(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    let recorder = &scene.view.recorder;
    // The pen that the next run is to draw with stays down.
    if mind.armed_next || recorder.capped && !recorder.on_paper {
        return false;
    }
    if recorder.on_paper {
        mind.does(Action::LiftPen);
    }
    if !recorder.capped {
        mind.does(Action::CapPen);
    }
    true
}

/// The tube off, the valves shut, the manometer in its case.
fn manometer(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    if scene.view.tube.on_tap {
        mind.does(Action::DisconnectTube);
    }
    if scene.view.mounting.place(Part::Manometer) == Place::Case {
        return scene.view.tube.on_tap;
    }
    for leg in [Leg::Left, Leg::Right] {
        let open = scene.view.manometer.leg(leg).valve_quarters;
        if open > 0 {
            mind.does(Action::TurnValve { leg, quarter_turns: -(open.min(4) as i8) });
        }
    }
    mind.moves(Part::Manometer, Place::Case);
    true
}

/// Calibrator and adapter plate in their case.
fn calibrator(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    let mounting = &scene.view.mounting;
    if mounting.place(Part::Calibrator) != Place::Case {
        mind.moves(Part::Calibrator, Place::Case);
    } else if mounting.place(Part::Adapter) == Place::Holder {
        take_nuts_off(scene, mind);
        mind.moves(Part::Adapter, Place::Case);
    } else if mounting.place(Part::Adapter) != Place::Case {
        mind.moves(Part::Adapter, Place::Case);
    } else {
        return false;
    }
    true
}

/// Filter, frame and nuts back on the holder, the lid closed.
fn filter(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    let mounting = &scene.view.mounting;
    if !mounting.lid_open {
        return false;
    }
    let bare = mounting.place(Part::Frame) != Place::Holder;
    // The filter of a run that is over stays in its envelope.
    let kept = scene.view.run.as_ref().is_some_and(|run| run.filter.folded_out.is_some());
    if mounting.place(Part::Filter) != Place::Holder && bare && !kept {
        mind.moves(Part::Filter, Place::Holder);
    } else if mounting.place(Part::Frame) != Place::Holder {
        mind.moves(Part::Frame, Place::Holder);
    } else if mounting.nuts.iter().any(|nut| nut.quarter_turns == 0) {
        let half = (TIGHT_QUARTERS / 2) as i8;
        mind.turns_nuts(half);
        mind.turns_nuts(half);
    } else {
        mind.does(Action::CloseLid);
    }
    true
}

/// The blower back on its controller, the sampler on the mains, the timer in charge, doors shut.
fn power(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    let power = &scene.view.power;
    if power.line_switch == OnOff::On {
        mind.does(Action::SwitchLine { to: OnOff::Off });
    } else if power.blower_plug != BlowerPlug::Controller {
        mind.does(Action::PlugBlower { into: BlowerPlug::Controller });
    } else if !power.sampler_cord_in {
        mind.does(Action::PlugSampler);
    } else if power.timer_switch != TimerSwitch::Auto {
        mind.does(Action::SwitchTimer { to: TimerSwitch::Auto });
    } else if scene.view.recorder.door_open {
        mind.does(Action::CloseDoor);
    } else {
        return false;
    }
    true
}

/// The signature.
#[derive(Debug)]
pub(super) struct Signing;

impl Phase for Signing {
    fn go_on(&mut self, _scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        mind.does(Action::Sign);
        Progress::Finished
    }
}
