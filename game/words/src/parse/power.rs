//! Cords, plugs, switches, and the controller's trim.

use sim_core::rig::parts::{BlowerPlug, TimerSwitch};
use sim_core::session::action::{Action, OnOff};

use super::form::{Form, Known, but, form, one};

pub(super) const FORMS: &[Form] = &[
    form(
        &[
            "plug in? sampler|cord in?",
            "plug|put sampler cord? in|into mains|outlet?",
            "plug in sampler cord",
            "connect sampler cord? to? mains?",
        ],
        &["plug in sampler"],
        "its cord into the mains outlet",
        |_, _| one(Action::PlugSampler),
    ),
    form(
        &[
            "plug|put|connect blower|motor plug? back? in|into|to|on <plug>",
            "plug blower|motor plug? back? <plug>",
        ],
        &["plug blower into line outlet", "plug blower into controller"],
        "where its plug goes",
        |caught, _| one(Action::PlugBlower { into: caught.plug()? }),
    ),
    form(
        &["start blower|motor", "switch|turn blower|motor on", "switch|turn on blower|motor"],
        &["start blower"],
        "with the switch its plug hangs on",
        |_, known| blower(known, OnOff::On),
    ),
    form(
        &["stop blower|motor", "switch|turn blower|motor off", "switch|turn off blower|motor"],
        &["stop blower"],
        "with the switch its plug hangs on",
        |_, known| blower(known, OnOff::Off),
    ),
    form(
        &[
            "unplug|disconnect sampler cord?",
            "pull sampler cord|plug? out?",
            "pull out? sampler cord|plug",
        ],
        &["unplug sampler"],
        "pull its cord out of the mains",
        |_, _| one(Action::UnplugSampler),
    ),
    form(
        &["unplug|disconnect blower|motor", "pull blower|motor plug out?"],
        &["unplug blower"],
        "leave its plug loose",
        |_, _| one(Action::PlugBlower { into: BlowerPlug::Loose }),
    ),
    form(
        &[
            "switch|turn|set line outlet? <on-off>",
            "switch|turn <on-off> line outlet?",
            "switch|turn outlet <on-off>",
        ],
        &["switch line on", "switch line off"],
        "the line outlet's switch",
        |caught, _| one(Action::SwitchLine { to: caught.on_off()? }),
    ),
    form(
        &["set|switch|turn timer to? <timer>", "switch|turn <timer> timer"],
        &["set timer to on", "set timer to off", "set timer to auto"],
        "the timer's switch",
        |caught, _| one(Action::SwitchTimer { to: caught.timer()? }),
    ),
    form(
        &["turn trim screw? <clockwise> by? <turns>", "turn trim screw? by? <turns> <clockwise>"],
        &["turn trim clockwise half a turn", "turn trim back 0.25 turns"],
        "clockwise raises the flow",
        |caught, _| one(Action::TurnTrim { turns: caught.sense()? * caught.number()? }),
    ),
];

/// The switch that the blower hangs on: the line outlet's, or the timer's through the controller.
fn blower(known: &Known, to: OnOff) -> super::form::Built {
    match (known.view.power.blower_plug, to) {
        (BlowerPlug::LineOutlet, to) => one(Action::SwitchLine { to }),
        (BlowerPlug::Controller, OnOff::On) => one(Action::SwitchTimer { to: TimerSwitch::On }),
        (BlowerPlug::Controller, OnOff::Off) => one(Action::SwitchTimer { to: TimerSwitch::Off }),
        (BlowerPlug::Loose, _) => {
            but("the blower's plug is in nothing: say `plug blower into line outlet` first")
        }
    }
}
