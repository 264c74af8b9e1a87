//! Cords, plugs, switches, and the controller's trim.

use sim_core::rig::parts::BlowerPlug;
use sim_core::session::action::{Action, OnOff};

use super::form::{Built, Form, Known, form, one};
use super::trouble::but;
use crate::moves::switch_blower;

pub(super) const FORMS: &[Form] = &[
    form(
        &[
            "plug in? sampler|cord in?",
            "plug|put sampler cord? in|into mains|outlet?",
            "plug in sampler cord",
            "connect sampler cord? to? mains?",
        ],
        &["plug in sampler"],
        "into the mains outlet",
        |_, _| one(Action::PlugSampler),
    ),
    form(
        &[
            "plug|put|connect|run|plugin blower|motor plug? back|directly|straight? \
             in|into|to|on|onto|off|from|at <plug>",
            "plug blower|motor plug? back|directly|straight? <plug>",
            "plug blower|motor back|directly|straight? into flow? <plug>",
            "move|change|switch blower|motor plug? back|over? to <plug>",
        ],
        &["plug blower into mains outlet", "plug blower into controller"],
        "into one of its two outlets",
        |caught, _| one(Action::PlugBlower { into: caught.plug()? }),
    ),
    form(
        &[
            "start blower|motor|sampler up?",
            "start up blower|motor|sampler",
            "switch|turn|put blower|motor|sampler|power on",
            "switch|turn|put on blower|motor|sampler|power",
        ],
        &["start blower"],
        "at the outlet's switch or at the timer",
        |_, known| blower(known, OnOff::On),
    ),
    form(
        &[
            "stop blower|motor|sampler",
            "switch|turn|shut blower|motor|sampler|power off|down",
            "switch|turn|shut off|down blower|motor|sampler|power",
            "kill|cut blower|motor|power",
        ],
        &["stop blower"],
        "at the outlet's switch or at the timer",
        |_, known| blower(known, OnOff::Off),
    ),
    form(
        &[
            "unplug|disconnect sampler cord?",
            "pull sampler cord|plug? out?",
            "pull out? sampler cord|plug",
            "pull out? mains? cord|plug out?",
            "pull|take sampler cord|plug? out? mains|outlet|wall",
            "unplug sampler cord? from mains|outlet|wall",
        ],
        &["unplug sampler"],
        "from the mains outlet",
        |_, _| one(Action::UnplugSampler),
    ),
    form(
        &[
            "unplug|disconnect blower|motor",
            "unplug|disconnect|take blower|motor plug? out? from flow? controller|outlet|mains|wall|socket",
            "pull out? blower|motor plug out?",
        ],
        &["unplug blower"],
        "and leave its plug loose",
        |_, _| one(Action::PlugBlower { into: BlowerPlug::Loose }),
    ),
    form(
        &[
            "switch|turn|set switched? line|mains outlet? <on-off>",
            "switch|turn <on-off> switched? line|mains outlet?",
            "switch|turn switched? outlet <on-off>",
            "switch|turn mains <on-off>",
        ],
        &["switch mains outlet on", "switch mains outlet off"],
        "the switched outlet for the blower",
        |caught, _| one(Action::SwitchLine { to: caught.on_off()? }),
    ),
    form(
        &["set|switch|turn|put timer switch? to|on? <timer>", "switch|turn <timer> timer"],
        &["set timer to on", "set timer to off", "set timer to auto"],
        "the timer's switch",
        |caught, _| one(Action::SwitchTimer { to: caught.timer()? }),
    ),
    form(
        &[
            "turn trim screw? <clockwise> by? <turns>",
            "turn trim screw? by? <turns> <clockwise>",
            "trim controller|flow|screw? <clockwise> by? <turns>",
            "turn|trim controller trim? screw? <clockwise> by? <turns>",
        ],
        &["turn trim clockwise half a turn", "turn trim back 0.25 turns"],
        "clockwise raises the flow",
        |caught, _| one(Action::TurnTrim { turns: caught.sense()? * caught.number()? }),
    ),
    form(&["back trim screw? off by? <turns>"], &[], "", |caught, _| {
        one(Action::TurnTrim { turns: -caught.number()? })
    }),
    form(&["bypass flow? controller"], &[], "", |_, _| {
        one(Action::PlugBlower { into: BlowerPlug::LineOutlet })
    }),
    form(
        &[
            "press|push|hit outlet? reset button?",
            "press|push in? outlet? button in?",
            "reset outlet|protection|breaker|gfci|gfi|rcd",
            "reset ground-fault protection|breaker|outlet?",
        ],
        &["press reset button"],
        "of the outlet's ground-fault protection",
        |_, _| one(Action::ResetOutlet),
    ),
    form(
        &[
            "change|replace|exchange|swap extension|damaged? cord|cable|lead",
            "lay|fetch|use|get new|another|other|sound|spare extension? cord|cable|lead",
        ],
        &["change cord"],
        "the extension cord, for one from the van",
        |_, _| one(Action::ChangeCord),
    ),
    form(
        &[
            "change|replace|exchange|renew|swap motor? brushes",
            "fit|put new motor? brushes in|into? motor?",
        ],
        &["change brushes"],
        "of the motor, while it is unplugged",
        |_, _| one(Action::ChangeBrushes),
    ),
];

/// The switch that the blower hangs on.
fn blower(known: &Known, to: OnOff) -> Built {
    match switch_blower(known.view, to) {
        Some(action) => one(action),
        None => but("the blower is not plugged in: say `plug blower into mains outlet` first"),
    }
}
