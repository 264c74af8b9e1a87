//! Whether the blower has power, and whether its rotor still turns.

use super::Observation;
use crate::rig::parts::{BlowerPlug, TimerSwitch};
use crate::session::action::OnOff;

/// Loudness below which a rotor counts as stopped: three hundredths of its speed (CHOSEN).
const STANDING_LOUDNESS: f64 = 0.03;

/// Whether the blower has power, by its plug and switches.
pub(super) fn has_power(observed: &Observation<'_>) -> bool {
    let power = &observed.view.power;
    match power.blower_plug {
        BlowerPlug::LineOutlet => power.line_switch == OnOff::On,
        BlowerPlug::Controller => power.sampler_cord_in && power.timer_switch == TimerSwitch::On,
        BlowerPlug::Loose => false,
    }
}

/// Whether the rotor has stopped, judged by its sound.
pub(super) fn stands_still(observed: &Observation<'_>) -> bool {
    observed.view.blower.loudness < STANDING_LOUDNESS
}
