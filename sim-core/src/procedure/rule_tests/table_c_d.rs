//! Cases for the manometer and the power.

use super::Case;
use crate::fault::Fault;
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, Leg, TimerSwitch};
use crate::session::action::{Action, FaultPlace, OnOff, Response, Sight};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "manometer-plumb",
        breaks: |session| session.at_readings(|facts| facts.tilt_deg = -1.1),
        keeps: |session| session.at_readings(|facts| facts.tilt_deg = 1.0),
        also: &[],
    },
    Case {
        rule: "valves-open",
        breaks: |session| session.at_readings(|facts| facts.valve_quarters = [4, 3]),
        keeps: |session| {
            let chart = |action: &Action| {
                matches!(action, Action::Write { field: Field::Chart(_) | Field::DeltaH(_), .. })
            };
            session.at(chart, |facts| facts.valve_quarters = [4, 3]);
        },
        also: &[],
    },
    Case {
        rule: "manometer-zeroed",
        breaks: |session| session.at_readings(|facts| facts.zero_in = [0.06, 0.06]),
        keeps: |session| {
            // A bubble makes the legs differ: moving the scale does not help, but a report does.
            session.always(|facts| {
                facts.zero_in = [0.08, -0.08];
                facts.faults = vec![Fault::ManometerBubble { length_mm: 4.0 }];
            });
            session.report(FaultPlace::Manometer, Response::Corrected);
        },
        also: &[],
    },
    Case {
        rule: "zero-seen",
        breaks: |session| {
            session.at(
                |action| {
                    matches!(
                        action,
                        Action::SlideScale { .. }
                            | Action::Look { at: Sight::LeftLeg | Sight::RightLeg, .. }
                    )
                },
                |facts| facts.powered = true,
            );
        },
        keeps: |session| {
            session.without(|action| matches!(action, Action::SlideScale { .. }));
        },
        also: &[],
    },
    Case {
        rule: "blow-through",
        breaks: |session| session.always(|facts| facts.blown_through = false),
        keeps: |session| {
            session.apart_from_readings(|facts| facts.blown_through = false);
        },
        also: &[],
    },
    Case {
        rule: "tube-clear",
        breaks: |session| session.always(|facts| facts.faults = vec![Fault::TubeKinked]),
        keeps: |session| {
            session.always(|facts| facts.faults = vec![Fault::TubeKinked]);
            session.insert_after(
                |action| matches!(action, Action::TurnValve { leg: Leg::Right, .. }),
                Action::StraightenTube,
            );
        },
        also: &[],
    },
    Case {
        rule: "motor-on-line",
        breaks: |session| {
            session.at_readings(|facts| facts.blower_plug = BlowerPlug::Controller);
        },
        keeps: |session| {
            session.insert_after(
                |action| matches!(action, Action::SwitchLine { to: OnOff::On }),
                Action::SwitchTimer { to: TimerSwitch::Off },
            );
        },
        also: &[],
    },
    Case {
        rule: "pen-on-paper",
        breaks: |session| session.at_readings(|facts| facts.on_paper = false),
        keeps: |session| session.apart_from_readings(|facts| facts.on_paper = false),
        also: &[],
    },
    Case {
        rule: "warm-up",
        breaks: |session| session.always(|facts| facts.running_s = facts.running_s.min(299.0)),
        keeps: |session| {
            // A short stop after a full warm-up.
            session.at_readings(|facts| facts.running_s = 150.0);
        },
        also: &[],
    },
    Case {
        rule: "leak-check",
        breaks: |session| session.without(|action| matches!(action, Action::Listen)),
        keeps: |session| {
            let blocked = |action: &Action| matches!(action, Action::BlockOpenings);
            session.insert_after(blocked, Action::Look { at: Sight::Pen, eye_mm: 0.0 });
            session.without(|action| matches!(action, Action::Listen));
        },
        also: &[],
    },
    Case {
        rule: "blocked-shortly",
        breaks: |session| session.always(|facts| facts.longest_blocked_s = 31.0),
        keeps: |session| session.always(|facts| facts.longest_blocked_s = 30.0),
        also: &[],
    },
    Case {
        rule: "manometer-spared",
        breaks: |session| {
            session.at(
                |action| matches!(action, Action::Listen),
                |facts| facts.valve_quarters = [1, 4],
            );
        },
        keeps: |session| {
            session.at(
                |action| matches!(action, Action::Listen),
                |facts| facts.valve_quarters = [0, 4],
            );
        },
        also: &[],
    },
    Case {
        rule: "manometer-liquid",
        breaks: |session| session.at_readings(|facts| facts.ice = 0.95),
        keeps: |session| session.apart_from_readings(|facts| facts.ice = 0.95),
        also: &[],
    },
];
