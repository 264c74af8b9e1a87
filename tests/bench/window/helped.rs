//! Help on asking: what now, why, the step shown on a copy, and the sums.

use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use hands::Spot;
use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{Nut, PartPlace, RigPart};
use sim_core::session::action::{Action, FaultPlace, HelpTopic, Response, Sight};
use sim_core::session::journal::NullSink;
use sim_core::session::replay::replay;
use window::desk::{ActRequest, Desk, Reports};
use window::panels::field_book::{ReportRequest, Suspected};
use window::panels::showing::CAPTION;
use window::ui::told::{Told, told};

use super::harness::Bench;

fn help(bench: &mut Bench) {
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(3);
}

fn do_it(bench: &mut Bench, action: Action) {
    bench.app.world_mut().write_message(ActRequest(action));
    bench.rest(3);
    let said = bench.said();
    assert!(said.is_empty() || said.starts_with("Written: "), "{said}");
}

/// The session's own checksum, without what is shown.
fn digest(bench: &Bench) -> String {
    bench.app.world().resource::<Desk>().session().expect("a session").digest()
}

/// The session's own tick.
fn now(bench: &Bench) -> u64 {
    bench.app.world().resource::<Desk>().session().expect("a session").now().0
}

/// The papers written down and the sampler dead: next come the lid and the nuts.
fn before_the_lid(bench: &mut Bench) {
    let write = |field, text: &str| Action::Write { field, text: text.to_owned() };
    for action in [
        Action::Look { at: Sight::RoofEdge, eye_mm: 0.0 },
        write(Field::CalibratorSerial, "OC-318"),
        write(Field::CertificateSerial, "OC-318"),
        write(Field::CertificateDate, "2025-11-04"),
        write(Field::CertificateSlope, "2.0"),
        write(Field::CertificateIntercept, "-0.02"),
        write(Field::Temperature, "13.5"),
        write(Field::Pressure, "761"),
    ] {
        do_it(bench, action);
    }
    bench.tab_to(Spot::Cord);
    bench.press(Key::Enter, KeyCode::Enter);
    assert!(!bench.view().power.sampler_cord_in);
}

#[test]
fn help_says_the_advice_with_its_source_and_its_caution() {
    let mut bench = Bench::at_work((1280, 800), 100);
    help(&mut bench);
    bench.click("what now");
    let shown = bench.on_screen();
    assert!(shown.contains("Look where you stand: the roof edge"), "{shown}");
    assert!(
        shown.contains("Caution: Within 6 ft of the roof edge"),
        "the caution stands beside the step: {shown}"
    );
    bench.click("why");
    let spoken = bench.value_of("answer").expect("it is spoken");
    assert!(spoken.contains('(') && spoken.ends_with(')'), "no source: {spoken}");
    assert_eq!(
        bench.done(),
        [HelpTopic::WhatNow, HelpTopic::Why].map(|topic| Action::AskHelp { topic })
    );
}

#[test]
fn help_says_how_an_entry_and_a_point_are_struck_out() {
    let mut bench = Bench::at_work((1280, 800), 100);
    help(&mut bench);
    let shown = bench.on_screen();
    for words in ["To strike out an entry, clear its field", "To take a point again, strike it out"]
    {
        assert!(shown.contains(words), "{words}: {shown}");
    }
}

