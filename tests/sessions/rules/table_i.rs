//! Loading, arming, leaving.

use sim_core::field_book::Field;
use sim_core::rig::parts::{FilterSide, Grip, PartPlace, TimerSwitch};
use sim_core::session::action::{Action, Sight};
use sim_core::time::TICKS_PER_SECOND;

use super::Case;
use super::deeds::{does, looks, puts, timer, turns_nut};
use super::script::{Deed, Script};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "run-made",
        breaks: |script| {
            let leaves = leaving(script);
            let sign = script.steps.pop().unwrap();
            script.steps.truncate(leaves);
            script.steps.push(sign);
            // Nothing is to be drawn: the pen is capped again.
            script.insert(leaves, [Action::OpenDoor, Action::CapPen, Action::CloseDoor]);
        },
        keeps: |script| {
            let leaves = leaving(script);
            script.wait(leaves, 300);
        },
        drags: &[],
    },
    Case {
        rule: "filter-fitted",
        breaks: |script| {
            let takes = script.first(takes_filter);
            let puts = script.from(takes, puts(PartPlace::Holder));
            (takes..=puts).for_each(|_| drop(script.drop_at(takes)));
            // Afterwards there is none to be taken in.
            script.without(|deed| takes_filter(deed) || folds(deed));
            let last = script.last(super::deeds::puts(PartPlace::Case));
            script.drop_at(last);
        },
        keeps: |script| {
            // The first one goes back into the folder, and the second is used.
            let held = script.first(does(Action::HoldToLight));
            script.insert(
                held,
                [Action::Put { place: PartPlace::Case }, Action::TakeFilter { grip: Grip::Edges }],
            );
            script.says(Field::FilterNumber, "F-26-0802");
        },
        drags: &[
            ("filter-inspected", "there is no filter that could be held against the light"),
            ("filter-folded", "there is no filter that could be folded"),
        ],
    },
    Case {
        rule: "filter-inspected",
        breaks: |script| script.without(does(Action::HoldToLight)),
        keeps: |script| {
            let held = script.first(does(Action::HoldToLight));
            script.insert(held, [Action::HoldToLight]);
        },
        drags: &[],
    },
    Case {
        rule: "filter-sound",
        breaks: |script| script.with_fault("FilterPinholes(area_mm2: 3)"),
        keeps: |script| *script = script.rehearsed_with("FilterPinholes(area_mm2: 3)"),
        drags: &[],
    },
    Case {
        rule: "filter-by-edges",
        breaks: |script| {
            let takes = script.first(takes_filter);
            script.steps[takes].deed = Deed::Does(Action::TakeFilter { grip: Grip::Face });
        },
        keeps: |script| {
            let held = script.first(does(Action::HoldToLight));
            script.insert(
                held,
                [
                    Action::Put { place: PartPlace::Ground },
                    Action::TakeFilter { grip: Grip::Edges },
                ],
            );
        },
        drags: &[],
    },
    Case {
        rule: "filter-rough-up",
        breaks: |script| {
            turns_over(script);
            let folds = script.last(folds);
            script.steps[folds].deed = Deed::Does(Action::FoldFilter { out: FilterSide::Rough });
        },
        keeps: |script| {
            turns_over(script);
            turns_over(script);
        },
        drags: &[],
    },
    Case {
        rule: "filter-centred",
        breaks: |script| script.with_fault("FilterOffCentre"),
        keeps: |script| *script = script.rehearsed_with("FilterOffCentre"),
        drags: &[],
    },
    Case {
        rule: "frame-tight",
        breaks: |script| last_nut(script, 1),
        keeps: |script| last_nut(script, 2),
        drags: &[],
    },
    Case {
        rule: "set-on-warm-blower",
        breaks: |script| sets_sooner(script, 200),
        keeps: |script| sets_sooner(script, 9),
        drags: &[],
    },
    Case {
        rule: "trimmed-to-set-point",
        breaks: |script| starts_above(script, 1.3),
        keeps: |script| starts_above(script, 0.3),
        drags: &[],
    },
    Case {
        rule: "timer-as-ordered",
        breaks: |script| dial_ahead(script, 0.6),
        keeps: |script| dial_ahead(script, 0.4),
        drags: &[],
    },
    Case {
        rule: "timer-in-charge",
        breaks: |script| {
            // Off on leaving, and on again by hand when the trainee is back: no day, no trace.
            let leaves = leaving(script);
            script.insert(leaves, [timer(TimerSwitch::Off)]);
        },
        keeps: |script| {
            let leaves = leaving(script);
            script.insert(leaves, [timer(TimerSwitch::Off), timer(TimerSwitch::Auto)]);
        },
        drags: &[
            ("meter-after", "the meter stood, and the book says a day"),
            ("mean-chart", "there is no trace of which to take the mean"),
            ("run-air", "there is no run of which to take the mean pressure"),
            ("run-air", "there is no run of which to take the mean temperature"),
            ("validity-judged", "no minute was sampled, and the book says valid"),
        ],
    },
    Case {
        rule: "chart-at-hour",
        breaks: |script| turns_chart(script, 25.0),
        keeps: |script| turns_chart(script, 6.0),
        drags: &[],
    },
    Case {
        rule: "pen-ready",
        breaks: |script| {
            let leaves = leaving(script);
            let lowers = script.back(leaves, does(Action::LowerPen));
            script.drop_at(lowers);
            let lifts = script.from(leaves - 1, does(Action::LiftPen));
            script.drop_at(lifts);
        },
        keeps: |script| {
            let leaves = leaving(script);
            let shuts = script.back(leaves, does(Action::CloseDoor));
            script.insert(shuts, [Action::LiftPen, Action::LowerPen]);
        },
        drags: &[],
    },
    Case {
        rule: "doors-shut",
        breaks: |script| {
            let leaves = leaving(script);
            let shuts = script.back(leaves, does(Action::CloseDoor));
            script.drop_at(shuts);
            let opens = script.from(leaves - 1, does(Action::OpenDoor));
            script.drop_at(opens);
        },
        keeps: |script| {
            let leaves = leaving(script);
            script.insert(leaves, [Action::OpenDoor, Action::CloseDoor]);
        },
        drags: &[],
    },
    Case {
        rule: "meter-before",
        breaks: |script| meter(script, Field::MeterBefore, 0.9),
        keeps: |script| meter(script, Field::MeterBefore, 0.4),
        drags: &[],
    },
];

