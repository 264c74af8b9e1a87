//! Phase F: everything is restored as it was found, and the field book is signed.

use super::Observation;
use super::load::ordered;
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::mount::TIGHT_QUARTERS;
use super::running::stands_still;
use super::strip::take_nuts_off;
use crate::rig::manometer::electronic::Shown;
use crate::rig::parts::{BlowerPlug, Leg, PartPlace, RigPart, TimerSwitch};
use crate::session::action::{Action, OnOff};

/// Each time, the phase looks at what remains to be done and takes the next step.
#[derive(Debug)]
pub(super) struct RestorePhase;

impl OperatorPhase for RestorePhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let goals: [fn(&Observation<'_>, &mut Memory) -> bool; 6] =
            [make_safe, pen, manometer, calibrator, filter, power];
        // Before a run, filter, lid and power belong to the next phase.
        let count = if ordered(observed, memory) { 4 } else { goals.len() };
        // The first goal that has not been reached plans its steps.
        if goals.into_iter().take(count).any(|goal| goal(observed, memory)) {
            PhaseProgress::More
        } else {
            memory.thinks(if count < goals.len() {
                "Manometer and calibrator are in their cases; the filter, the lid and the power belong to the run."
            } else {
                "Nothing is left to be put back."
            });
            PhaseProgress::Finished
        }
    }
}

/// Whether the hands must go into the shelter.
fn opened(observed: &Observation<'_>) -> bool {
    let mounting = &observed.view.mounting;
    mounting.lid_open
        && (mounting.place(RigPart::Frame) != PartPlace::Holder
            || mounting.place(RigPart::Adapter) == PartPlace::Holder)
}

/// Cuts the power and waits until the rotor has stopped, before the hands go in.
fn make_safe(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    if !opened(observed) {
        return false;
    }
    if memory.stops_blower(observed) {
        return true;
    }
    if observed.view.calibrator.blocked {
        memory.does(Action::FreeOpenings);
        return true;
    }
    let still = stands_still(observed);
    if !still {
        memory.waits(5.0);
    }
    !still
}

/// Lifts the pen off the chart and caps it.
fn pen(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let recorder = &observed.view.recorder;
    // The pen stays on the chart for the next run.
    if memory.armed_next || recorder.capped && !recorder.on_paper {
        return false;
    }
    if recorder.on_paper {
        memory.does(Action::LiftPen);
    }
    if !recorder.capped {
        memory.does(Action::CapPen);
    }
    true
}

/// Takes the tubing off, shuts the valves and puts the manometer into its case.
fn manometer(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    if observed.view.tube.on_tap {
        memory.does(Action::DisconnectTube);
    }
    if observed.view.mounting.place(RigPart::Manometer) == PartPlace::Case {
        return observed.view.tube.on_tap;
    }
    if observed.view.manometer.display.is_some_and(|display| display.shows != Shown::Nothing) {
        memory.does(Action::SwitchManometer { to: OnOff::Off });
    }
    for leg in [Leg::Left, Leg::Right] {
        let open = observed.view.manometer.leg(leg).valve_quarters;
        if open > 0 {
            memory.does(Action::TurnValve { leg, quarter_turns: -(open.min(4) as i8) });
        }
    }
    memory.moves(RigPart::Manometer, PartPlace::Case);
    true
}

/// Puts calibrator and adapter plate into their case.
fn calibrator(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let mounting = &observed.view.mounting;
    if mounting.place(RigPart::Calibrator) != PartPlace::Case {
        memory.moves(RigPart::Calibrator, PartPlace::Case);
    } else if mounting.place(RigPart::Adapter) == PartPlace::Holder {
        take_nuts_off(observed, memory);
        memory.moves(RigPart::Adapter, PartPlace::Case);
    } else if mounting.place(RigPart::Adapter) != PartPlace::Case {
        memory.moves(RigPart::Adapter, PartPlace::Case);
    } else {
        return false;
    }
    true
}

/// Puts filter, hold-down frame and nuts back on the holder and closes the lid.
fn filter(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let mounting = &observed.view.mounting;
    if !mounting.lid_open {
        return false;
    }
    let bare = mounting.place(RigPart::Frame) != PartPlace::Holder;
    // The filter of a finished run stays in its envelope.
    let kept = observed.view.run.as_ref().is_some_and(|run| run.filter.folded_out.is_some());
    if mounting.place(RigPart::Filter) != PartPlace::Holder && bare && !kept {
        memory.moves(RigPart::Filter, PartPlace::Holder);
    } else if mounting.place(RigPart::Frame) != PartPlace::Holder {
        memory.moves(RigPart::Frame, PartPlace::Holder);
    } else if mounting.nuts.iter().any(|nut| nut.quarter_turns == 0) {
        let half = (TIGHT_QUARTERS / 2) as i8;
        memory.turns_nuts(half);
        memory.turns_nuts(half);
    } else {
        memory.does(Action::CloseLid);
    }
    true
}

/// Puts the blower back on its controller and the sampler on the mains, gives the timer control,
/// and shuts the doors.
fn power(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let power = &observed.view.power;
    if power.line_switch == OnOff::On {
        memory.does(Action::SwitchLine { to: OnOff::Off });
    } else if power.blower_plug != BlowerPlug::Controller {
        memory.does(Action::PlugBlower { into: BlowerPlug::Controller });
    } else if !power.sampler_cord_in {
        memory.does(Action::PlugSampler);
    } else if power.timer_switch != TimerSwitch::Auto {
        memory.does(Action::SwitchTimer { to: TimerSwitch::Auto });
    } else if observed.view.recorder.door_open {
        memory.does(Action::CloseDoor);
    } else {
        return false;
    }
    true
}

/// The signature.
#[derive(Debug)]
pub(super) struct SigningPhase;

impl OperatorPhase for SigningPhase {
    fn go_on(&mut self, _scene: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        memory.thinks(
            "Everything is back in its place and the field book is complete: it is signed.",
        );
        memory.does(Action::Sign);
        PhaseProgress::Finished
    }
}
