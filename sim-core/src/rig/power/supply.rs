//! Cords, plugs and switches: from which supply the blower is fed.

use crate::digest::digest_fields;
use crate::rig::parts::BlowerPlug;
use crate::rig::parts::OnOff;

/// How the cords are connected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BlowerSupply {
    /// Whether the sampler's cord is in the mains outlet.
    pub sampler_cord_in: bool,
    /// Where the blower's plug is.
    pub blower_plug: BlowerPlug,
    /// The switch of the switched mains outlet.
    pub line_switch: OnOff,
}

digest_fields!(BlowerSupply { sampler_cord_in, blower_plug, line_switch });

/// From which supply the blower is fed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feed {
    /// Not at all.
    Dead,
    /// Straight from the mains.
    Line,
    /// Through the flow controller.
    Controlled,
}

impl Default for BlowerSupply {
    /// As found: the sampler plugged in, the blower on its controller, the switched outlet off.
    fn default() -> Self {
        Self { sampler_cord_in: true, blower_plug: BlowerPlug::Controller, line_switch: OnOff::Off }
    }
}

impl BlowerSupply {
    /// Whether the controller behind the timer has power.
    pub fn controller_live(&self, timer_on: OnOff) -> bool {
        self.sampler_cord_in && timer_on == OnOff::On
    }

    /// From which supply the blower is fed, with the timer's output on or off.
    pub fn feed(&self, timer_on: OnOff) -> Feed {
        match self.blower_plug {
            BlowerPlug::LineOutlet if self.line_switch == OnOff::On => Feed::Line,
            BlowerPlug::Controller if self.controller_live(timer_on) => Feed::Controlled,
            BlowerPlug::LineOutlet | BlowerPlug::Controller | BlowerPlug::Loose => Feed::Dead,
        }
    }
}
