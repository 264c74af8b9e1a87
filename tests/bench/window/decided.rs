//! What is decided in writing: each decision is chosen, with what belongs to it.

use accesskit::Toggled;
use bevy::input::keyboard::{Key, KeyCode};
use sim_core::field_book::{Decision, Field};
use sim_core::session::action::Action;
use sim_core::time::Date;
use window::desk::{GoTo, Said};

use super::harness::Bench;

const CHECK: &str = "28_between_two_calibrations.ron";

fn decisions(bench: &Bench) -> Vec<(Decision, String)> {
    let acts = bench.done().into_iter().filter_map(|action| match action {
        Action::Decide { decision, reason } => Some((decision, reason)),
        _ => None,
    });
    acts.collect()
}

fn is_chosen(bench: &mut Bench, label: &str) -> bool {
    let (_, node) = bench.node_of(label).unwrap_or_else(|| panic!("{label} is not told"));
    node.toggled() == Some(Toggled::True)
}

#[test]
fn a_line_that_has_moved_is_accepted_by_keys_with_the_reason() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to_label("remarks");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.tab_to_label("accepted though the line has moved");
    bench.press(Key::Enter, KeyCode::Enter);
    assert!(is_chosen(&mut bench, "accepted though the line has moved"));
    assert!(!is_chosen(&mut bench, "accepted"));
    bench.tab_to_label("reason for the decision");
    bench.type_text("new brushes");
    bench.tab_to_label("write the decision");
    bench.press(Key::Enter, KeyCode::Enter);
    let moved = Decision::CalibrationAccepted { line_moved: true };
    assert_eq!(decisions(&bench), [(moved, "new brushes".to_owned())]);
    let entry = moved.entry("new brushes");
    assert!(bench.on_screen().contains(&format!("written: {entry}")), "{}", bench.on_screen());
}

#[test]
fn nothing_is_decided_before_an_answer_is_chosen() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    bench.click("write the decision");
    assert!(matches!(bench.saying(), Said::Notice(_)), "{:?}", bench.saying());
    assert!(decisions(&bench).is_empty());
}

#[test]
fn a_failed_check_states_what_follows() {
    let mut bench = Bench::at(CHECK, (1280, 1200), 100);
    bench.click("check");
    let samples = "samples since 2026-03-24 (the last good check) are not valid";
    for consequence in ["calibrate again", samples] {
        bench.click(consequence);
        assert!(is_chosen(&mut bench, consequence) && is_chosen(&mut bench, "failed"));
    }
    // Nothing follows from a check that was passed.
    bench.click("passed");
    assert!(!is_chosen(&mut bench, "calibrate again") && !is_chosen(&mut bench, samples));
    bench.click("write the decision");
    bench.click("calibrate again");
    bench.click("write the decision");
    bench.click(samples);
    bench.click("write the decision");
    let since = Date::new(2026, 3, 24).ok();
    let failed = |not_valid_since| Decision::CheckFailed { calibrate_again: true, not_valid_since };
    let made: Vec<Decision> = decisions(&bench).into_iter().map(|(made, _)| made).collect();
    assert_eq!(made, [Decision::CheckPassed, failed(None), failed(since)]);
}

#[test]
fn a_sample_is_valid_or_not_with_a_reason() {
    let mut bench = Bench::at_run((1280, 1400), 100);
    bench.click("volume");
    bench.click("not valid");
    bench.click("reason for the decision");
    bench.type_text("torn");
    bench.click("write the decision");
    assert_eq!(decisions(&bench), [(Decision::SampleNotValid, "torn".to_owned())]);
    assert_eq!(bench.written(Field::Validity).as_deref(), Some("not valid: torn"));
    // The decision about the calibration has a draft of its own.
    bench.click("remarks");
    assert_eq!(bench.value_of("reason for the decision").unwrap_or_default(), "");
}

#[test]
fn a_step_that_decides_leads_to_the_first_answer() {
    let mut bench = Bench::at_run((1280, 800), 100);
    for (field, answer) in
        [(Field::CheckOutcome, "passed"), (Field::Decision, "accepted"), (Field::Validity, "valid")]
    {
        *bench.app.world_mut().resource_mut::<GoTo>() = GoTo::Field(field);
        bench.rest(4);
        assert_eq!(bench.label_of_focus().as_deref(), Some(answer));
    }
}
