//! Repairs of the roof: openings of the shelter, the recorder's tubing, outlet and cord.

use super::super::action::Action;
use super::super::state::SessionState;
use super::refusal::{Refusal, refuse};
use crate::rig::Rig;
use crate::rig::parts::{AirOpening, BlowerPlug, LineCare, OnOff};

/// Speed above which the caps over the brushes cannot be unscrewed, rad/s (CHOSEN).
const TURNS_RAD_S: f64 = 5.0;

/// Applies one of the repairs.
pub(super) fn apply(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    let rig = &mut state.rig;
    match *action {
        Action::ClearOpening { opening } => clear(rig, opening),
        Action::TendRecorderLine { how } => tend(rig, how),
        Action::ResetOutlet => reset(rig),
        Action::ChangeCord => change_cord(rig),
        Action::ChangeBrushes => change_brushes(rig),
        _ => refuse("this cannot be done here"),
    }
}

fn clear(rig: &mut Rig, opening: AirOpening) -> Result<(), Refusal> {
    if rig.shelter.stopper(opening).is_none() {
        return refuse(match opening {
            AirOpening::Inlet => "nothing lies in the gap under the lid",
            AirOpening::Exhaust => "nothing lies in the exhaust",
        });
    }
    rig.clear_opening(opening);
    Ok(())
}

fn tend(rig: &mut Rig, how: LineCare) -> Result<(), Refusal> {
    let line = &rig.recorder.line;
    match how {
        LineCare::PushOn if line.is_on() => {
            refuse("the recorder's tubing is already on its fitting")
        }
        LineCare::Straighten if !line.is_kinked() => {
            refuse("there is no kink in the recorder's tubing")
        }
        LineCare::Drain if !line.is_wet() => refuse("there is no water in the recorder's tubing"),
        LineCare::Renew => {
            rig.recorder.line.tend(how);
            rig.recorder.parameters.line_leak_ratio = 0.0;
            Ok(())
        }
        _ => {
            rig.recorder.line.tend(how);
            Ok(())
        }
    }
}

fn reset(rig: &mut Rig) -> Result<(), Refusal> {
    if !rig.ground_fault.is_tripped() {
        return refuse("the outlet's protection has not tripped: its button is in");
    }
    rig.ground_fault.reset();
    rig.flow_was_changed();
    Ok(())
}

fn change_cord(rig: &mut Rig) -> Result<(), Refusal> {
    if rig.power.sampler_cord_in || rig.power.line_switch == OnOff::On {
        return refuse(
            "the cord still feeds the sampler: unplug the sampler and switch the mains outlet off \
             first",
        );
    }
    rig.ground_fault.change_cord();
    Ok(())
}

fn change_brushes(rig: &mut Rig) -> Result<(), Refusal> {
    if rig.power.blower_plug != BlowerPlug::Loose {
        return refuse("the motor is plugged in: unplug the blower first");
    }
    if rig.blower.speed_rad_s > TURNS_RAD_S {
        return refuse("the rotor still turns: wait until it stands");
    }
    rig.parameters.blower.motor.renew_brushes();
    rig.flow_was_changed();
    Ok(())
}
