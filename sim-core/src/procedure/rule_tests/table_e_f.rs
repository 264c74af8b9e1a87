//! Cases for the points and for restoring.

use super::Case;
use crate::field_book::Field;
use crate::procedure::evidence::Ending;
use crate::procedure::test_bench::{TestSession, chart_of, is_reading, point, writes};
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::session::action::{Action, Sight};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "points-enough",
        breaks: |session| keep_points(session, &[1, 3, 5, 7]),
        keeps: |session| {
            session.setup.work_order.points = 5;
            keep_points(session, &[1, 3, 4, 5, 7]);
        },
        also: &[],
    },
    Case {
        rule: "points-as-ordered",
        breaks: |session| keep_points(session, &[1, 2, 4, 5, 6, 7]),
        keeps: |session| session.setup.work_order.points = 0,
        also: &[],
    },
    Case {
        rule: "points-spread",
        breaks: |session| {
            session.setup.work_order.points = 5;
            session.setup.work_order.target_flow_std_m3_min = 1.40;
            session.always(|facts| {
                let flow = &mut facts.calibrator_flow_std_m3_min;
                *flow = flow.max(1.42);
            });
            session.redo_sums();
        },
        keeps: |session| {
            session.setup.work_order.points = 5;
            keep_points(session, &[1, 2, 3, 6, 7]);
        },
        also: &[],
    },
    Case {
        rule: "two-minutes",
        breaks: |session| session.at_readings(|facts| facts.steady_s -= 30.0),
        keeps: |session| session.at_readings(|facts| facts.steady_s = facts.steady_s.max(120.0)),
        also: &["chart-marked", "looked-before-writing"],
    },
    Case {
        rule: "chart-marked",
        breaks: |session| {
            session.without(|action| matches!(action, Action::MarkChart { label } if label == "3"));
        },
        keeps: |session| {
            // The mark may come before the reading.
            let third =
                |action: &Action| matches!(action, Action::MarkChart { label } if label == "3");
            let index = session.events.iter().position(|m| third(&m.action)).unwrap();
            let mark = session.events.remove(index).action;
            let before = session
                .events
                .iter()
                .position(|moment| writes(&moment.action, Field::Up(point(3))))
                .unwrap();
            let mut moment = session.events[before - 1].clone();
            moment.action = mark;
            session.events.insert(before, moment);
        },
        also: &[],
    },
    Case {
        rule: "pen-tapped",
        breaks: |session| session.always(|facts| facts.taps = 0),
        keeps: |session| session.at_readings(|facts| facts.taps = 1),
        also: &[],
    },
    Case {
        rule: "pen-at-rest",
        breaks: |session| session.at_readings(|facts| facts.pen_at_rest = facts.pen - 0.7),
        keeps: |session| session.at_readings(|facts| facts.pen_at_rest = facts.pen - 0.5),
        also: &[],
    },
    Case {
        rule: "both-legs",
        breaks: |session| session.without(|action| writes(action, Field::Down(point(2)))),
        keeps: |session| {
            // A leg read below zero may be written with its sign.
            let text = session.text_of(Field::Down(point(2)));
            session.rewrite(Field::Down(point(2)), &format!("-{text}"));
        },
        also: &[],
    },
    Case {
        rule: "legs-added",
        breaks: |session| {
            let one = session.text_of(Field::Up(point(4)));
            session.rewrite(Field::DeltaH(point(4)), &one);
        },
        keeps: |session| {
            let sum: f64 = session.text_of(Field::DeltaH(point(4))).parse().unwrap();
            session.rewrite(Field::DeltaH(point(4)), &format!("{:.2}", sum + 0.05));
        },
        also: &[],
    },
    Case {
        rule: "eye-level",
        breaks: |session| {
            session.at(|action| looks(action, Sight::LeftLeg), |facts| facts.eye_mm = 16.0);
        },
        keeps: |session| {
            session.at(|action| looks(action, Sight::LeftLeg), |facts| facts.eye_mm = -15.0);
        },
        also: &[],
    },
    Case {
        rule: "looked-before-writing",
        breaks: |session| {
            let index = session
                .events
                .iter()
                .position(|moment| writes(&moment.action, Field::Up(point(5))))
                .unwrap();
            let look = session.events[..index]
                .iter()
                .rposition(|moment| looks(&moment.action, Sight::RightLeg))
                .unwrap();
            session.events.remove(look);
        },
        keeps: |session| {
            // A look at the whole manometer shows both legs.
            for moment in &mut session.events {
                if looks(&moment.action, Sight::RightLeg) {
                    moment.action = Action::Look { at: Sight::Manometer, eye_mm: 0.0 };
                }
            }
        },
        also: &[],
    },
    Case {
        rule: "values-as-seen",
        breaks: |session| {
            let chart = chart_of(1.5) + 2.5;
            session.rewrite(Field::Chart(point(3)), &format!("{chart:.1}"));
            session.redo_sums();
        },
        keeps: |session| {
            let chart = chart_of(1.5) + 0.4;
            session.rewrite(Field::Chart(point(3)), &format!("{chart:.1}"));
            session.redo_sums();
        },
        // A reading this wrong is also off the line.
        also: &["residuals"],
    },
    Case {
        rule: "to-the-division",
        breaks: |session| {
            let text = session.text_of(Field::Up(point(6)));
            session.rewrite(Field::Up(point(6)), &format!("{text}1"));
        },
        keeps: |session| {
            let chart = (chart_of(1.3) - 0.5).round();
            session.rewrite(Field::Chart(point(5)), &format!("{chart:.0} 1/2"));
            session.redo_sums();
        },
        also: &[],
    },
    Case {
        rule: "blower-off",
        breaks: |session| session.end.powered = true,
        keeps: |session| session.end.line_on = true,
        also: &[],
    },
    Case {
        rule: "plug-on-controller",
        breaks: |session| session.end.sampler_cord_in = false,
        keeps: |session| {
            // Nobody restores a sampler in a thunderstorm.
            session.end.blower_plug = BlowerPlug::LineOutlet;
            session.end.thunder_since_s = Some(100.0);
            session.ended = Ending::LeftRoof;
        },
        also: &[],
    },
    Case {
        rule: "pen-capped",
        breaks: |session| session.end.capped = false,
        keeps: |session| session.end.on_paper = true,
        also: &[],
    },
    Case {
        rule: "tube-off",
        breaks: |session| {
            let lifts =
                |action: &Action| matches!(action, Action::Take { part: RigPart::Calibrator });
            session.at(lifts, |facts| facts.tube_on_tap = true);
        },
        keeps: |session| {
            let lifts = |action: &Action| matches!(action, Action::Take { part: RigPart::Frame });
            session.at(lifts, |facts| facts.tube_on_tap = true);
        },
        also: &[],
    },
    Case {
        rule: "valves-shut",
        breaks: |session| {
            let lifts =
                |action: &Action| matches!(action, Action::Take { part: RigPart::Manometer });
            session.at(lifts, |facts| {
                facts.places[RigPart::Manometer as usize] = PartPlace::Hook;
                facts.valve_quarters = [0, 1];
            });
        },
        keeps: |session| session.end.valve_quarters = [4, 4],
        also: &[],
    },
    Case {
        rule: "calibrator-off",
        breaks: |session| session.end.places[RigPart::Adapter as usize] = PartPlace::Holder,
        keeps: |session| session.end.places[RigPart::Filter as usize] = PartPlace::Holder,
        also: &[],
    },
    Case {
        rule: "holder-closed",
        breaks: |session| session.end.places[RigPart::Frame as usize] = PartPlace::Case,
        keeps: |session| session.end.nut_turns = [7, 8, 6, 8],
        also: &[],
    },
    Case {
        rule: "filter-back",
        breaks: |session| session.end.places[RigPart::Filter as usize] = PartPlace::Case,
        keeps: |session| {
            // Nobody restores a sampler in a thunderstorm.
            session.end.places[RigPart::Filter as usize] = PartPlace::Case;
            session.end.thunder_since_s = Some(100.0);
            session.ended = Ending::LeftRoof;
        },
        also: &[],
    },
    Case {
        rule: "lid-closed",
        breaks: |session| session.end.lid_open = true,
        keeps: |session| {
            session.without(|action| matches!(action, Action::CloseLid));
        },
        also: &[],
    },
    Case {
        rule: "nothing-left",
        breaks: |session| session.end.places[RigPart::Manometer as usize] = PartPlace::Hook,
        keeps: |session| session.end.places[RigPart::Manometer as usize] = PartPlace::Case,
        also: &[],
    },
];

/// Whether an action looks at something.
fn looks(action: &Action, wanted: Sight) -> bool {
    matches!(action, Action::Look { at, .. } if *at == wanted)
}

/// Leaves out all other points and repeats the calculations.
pub fn keep_points(session: &mut TestSession, kept: &[u8]) {
    session.without(|action| match action {
        Action::Write { field: Field::DeltaH(number), .. } => !kept.contains(&number.number()),
        Action::Write {
            field: Field::Up(number) | Field::Down(number) | Field::Chart(number),
            ..
        } => is_reading(action) && !kept.contains(&number.number()),
        _ => false,
    });
    session.redo_sums();
}
