//! What a lesson is marked by.

use sim_core::field_book::Field;
use sim_core::marking::{MarkPartName, mark};
use sim_core::operator::{self, by_name, in_session, rehearse};
use sim_core::procedure::{OutcomeKind, lesson::has_rule, rule};
use sim_core::scenario::setup::{LessonHelp, LessonPhase, LessonPhases};
use sim_core::session::action::Action;
use sim_core::session::{LessonBegan, Session};
use sim_core::trial::{TrialVerdict, block, judge};

use super::{lesson, lessons, read, whole};

#[test]
fn careful_work_passes_each_lesson_and_the_habits_that_it_is_about_do_not() {
    for (name, text) in lessons() {
        let scenario = read(&text);
        let faults: Vec<_> = scenario.faults.iter().map(|entry| entry.fault).collect();
        let names: Vec<_> = faults.iter().map(|fault| fault.name()).collect();
        assert!(!scenario.about.is_empty(), "{name} is about no habit");
        let sat: Vec<_> = std::iter::once("careful")
            .chain(scenario.about.iter().map(String::as_str))
            .map(|who| (who, block(&text, &faults, who, 5001..5021).unwrap().tally))
            .collect();
        let sat: Vec<_> = sat.iter().map(|(who, tally)| (*who, tally)).collect();
        let judged = judge(&scenario.about, &names, &sat);
        assert_eq!(judged.verdict, TrialVerdict::Proven, "{name}: {:?}", judged.reasons);
    }
}

#[test]
fn only_the_rules_of_a_lesson_are_assessed_and_those_that_protect_people() {
    for (name, text) in lessons() {
        let phases = read(&text).terms.phases.unwrap();
        let mut session = operator::begin_unrecorded(&text, 2).unwrap();
        let mut hands = in_session("careful", &session).unwrap();
        rehearse(&mut session, hands.as_mut()).unwrap();
        let ended = session.open().unwrap();
        let marks = mark(&ended.evidence());
        for judged in &marks.rules {
            let assessed = judged.outcome != OutcomeKind::NotAssessed;
            assert_eq!(
                assessed,
                has_rule(phases, rule(judged.rule).unwrap()),
                "{name}: {}",
                judged.rule
            );
        }
        let of = |id: &str| marks.rules.iter().find(|one| one.rule == id).unwrap().outcome;
        assert_ne!(of("dead-before-hands"), OutcomeKind::NotAssessed, "{name}");
        assert!(marks.of > 0.0 && marks.of < 100.0, "{name}: {}", marks.of);
    }
}

/// A whole session that is looked at as if it were a lesson of its calculations alone.
#[test]
fn what_was_done_before_a_lesson_is_not_the_trainees() {
    let text = whole(&lesson("5_seven_flows.ron"));
    let mut session = Session::begin_unrecorded(&text, 2).unwrap();
    rehearse(&mut session, by_name("never-zeroes+slant-reader", 2).unwrap().as_mut()).unwrap();
    let mut ended = session.open().unwrap();
    let found: Vec<_> =
        mark(&ended.evidence()).findings.into_iter().map(|finding| finding.rule).collect();
    assert!(found.contains(&"manometer-zeroed") && found.contains(&"eye-level"), "{found:?}");
    let reckons =
        |action: &Action| matches!(action, Action::Write { field: Field::PointFlow(_), .. });
    let events = ended.events.iter().position(|event| reckons(&event.action)).unwrap();
    let (from, to) = (LessonPhase::Points, LessonPhase::Calculations);
    ended.setup.terms.phases = Some(LessonPhases { from, to, help: LessonHelp::Asked });
    ended.lesson = Some(LessonBegan { tick: ended.events[events].tick, events });
    let marks = mark(&ended.evidence());
    let found: Vec<_> = marks.findings.iter().map(|finding| finding.rule).collect();
    assert!(!found.contains(&"manometer-zeroed") && !found.contains(&"eye-level"), "{found:?}");
    assert!(marks.readings.is_empty(), "readings before the lesson are nobody's");
}

#[test]
fn the_clock_of_a_lesson_starts_with_it() {
    let limited =
        lesson("5_seven_flows.ron").replace("pass_mark: 75", "time_limit_min: 20, pass_mark: 75");
    let mut session = operator::begin_unrecorded(&limited, 1).unwrap();
    let began = session.lesson_began().unwrap().tick;
    assert!(began.seconds() > 300.0, "much was done before: {began:?}");
    assert_eq!(session.view().seconds_left, Some(1200.0));
    session.advance(20 * 1199).unwrap();
    assert_eq!(session.ended(), None);
    session.advance(20).unwrap();
    assert!(session.ended().is_some());
    let ended = session.open().unwrap();
    assert!(!mark(&ended.evidence()).passed);
}

#[test]
fn who_signs_at_once_or_leaves_passes_no_lesson() {
    for (name, text) in lessons() {
        for end in [Action::Sign, Action::LeaveRoof] {
            let mut session = operator::begin_unrecorded(&text, 4).unwrap();
            session.act(end.clone()).unwrap();
            let ended = session.open().unwrap();
            let marks = mark(&ended.evidence());
            assert!(!marks.passed, "{name}: {end:?} gives {} of {}", marks.total, marks.of);
        }
    }
}

#[test]
fn a_part_of_which_nothing_belongs_to_the_lesson_is_left_out_of_the_total() {
    let mut session = operator::begin_unrecorded(&lesson("3_hung_and_zeroed.ron"), 2).unwrap();
    let mut hands = in_session("careful", &session).unwrap();
    rehearse(&mut session, hands.as_mut()).unwrap();
    let ended = session.open().unwrap();
    let marks = mark(&ended.evidence());
    let assessed: Vec<MarkPartName> =
        marks.parts.iter().filter(|part| part.assessed).map(|part| part.name).collect();
    assert_eq!(assessed, [MarkPartName::Procedure, MarkPartName::Judgement]);
    assert!((marks.of - 30.0).abs() < 1e-9 && (marks.needed - 22.5).abs() < 1e-9, "{marks:?}");
    // The reading that would come next is no reading of the trainee's.
    assert!(marks.readings.is_empty() && ended.book.points().is_empty());
}

#[test]
fn a_hand_beside_a_running_blower_fails_a_lesson_of_the_points() {
    let mut session = operator::begin_unrecorded(&lesson("5_seven_flows.ron"), 2).unwrap();
    session.act(Action::Take { part: sim_core::rig::parts::RigPart::Calibrator }).unwrap();
    session.act(Action::Sign).unwrap();
    let ended = session.open().unwrap();
    let marks = mark(&ended.evidence());
    assert_eq!(marks.gate.map(|gate| gate.rule), Some("dead-before-hands"));
}
