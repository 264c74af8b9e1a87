//! The points and their readings.

use sim_core::field_book::Field;
use sim_core::session::action::{Action, Sight};

use super::Case;
use super::deeds::look;
use super::script::{Deed, Script, point};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "points-enough",
        breaks: |script| script.without_points(&[2, 4, 6]),
        keeps: |script| {
            script.on("points: 7", "points: 5");
            script.without_points(&[2, 6]);
        },
        drags: &[],
    },
    Case {
        rule: "points-as-ordered",
        breaks: |script| script.without_points(&[4]),
        keeps: |script| {
            script.on("points: 7", "points: 6");
            script.without_points(&[4]);
        },
        drags: &[],
    },
    Case {
        rule: "points-spread",
        breaks: |script| {
            script.on("target_flow_std_m3_min: 1.2", "target_flow_std_m3_min: 1.5");
            script.opens(&[0.9, 0.8, 0.7, 0.6, 0.53, 0.46]);
        },
        keeps: |script| {
            script.crowds();
        },
        drags: &[],
    },
    Case {
        rule: "two-minutes",
        // Read 134 s after the knob was turned.
        breaks: |script| script.hurry(settled(script), 60),
        keeps: |script| script.hurry(settled(script), 14),
        drags: &[],
    },
    Case {
        rule: "chart-marked",
        breaks: |script| {
            let mark = script.written(Field::Chart(point(4))) + 1;
            script.drop_at(mark);
        },
        keeps: |script| {
            // The mark may come before the reading.
            let reading = script.written(Field::Chart(point(4)));
            let mark = script.drop_at(reading + 1);
            assert!(matches!(mark, Deed::Does(Action::MarkChart { .. })), "{mark:?}");
            if let Deed::Does(mark) = mark {
                script.insert(reading, [mark]);
            }
        },
        drags: &[],
    },
    Case {
        rule: "pen-tapped",
        breaks: |script| script.taps_less(4, 3),
        // One tap brings a clean pen to its rest.
        keeps: |script| script.taps_less(4, 2),
        drags: &[],
    },
    Case {
        rule: "pen-at-rest",
        breaks: |script| {
            script.with_fault("PenSticks(play_inh2o: 0.6)");
            script.taps_less(4, 2);
        },
        keeps: |script| script.with_fault("PenSticks(play_inh2o: 0.6)"),
        drags: &[],
    },
    Case {
        rule: "both-legs",
        breaks: |script| {
            let one: f64 = script.number_of(Field::Up(point(4)));
            script.without(|deed| deed.field() == Some(Field::Down(point(4))));
            script.says(Field::DeltaH(point(4)), &format!("{:.2}", 2.0 * one));
        },
        keeps: |script| {
            // A leg below zero may have its sign.
            let leg = script.text_of(Field::Down(point(4)));
            script.says(Field::Down(point(4)), &format!("-{leg}"));
        },
        drags: &[],
    },
    Case {
        rule: "legs-added",
        breaks: |script| {
            let one = script.text_of(Field::Up(point(4)));
            script.says(Field::DeltaH(point(4)), &one);
        },
        keeps: |script| {
            let sum = script.number_of(Field::DeltaH(point(4)));
            script.says(Field::DeltaH(point(4)), &format!("{:.2}", sum + 0.05));
        },
        drags: &[],
    },
    Case {
        rule: "eye-level",
        breaks: |script| looks_at_left(script, 16.0),
        keeps: |script| looks_at_left(script, -15.0),
        drags: &[],
    },
    Case {
        rule: "looked-before-writing",
        breaks: |script| {
            let look = script.look_before(Field::Up(point(4)), Sight::LeftLeg);
            script.drop_at(look);
        },
        keeps: |script| {
            // A look at the whole manometer shows both legs.
            let left = script.look_before(Field::Up(point(4)), Sight::LeftLeg);
            script.steps[left].deed = Deed::Does(look(Sight::Manometer));
        },
        drags: &[],
    },
    Case {
        rule: "values-as-seen",
        breaks: |script| script.misreads(Field::Up(point(1)), 0.25),
        keeps: |script| script.misreads(Field::Up(point(1)), 0.15),
        drags: &[],
    },
    Case {
        rule: "to-the-division",
        breaks: |script| {
            let leg = script.text_of(Field::Up(point(4)));
            script.says(Field::Up(point(4)), &format!("{leg}1"));
        },
        keeps: |script| {
            let chart = script.number_of(Field::Chart(point(4)));
            script.says(Field::Chart(point(4)), &format!("{:.0} 1/2", (chart - 0.5).floor()));
        },
        drags: &[],
    },
];

/// Place at which the flow of point 4 has settled.
fn settled(script: &Script) -> usize {
    script.look_before(Field::Chart(point(4)), Sight::Tube)
}

/// Reads the left leg of point 4 with the eye at another height.
fn looks_at_left(script: &mut Script, eye_mm: f64) {
    let place = script.look_before(Field::Up(point(4)), Sight::LeftLeg);
    script.steps[place].deed = Deed::Does(Action::Look { at: Sight::LeftLeg, eye_mm });
}