#[test]
fn a_step_is_shown_on_a_copy_and_nothing_of_it_is_done() {
    let mut bench = Bench::at_work((1280, 800), 100);
    before_the_lid(&mut bench);
    let acts = bench.done().len();
    help(&mut bench);
    bench.click("show me");
    let (before, tick) = (digest(&bench), now(&bench));
    assert!(!bench.is_there("Help"), "the sheet is out of the way");
    let spoken = bench.value_of("shown on a copy").unwrap_or_default();
    assert!(spoken.contains(CAPTION) && spoken.contains("lid of the shelter"), "{spoken}");
    let mut opened = false;
    let mut frames = 0;
    while bench.app.world().resource::<Desk>().showing().is_some() {
        bench.rest(1);
        opened |= bench.view().mounting.lid_open;
        frames += 1;
        if frames == 50 {
            assert_eq!(digest(&bench), before, "the session is touched by what is shown");
        }
        assert!(frames < 400, "the show never ends");
    }
    bench.rest(2);
    assert!(opened, "the lid is seen to open");
    assert!(!bench.view().mounting.lid_open, "and is closed again");
    assert_eq!(bench.at_hand(), Some(Spot::Lid), "the thing is at hand for the trainee");
    let acted = bench.done();
    assert_eq!(acted.len(), acts + 1, "only the asking is in the journal");
    assert_eq!(acted.last(), Some(&Action::AskHelp { topic: HelpTopic::ShowMe }));
    assert!(now(&bench) - tick < 6, "the session stood still meanwhile");
    // What was shown left no trace: the journal gives the same session.
    let again = replay(&bench.journal(), Box::new(NullSink)).expect("it replays").session;
    assert!(!again.view().mounting.lid_open);
    assert!(frames > 50, "it went by too fast: {frames} ticks");
}

#[test]
fn the_caption_over_a_step_leaves_the_loupe_in_sight() {
    for percent in [100, 200] {
        let mut bench = Bench::at_work((1280, 800), percent);
        help(&mut bench);
        bench.click("show me");
        bench.rest(3);
        let told = told(bench.app.world_mut());
        let seen = |wanted: &dyn Fn(&Told) -> bool| {
            let [left, top, right, foot] = told.iter().find(|one| wanted(one))?.seen?;
            Some(Rect::new(left, top, right, foot))
        };
        let loupe = seen(&|one| one.label == "loupe").expect("the loupe");
        let caption = seen(&|one| one.value == CAPTION).expect("the caption");
        assert!(loupe.intersect(caption).is_empty(), "{percent} %: {loupe:?}, {caption:?}");
    }
}

#[test]
fn a_hand_that_comes_in_ends_the_show_and_does_nothing_yet() {
    let mut bench = Bench::at_work((1280, 800), 100);
    before_the_lid(&mut bench);
    do_it(&mut bench, Action::OpenLid);
    help(&mut bench);
    bench.click("show me");
    // The first nut is off on the copy.
    bench.rest(40);
    let nut = bench.view().mounting.nuts[0].quarter_turns;
    assert_eq!(nut, 0, "the copy's nut is off");
    let acts = bench.done().len();
    bench.press(Key::Character("1".into()), KeyCode::Digit1);
    assert!(bench.app.world().resource::<Desk>().showing().is_none());
    assert!(bench.view().mounting.nuts[0].quarter_turns > 0, "the present state is back");
    assert_eq!(bench.done().len(), acts, "what was meant for the copy is not done");
    assert_eq!(bench.at_hand(), Some(Spot::Nut(Nut::ALL[0])));
    bench.press(Key::Character("3".into()), KeyCode::Digit3);
    assert_eq!(bench.view().mounting.nuts[0].quarter_turns, 0, "now it is");
    assert_eq!(bench.view().mounting.place(RigPart::Frame), PartPlace::Holder);
}

#[test]
fn what_is_written_while_a_step_is_shown_is_written() {
    let mut bench = Bench::at_work((1280, 800), 100);
    before_the_lid(&mut bench);
    bench.click("set point");
    help(&mut bench);
    bench.click("show me");
    assert!(bench.app.world().resource::<Desk>().showing().is_some());
    bench.click("Target flow, std m\u{b3}/min");
    bench.type_text("1.13");
    assert!(bench.app.world().resource::<Desk>().showing().is_some(), "it is still shown");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::TargetFlow).as_deref(), Some("1.13"));
    assert!(bench.app.world().resource::<Desk>().showing().is_none());
    let written = Action::Write { field: Field::TargetFlow, text: "1.13".to_owned() };
    assert!(bench.done().contains(&written), "it is on the page and not in the journal");
}

