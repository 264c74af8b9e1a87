//! The manometer, and the power.

use sim_core::field_book::Field;
use sim_core::rig::parts::{BlowerPlug, Leg, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight};

use super::Case;
use super::deeds::{does, line, looks, plug, timer, turns_knob};
use super::script::{Deed, Script, point};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "manometer-plumb",
        breaks: |script| swings(script, -1.3),
        keeps: |script| swings(script, 0.8),
        drags: &[],
    },
    Case {
        rule: "valves-open",
        breaks: |script| {
            let from = script.look_before(Field::Up(point(4)), Sight::LeftLeg);
            quarter_shut(script, from);
        },
        keeps: |script| {
            let from = script.written(Field::DeltaH(point(4)));
            quarter_shut(script, from);
        },
        drags: &[],
    },
    Case {
        rule: "manometer-zeroed",
        breaks: |script| slides(script, -0.18),
        keeps: |script| slides(script, -0.26),
        drags: &[],
    },
    Case {
        rule: "zero-seen",
        breaks: |script| {
            at_zero(script);
            let opened = script.first(opens_valve);
            for _ in 0..2 {
                let look = script.from(opened, looks(Sight::Manometer));
                script.drop_at(look);
            }
        },
        // Nothing is slid, and it was looked at.
        keeps: at_zero,
        drags: &[],
    },
    Case {
        rule: "blow-through",
        breaks: |script| script.without(does(Action::BlowThrough)),
        keeps: |script| {
            let tube = script.first(does(Action::ConnectTube));
            script.moves(script.first(does(Action::BlowThrough)), tube);
        },
        drags: &[],
    },
    Case {
        rule: "tube-clear",
        breaks: |script| {
            let up = script.text_of(Field::Up(point(4)));
            let from = script.look_before(Field::Down(point(4)), Sight::RightLeg);
            off_the_tap(script, from);
            // The other leg fell as far as this one rose, before it came back.
            script.says(Field::Down(point(4)), &up);
        },
        keeps: |script| {
            let from = script.written(Field::DeltaH(point(4)));
            off_the_tap(script, from);
        },
        drags: &[("values-as-seen", "without pressure the column shows nothing of the flow")],
    },
    Case {
        rule: "motor-on-line",
        breaks: |script| {
            let last_flow = script.back(script.written(Field::Chart(point(7))), turns_knob);
            onto_the_controller(script, last_flow);
        },
        keeps: |script| {
            let read = script.written(Field::DeltaH(point(7)));
            onto_the_controller(script, read);
        },
        drags: &[],
    },
    Case {
        rule: "pen-on-paper",
        breaks: |script| {
            let chart = script.written(Field::Chart(point(4)));
            script.insert(chart + 1, [Action::LowerPen]);
            script.insert(chart, [Action::LiftPen]);
        },
        keeps: |script| {
            let look = script.look_before(Field::Chart(point(4)), Sight::Pen);
            script.insert(look, [Action::LiftPen, Action::LowerPen]);
        },
        drags: &[],
    },
    Case {
        rule: "warm-up",
        breaks: |script| {
            let first = script.look_before(Field::Temperature, Sight::Thermometer);
            script.hurry(first, 100);
        },
        keeps: |script| {
            // A short stop after a full warm-up.
            let first = script.look_before(Field::Temperature, Sight::Thermometer);
            script.insert(first, [line(OnOff::Off), line(OnOff::On)]);
            script.wait(first + 2, 130);
        },
        drags: &[],
    },
    Case {
        rule: "leak-check",
        breaks: |script| {
            does_not_listen(script);
            let covered = script.first(does(Action::BlockOpenings));
            script.drop_at(script.from(covered, looks(Sight::Pen)));
        },
        // The pen was watched.
        keeps: does_not_listen,
        drags: &[],
    },
    Case {
        rule: "blocked-shortly",
        breaks: |script| script.wait(script.first(does(Action::FreeOpenings)), 20),
        keeps: |script| script.wait(script.first(does(Action::FreeOpenings)), 11),
        drags: &[],
    },
    Case {
        rule: "manometer-spared",
        // After the last point, where the water that goes over spoils nothing any more.
        breaks: |script| {
            let over = script.written(Field::DeltaH(point(7))) + 1;
            script.insert(over, [Action::BlockOpenings, Action::FreeOpenings]);
        },
        keeps: |script| {
            let over = script.written(Field::DeltaH(point(7))) + 1;
            let turn = |quarter_turns| Action::TurnValve { leg: Leg::Left, quarter_turns };
            script.insert(over, [turn(-4), Action::BlockOpenings, Action::FreeOpenings, turn(4)]);
        },
        drags: &[],
    },
    Case {
        rule: "manometer-liquid",
        breaks: |script| in_frost(script, "water"),
        keeps: |script| in_frost(script, "gauge_oil"),
        drags: &[],
    },
];

/// The air is three degrees below freezing, and the manometer holds this. In dense air the knob is closed
/// further for the same flows.
fn in_frost(script: &mut Script, fluid: &str) {
    for step in &mut script.steps {
        if let Deed::Does(Action::TurnKnob { opening }) = &mut step.deed {
            *opening *= 0.8;
        }
    }
    script.on("temperature_c: Fixed(19)", "temperature_c: Fixed(-3)");
    script.on("    instruments: (", &format!("    instruments: (manometer_fluid: {fluid}, "));
}

/// Swings the manometer before its legs are read at the last point.
fn swings(script: &mut Script, by_deg: f64) {
    let place = script.look_before(Field::Up(point(7)), Sight::LeftLeg);
    script.insert(place, [Action::SwingManometer { by_deg }]);
}

const fn opens_valve(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::TurnValve { quarter_turns: 1.., .. }))
}

const fn slides_scale(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::SlideScale { .. }))
}

/// The right valve is a quarter shut from a place to the next turn of the knob.
fn quarter_shut(script: &mut Script, from: usize) {
    let turn = |quarter_turns| Action::TurnValve { leg: Leg::Right, quarter_turns };
    script.insert(script.from(from, turns_knob), [turn(1)]);
    script.insert(from, [turn(-1)]);
}

/// Slides the scale, which came 0.3 in too low out of its case, by another length.
fn slides(script: &mut Script, by_in: f64) {
    let place = script.first(slides_scale);
    script.steps[place].deed = Deed::Does(Action::SlideScale { by_in });
}

/// The scale stands at zero from the start, and nobody slides it.
fn at_zero(script: &mut Script) {
    script.on("initial_scale_in: Fixed(3e-1)", "initial_scale_in: Fixed(0)");
    script.without(slides_scale);
}

/// The tube is off the tap from a place to the next turn of the knob.
fn off_the_tap(script: &mut Script, from: usize) {
    script.insert(script.from(from, turns_knob), [Action::ConnectTube]);
    script.insert(from, [Action::DisconnectTube]);
}

/// The blower runs on the flow controller from a place to the end.
fn onto_the_controller(script: &mut Script, from: usize) {
    let stop = script.from(from, does(line(OnOff::Off)));
    script.without(does(plug(BlowerPlug::Controller)));
    script.drop_at(stop);
    script.insert(stop, [timer(TimerSwitch::Off), Action::UnplugSampler]);
    let moves = [
        line(OnOff::Off),
        plug(BlowerPlug::Controller),
        Action::PlugSampler,
        timer(TimerSwitch::On),
    ];
    script.insert(from, moves);
}

fn does_not_listen(script: &mut Script) {
    let covered = script.first(does(Action::BlockOpenings));
    script.drop_at(script.from(covered, does(Action::Listen)));
}
