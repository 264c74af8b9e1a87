//! Readings belong to the look, in whole sessions on a real bench: what is measured again is judged by
//! the last taking, and what is written or mended later by what was seen when it was read.

use sim_core::field_book::Field;
use sim_core::marking::cost::{Costs, costs};
use sim_core::marking::{Marks, mark};
use sim_core::session::action::{Action, Sight, Struck};
use sim_core::time::TICKS_PER_SECOND;

use super::deeds::turns_knob;
use super::script::{Deed, Script, Step, point};

/// What is left of the careful session once all is undone may differ by this much, percent of the
/// volume: the readings are taken again, with their own rounding.
const AGAIN_PCT: f64 = 1.0;

/// The marks of a script, and its costs; nothing in it may be refused or found.
#[track_caller]
fn without_a_slip(script: &Script) -> (Marks, Costs) {
    let (signed, refused) = script.had();
    assert_eq!(refused, [""; 0]);
    let marks = mark(&signed.evidence());
    assert!(marks.findings.is_empty(), "{:#?}", marks.findings);
    let costs = costs(&signed, &marks);
    assert!(costs.each.is_empty(), "{:#?}", costs.each);
    (marks, costs)
}

/// The careful session with all points read first at other flows and with the manometer out of plumb,
/// and then once more.
fn measured_twice(between: impl IntoIterator<Item = Action>) -> Script {
    let mut script = Script::careful();
    let start = script.look_before(Field::Chart(point(1)), Sight::Tube);
    let end = script.written(Field::DeltaH(point(7))) + 1;
    let mut taken: Vec<Step> = script.steps[start..end].to_vec();
    // The flow settles after the knob was opened again.
    taken[0].ticks = 130 * TICKS_PER_SECOND;
    let does = |action| Step { ticks: 0, deed: Deed::Does(action) };
    let mends = [Action::SwingManometer { by_deg: -9.0 }, Action::TurnKnob { opening: 1.0 }];
    let again = between.into_iter().chain(mends).map(does).chain(taken);
    script.steps.splice(end..end, again);
    for step in script.steps[start..end].iter_mut().filter(|step| turns_knob(&step.deed)) {
        if let Deed::Does(Action::TurnKnob { opening }) = &mut step.deed {
            *opening *= 0.8;
        }
    }
    script
        .insert(start, [Action::SwingManometer { by_deg: 9.0 }, Action::TurnKnob { opening: 0.8 }]);
    script
}

#[test]
fn points_that_were_measured_anew_are_judged_by_their_last_taking() {
    let (once, kept) = without_a_slip(&Script::careful());
    let strikes = (1..=7).map(|number| Action::Strike { what: Struck::Point(point(number)) });
    for script in [measured_twice([]), measured_twice(strikes)] {
        let (marks, costs) = without_a_slip(&script);
        assert!((marks.total - once.total).abs() < 2.0, "{} {}", marks.total, once.total);
        let left = [&costs, &kept].map(|costs| costs.remaining_pct.unwrap());
        assert!((left[0] - left[1]).abs() < AGAIN_PCT, "{left:?} percent");
        assert!(costs.interaction_pct.unwrap().abs() < 0.01, "{costs:#?}");
    }
}

#[test]
fn a_leg_that_is_struck_out_and_not_read_again_is_missing() {
    let mut script = Script::careful();
    let place = script.written(Field::DeltaH(point(4)));
    script.insert(place, [Action::Strike { what: Struck::Field(Field::Up(point(4))) }]);
    let found: Vec<&str> = script.play().findings.iter().map(|finding| finding.rule).collect();
    assert!(found.contains(&"both-legs"), "{found:?}");
}

#[test]
fn a_reading_may_be_written_after_the_knob_was_turned() {
    let (once, kept) = without_a_slip(&Script::careful());
    let mut script = Script::careful();
    let read = script.text_of(Field::Chart(point(4)));
    script.says(Field::Chart(point(4)), &read);
    script.moves(script.written(Field::Chart(point(4))), script.written(Field::Chart(point(5))));
    for field in [Field::Down(point(6)), Field::DeltaH(point(6))] {
        let text = script.text_of(field);
        script.says(field, &text);
    }
    script.moves(script.written(Field::Down(point(6))), script.written(Field::Up(point(7))));
    let (marks, costs) = without_a_slip(&script);
    assert!((marks.total - once.total).abs() < 0.5, "{} {}", marks.total, once.total);
    let volumes = [&costs, &kept].map(|costs| costs.all_repaired_m3.unwrap());
    assert!((volumes[0] / volumes[1] - 1.0).abs() < 0.001, "{volumes:?}");
}

#[test]
fn a_slip_of_the_pen_that_is_mended_at_the_desk_is_a_correction() {
    let mut script = Script::careful();
    let field = Field::Chart(point(4));
    let read = script.text_of(field);
    script.says(field, "5.5");
    let found: Vec<&str> = script.play().findings.iter().map(|finding| finding.rule).collect();
    assert!(found.contains(&"values-as-seen"), "{found:?}");
    let sums = script.written(Field::PointFlow(point(1)));
    script.insert(sums, [Action::Write { field, text: read }]);
    without_a_slip(&script);
}