#[test]
fn a_report_made_while_a_step_is_shown_is_listed_because_the_journal_has_it() {
    let mut bench = Bench::at_work((1280, 800), 100);
    before_the_lid(&mut bench);
    bench.click("remarks");
    help(&mut bench);
    bench.click("show me");
    bench.click("what you saw, heard or felt");
    bench.type_text("x");
    bench.click("lid of the shelter");
    assert!(bench.app.world().resource::<Reports>().0.is_empty());
    bench.click("manometer");
    for choice in [
        ReportRequest::Place(FaultPlace::Tube),
        ReportRequest::Cause(Suspected::NotKnownYet),
        ReportRequest::Response(Response::Noted),
    ] {
        bench.app.world_mut().write_message(choice);
    }
    bench.app.world_mut().write_message(ReportRequest::Send);
    bench.rest(3);
    let listed = bench.app.world().resource::<Reports>().0.clone();
    let reported: Vec<_> = bench
        .done()
        .into_iter()
        .filter_map(|action| match action {
            Action::Report(remark) => Some(remark),
            _ => None,
        })
        .collect();
    assert_eq!(listed, reported);
    assert_eq!(listed.len(), 1, "{}", bench.said());
}

#[test]
fn what_is_to_be_written_is_shown_by_its_field() {
    let mut bench = Bench::at_work((1280, 800), 100);
    do_it(&mut bench, Action::Look { at: Sight::Calibrator, eye_mm: 0.0 });
    help(&mut bench);
    bench.click("show me");
    bench.rest(6);
    assert_eq!(bench.label_of_focus().as_deref(), Some("Calibrator, number on its plate"));
    let spoken = bench.value_of("shown on a copy").unwrap_or_default();
    assert!(spoken.contains("write your value"), "{spoken}");
    bench.press(Key::Escape, KeyCode::Escape);
    assert!(bench.app.world().resource::<Desk>().showing().is_none(), "Esc ends it");
}

#[test]
fn sums_are_done_where_the_scenario_allows_them() {
    let mut bench = Bench::at_work((1280, 800), 100);
    help(&mut bench);
    bench.click("do the calculations");
    let spoken = bench.value_of("answer").unwrap_or_default();
    assert!(spoken.contains("station pressure in the field book first"), "{spoken}");
    assert_eq!(bench.done(), [Action::AskHelp { topic: HelpTopic::Sums }]);
}

#[test]
fn a_plot_is_asked_for_once() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("line");
    bench.click("plot my points");
    bench.rest(3);
    assert_eq!(bench.done(), [Action::AskHelp { topic: HelpTopic::Plot }]);
    // The button has the focus: a key asks once more, and once.
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.done(), [HelpTopic::Plot; 2].map(|topic| Action::AskHelp { topic }));
}

#[test]
fn the_points_of_the_book_are_drawn_as_the_report_draws_them() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("line");
    bench.click("plot my points");
    bench.rest(4);
    assert!(bench.on_screen().contains("No point has both"), "{}", bench.on_screen());
    let points: Vec<PointNumber> = PointNumber::all().take(2).collect();
    for (point, flow, term) in [(points[0], "1.1", "33"), (points[1], "1.5", "45")] {
        for (field, text) in [(Field::PointFlow(point), flow), (Field::ChartTerm(point), term)] {
            do_it(&mut bench, Action::Write { field, text: text.to_owned() });
        }
    }
    bench.click("plot my points");
    bench.rest(4);
    let label = "Your points, corrected chart reading against flow: 33 at 1.1 std m\u{b3}/min; 45 at 1.5 std m\u{b3}/min.";
    assert!(bench.is_there(label), "it is said to who cannot see it");
    let world = bench.app.world_mut();
    let mut nodes = world.query::<(&AccessibilityNode, &Children)>();
    let children = nodes
        .iter(world)
        .find_map(|(node, children)| (node.label() == Some(label)).then(|| children.to_vec()))
        .expect("the plot");
    let picture = world.get::<ImageNode>(children[0]).expect("a picture").image.id();
    let size = world.resource::<Assets<Image>>().get(picture).expect("it is drawn").size();
    assert!(size.x > 200 && size.y > 150, "{size}");
}