/// Place at which the site is left.
fn leaving(script: &Script) -> usize {
    script.first(does(Action::LeaveSite))
}

pub fn takes_filter(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::TakeFilter { .. }))
}

fn folds(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::FoldFilter { .. }))
}

/// Turns the filter over before it is laid down.
fn turns_over(script: &mut Script) {
    let held = script.first(does(Action::HoldToLight));
    script.insert(held + 1, [Action::TurnFilter]);
}

/// Turns the last nut of the filter's frame by fewer quarters in the second round.
fn last_nut(script: &mut Script, quarter_turns: i8) {
    let leaves = leaving(script);
    let place = script.back(leaves, turns_nut);
    let Deed::Does(Action::TurnNut { nut, .. }) = script.steps[place].deed else { return };
    script.steps[place].deed = Deed::Does(Action::TurnNut { nut, quarter_turns });
}

/// Sets the controller sooner after the blower was switched on; it runs as long as before.
fn sets_sooner(script: &mut Script, seconds: u64) {
    let on = script.back(script.written(Field::StartChart), does(timer(TimerSwitch::On)));
    let waits = script.from(on, |deed| looks(Sight::Pen)(deed));
    script.hurry(waits, seconds);
    let off = script.from(waits, does(timer(TimerSwitch::Off)));
    script.steps[off].ticks += seconds * TICKS_PER_SECOND;
}

/// Writes a start reading that is above the set point.
fn starts_above(script: &mut Script, divisions: f64) {
    let set = script.number_of(Field::SetPoint);
    script.says(Field::StartChart, &format!("{:.1}", set + divisions));
}

/// Sets the dial ahead of the watch.
fn dial_ahead(script: &mut Script, by_h: f64) {
    let dial = script.first(|deed| matches!(deed, Deed::Does(Action::SetDial { .. })));
    let Deed::Does(Action::SetDial { weekday, hours }) = script.steps[dial].deed else { return };
    script.steps[dial].deed = Deed::Does(Action::SetDial { weekday, hours: hours + by_h });
}

/// Turns the fresh chart on.
fn turns_chart(script: &mut Script, minutes: f64) {
    let leaves = leaving(script);
    let lowers = script.back(leaves, does(Action::LowerPen));
    script.insert(lowers, [Action::TurnChart { minutes }]);
}

/// Writes another meter reading.
pub fn meter(script: &mut Script, field: Field, by_min: f64) {
    let read = script.number_of(field);
    script.says(field, &format!("{:.1}", read + by_min));
}
