//! What you can do to the cords, plugs, switches, the controller and the blower.

use sim_core::rig::parts::{AirOpening, BlowerPlug, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::view::View;

use super::offer::Offers;
use super::spot::Spot;

pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    let seen = &view.power;
    match spot {
        Spot::Cord => {
            if seen.sampler_cord_in {
                list.act_as(1, "pull the plug out of the mains outlet", Action::UnplugSampler);
            } else {
                list.act_as(2, "put the plug into the mains outlet", Action::PlugSampler);
            }
            if seen.cord_damaged {
                list.act_as(3, "lay another cord from the van", Action::ChangeCord);
            }
        }
        Spot::BlowerPlug => {
            let places = [
                ("plug it into the switched mains outlet", BlowerPlug::LineOutlet),
                ("plug it into the flow controller", BlowerPlug::Controller),
                ("unplug it and leave it loose", BlowerPlug::Loose),
            ];
            for (number, (words, into)) in (1..).zip(places) {
                if seen.blower_plug != into {
                    list.act_as(number, words, Action::PlugBlower { into });
                }
            }
            if seen.blower_plug == BlowerPlug::Loose {
                list.act_as(4, "change the motor's brushes", Action::ChangeBrushes);
            }
        }
        Spot::LineOutlet => {
            match seen.line_switch {
                OnOff::On => {
                    let to = OnOff::Off;
                    list.act_as(2, "switch the mains outlet off", Action::SwitchLine { to });
                }
                OnOff::Off => {
                    let to = OnOff::On;
                    list.act_as(1, "switch the mains outlet on", Action::SwitchLine { to });
                }
            }
            if seen.outlet_tripped {
                list.act_as(3, "press the reset button", Action::ResetOutlet);
            }
        }
        Spot::Timer => {
            let switches = [
                ("switch the timer off", TimerSwitch::Off),
                ("switch the timer on", TimerSwitch::On),
                ("set the timer to auto", TimerSwitch::Auto),
            ];
            for (number, (words, to)) in (1..).zip(switches) {
                if seen.timer_switch != to {
                    list.act_as(number, words, Action::SwitchTimer { to });
                }
            }
        }
        Spot::Controller => {
            list.look("look at the flow controller", Sight::Controller);
            list.act(
                "turn the trim screw a quarter turn clockwise",
                Action::TurnTrim { turns: 0.25 },
            );
            list.act(
                "turn the trim screw a quarter turn counterclockwise",
                Action::TurnTrim { turns: -0.25 },
            );
            return;
        }
        _ => {
            list.act("listen", Action::Listen);
            list.look("look at the blower through the cut-away", Sight::Blower);
            if view.mounting.exhaust.is_some() {
                let opening = AirOpening::Exhaust;
                list.act("clear the exhaust", Action::ClearOpening { opening });
            }
            return;
        }
    }
    let sight = if spot == Spot::Timer { Sight::Timer } else { Sight::Plugs };
    list.look_as(if spot == Spot::BlowerPlug { 5 } else { 4 }, "look at it closely", sight);
}
