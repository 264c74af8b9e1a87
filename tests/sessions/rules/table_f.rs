//! Restoring.

use sim_core::rig::parts::{BlowerPlug, Leg, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::Action;

use super::Case;
use super::deeds::{does, plug, takes, timer, turns_nut};
use super::script::{Deed, Script};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "blower-off",
        breaks: |script| {
            let place = script.last(does(timer(TimerSwitch::Auto)));
            script.steps[place].deed = Deed::Does(timer(TimerSwitch::On));
        },
        keeps: |script| {
            let place = script.last(does(timer(TimerSwitch::Auto)));
            script.steps[place].deed = Deed::Does(timer(TimerSwitch::Off));
        },
        drags: &[],
    },
    Case {
        rule: "plug-on-controller",
        breaks: |script| script.without(does(plug(BlowerPlug::Controller))),
        keeps: |script| to_the_end(script, plug(BlowerPlug::Controller)),
        drags: &[],
    },
    Case {
        rule: "pen-capped",
        breaks: |script| {
            script.drop_at(script.last(does(Action::CapPen)));
        },
        keeps: |script| {
            let door = script.last(does(Action::CloseDoor));
            script.moves(script.last(does(Action::CapPen)), door);
        },
        drags: &[],
    },
    Case {
        rule: "tube-off",
        breaks: |script| script.without(does(Action::DisconnectTube)),
        keeps: |script| {
            // Just in time.
            let lifted = script.last(takes(RigPart::Manometer));
            script.moves(script.last(does(Action::DisconnectTube)), lifted);
        },
        drags: &[],
    },
    Case {
        rule: "valves-shut",
        breaks: |script| {
            script.drop_at(shut(script));
        },
        keeps: |script| {
            // In two goes.
            let place = shut(script);
            script.steps[place].deed = Deed::Does(turns_right(-3));
            script.insert(place + 1, [turns_right(-1)]);
        },
        drags: &[],
    },
    Case {
        rule: "calibrator-off",
        breaks: |script| {
            let adapter = script.last(takes(RigPart::Adapter));
            script.drop_at(adapter);
            script.drop_at(adapter);
            without_nuts_from(script, adapter - 4);
            leaves_filter_in_case(script);
            frame_to_case(script);
        },
        keeps: |script| to_the_end(script, Action::CloseLid),
        drags: &[
            ("filter-back", "the filter does not go under the plate"),
            ("holder-closed", "the frame does not go on over the plate"),
        ],
    },
    Case {
        rule: "filter-back",
        breaks: leaves_filter_in_case,
        keeps: |script| to_the_end(script, Action::CloseLid),
        drags: &[],
    },
    Case {
        rule: "holder-closed",
        breaks: |script| {
            let frame = script.last(takes(RigPart::Frame));
            without_nuts_from(script, frame);
            frame_to_case(script);
        },
        keeps: |script| {
            // Hand-tight, and no more.
            let nut = script.last(|deed| matches!(deed, Deed::Does(Action::TurnNut { .. })));
            if let Deed::Does(Action::TurnNut { quarter_turns, .. }) = &mut script.steps[nut].deed {
                *quarter_turns = 2;
            }
        },
        drags: &[],
    },
    Case {
        rule: "lid-closed",
        breaks: |script| script.without(does(Action::CloseLid)),
        keeps: |script| to_the_end(script, Action::CloseLid),
        drags: &[],
    },
    Case {
        rule: "nothing-left",
        breaks: |script| {
            let filter = script.last(takes(RigPart::Filter));
            script.steps[filter + 1].deed = Deed::Does(Action::Put { place: PartPlace::Ground });
        },
        keeps: |script| to_the_end(script, Action::CloseLid),
        drags: &[("filter-back", "the filter lies on the roof and not under the frame")],
    },
];

/// Does something last of all.
fn to_the_end(script: &mut Script, action: Action) {
    let sign = script.last(does(Action::Sign));
    script.moves(script.last(does(action)), sign);
}

const fn turns_right(quarter_turns: i8) -> Action {
    Action::TurnValve { leg: Leg::Right, quarter_turns }
}

/// Place at which the right valve is shut.
fn shut(script: &Script) -> usize {
    script.last(does(turns_right(-4)))
}

/// Turns no nut from a place on.
fn without_nuts_from(script: &mut Script, from: usize) {
    while script.steps.iter().skip(from).any(|step| turns_nut(&step.deed)) {
        let place = script.from(from, turns_nut);
        script.drop_at(place);
    }
}

fn leaves_filter_in_case(script: &mut Script) {
    let filter = script.last(takes(RigPart::Filter));
    script.drop_at(filter);
    script.drop_at(filter);
}

fn frame_to_case(script: &mut Script) {
    let frame = script.last(takes(RigPart::Frame));
    script.steps[frame + 1].deed = Deed::Does(Action::Put { place: PartPlace::Case });
}
