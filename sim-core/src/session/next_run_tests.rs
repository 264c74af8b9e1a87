//! A fresh filter for the next run, taken by hand after the return.

use super::unattended_tests::{begun, does, run, text};
use super::*;
use crate::rig::parts::{FilterSide, Grip, Nut, PartPlace, RigPart, TimerSwitch};
use crate::session::action::Action;

/// A scenario with a run and a next run.
fn with_next() -> String {
    text(&[(
        "        filters: [",
        "        next: (on: (day: 3, at: \"00:00\"), off: (day: 4, at: \"00:00\")),\n        filters: [",
    )])
}

/// After the return from the run, with the exposed filter in hand.
fn back(text: &str) -> Session {
    let mut session = run(text, 7, Pace::Coarse);
    does(&mut session, [Action::SwitchTimer { to: TimerSwitch::Off }, Action::OpenLid]);
    does(&mut session, Nut::ALL.map(|nut| Action::TurnNut { nut, quarter_turns: -12 }));
    does(
        &mut session,
        [Action::Take { part: RigPart::Frame }, Action::Put { place: PartPlace::Ground }],
    );
    does(&mut session, [Action::TakeFilter { grip: Grip::Edges }]);
    session
}

fn folded_away(session: &mut Session) {
    does(session, [Action::FoldFilter { out: FilterSide::Smooth }]);
    does(session, [Action::Put { place: PartPlace::Case }]);
}

#[test]
fn a_fresh_filter_is_taken_once_the_other_is_folded_and_facts_stay_with_the_run() {
    let mut session = back(&with_next());
    // If it is not folded, it comes out of its envelope again.
    does(&mut session, [Action::Put { place: PartPlace::Case }]);
    assert!(!session.view().run.unwrap().takes_fresh);
    does(&mut session, [Action::TakeFilter { grip: Grip::Edges }]);
    assert_eq!(session.view().run.unwrap().filter.number.as_deref(), Some("F-26-0801"));
    folded_away(&mut session);
    let before = session.state.ground_truth().run.unwrap();
    assert!(before.next_sheet.is_none() && session.view().run.unwrap().takes_fresh);

    does(&mut session, [Action::TakeFilter { grip: Grip::Face }, Action::HoldToLight]);
    let view = session.view().run.unwrap();
    assert_eq!(view.filter.number.as_deref(), Some("F-26-0802"));
    assert_eq!(view.sample.as_deref(), Some("F-26-0801"));
    assert!(view.filter.grey < 1e-12 && view.masses.is_some());
    does(&mut session, [Action::Put { place: PartPlace::Holder }]);
    let after = session.state.ground_truth().run.unwrap();
    let next = after.next_sheet.unwrap();
    assert_eq!((next.number, next.thumbs, next.seen_through), (2, 1, true));
    // The chart goes on while the hands are at work.
    let (chart_ahead_min, chart_ink) = (before.chart_ahead_min, before.chart_ink);
    let run =
        ground_truth::RunGroundTruth { next_sheet: None, chart_ahead_min, chart_ink, ..after };
    assert_eq!(run, before);
}

#[test]
fn a_spare_goes_back_and_an_empty_folder_is_refused() {
    let mut session = back(&with_next());
    folded_away(&mut session);
    let spare = [Action::TakeFilter { grip: Grip::Edges }, Action::Put { place: PartPlace::Case }];
    does(&mut session, spare.clone());
    does(&mut session, spare);
    let run = session.state.ground_truth().run.unwrap();
    assert_eq!((run.sheet.number, run.next_sheet.unwrap().number), (1, 3));
    let refused = session.act(Action::TakeFilter { grip: Grip::Edges }).unwrap_err();
    assert!(refused.to_string().contains("no other filter"), "{refused}");
}

#[test]
fn where_no_next_run_is_ordered_the_filter_of_the_run_is_taken_again() {
    let mut session = back(&text(&[]));
    folded_away(&mut session);
    does(&mut session, [Action::TakeFilter { grip: Grip::Edges }]);
    let run = session.view().run.unwrap();
    assert_eq!((run.filter.number.as_deref(), run.sample), (Some("F-26-0801"), None));
    assert_eq!(session.state.ground_truth().run.unwrap().next_sheet, None);
}

#[test]
fn what_is_armed_for_is_on_the_order() {
    let session = begun(&with_next(), 1);
    let next = session.papers().work_order.next_run().unwrap();
    assert_eq!((next.on.day, next.off.day), (3, 4));
}
