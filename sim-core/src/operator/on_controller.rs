//! The sampler started as it runs: on its controller, with the pen on the chart.

use super::Observation;
use super::memory::Memory;
use crate::rig::parts::{BlowerPlug, TimerSwitch};
use crate::session::action::Action;

/// Puts the pen on the chart and the blower on its controller, and starts it.
pub(super) fn power(observed: &Observation<'_>, memory: &mut Memory) {
    let (power, recorder) = (&observed.view.power, &observed.view.recorder);
    if !recorder.door_open {
        memory.does(Action::OpenDoor);
    }
    if recorder.capped {
        memory.does(Action::UncapPen);
    }
    if !recorder.on_paper {
        memory.does(Action::LowerPen);
    }
    if power.blower_plug != BlowerPlug::Controller {
        memory.does(Action::PlugBlower { into: BlowerPlug::Controller });
    }
    if !power.sampler_cord_in {
        memory.does(Action::PlugSampler);
    }
    memory.does(Action::SwitchTimer { to: TimerSwitch::On });
    memory.does(Action::Listen);
}
