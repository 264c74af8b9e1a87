//! Readings belong to the look at which they were taken, whenever they were written: at points and at
//! flow checks alike.

use super::broken;
use crate::field_book::Field;
use crate::procedure::test_bench::{
    FLOWS, TestSession, Worker, careful, careful_check, careful_with, chart_of, looks_at_point,
    point, takes_point, takes_points, writes, writes_point,
};
use crate::rig::parts::TimerSwitch;
use crate::session::action::{Action, Sight, Struck};
use crate::session::ground_truth::GroundTruth;

/// Does something to everything that a worker has done since so many moments.
fn spoil(worker: &mut Worker, from: usize, change: impl Fn(&mut GroundTruth)) {
    for moment in &mut worker.events[from..] {
        change(&mut moment.before);
        change(&mut moment.after);
    }
}

/// Moves the entry in a field to just after the last action that is selected.
fn writes_later(session: &mut TestSession, field: Field, after: impl Fn(&Action) -> bool) {
    let from = session.events.iter().position(|m| writes(&m.action, field)).unwrap();
    let entry = session.events.remove(from).action;
    let place = session.events.iter().rposition(|moment| after(&moment.action)).unwrap();
    let mut moment = session.events[place].clone();
    moment.before = moment.after.clone();
    moment.action = entry;
    session.events.insert(place + 1, moment);
}

/// Whether an action marks this point on the chart.
fn marks(number: u8) -> impl Fn(&Action) -> bool {
    move |action| matches!(action, Action::MarkChart { label } if *label == number.to_string())
}

/// Whether an action turns the knob for this point.
fn opens(number: u8) -> impl Fn(&Action) -> bool {
    let wanted = FLOWS[usize::from(number) - 1] / 1.7;
    move |action| matches!(action, Action::TurnKnob { opening } if (opening - wanted).abs() < 1e-9)
}

/// Points that were read badly at other flows, with the manometer not zeroed, and then taken anew.
fn taken_twice(between: impl FnOnce(&mut Worker)) -> TestSession {
    careful_with(|worker| {
        let from = worker.events.len();
        takes_points(worker, FLOWS.map(|flow| 0.93 * flow));
        spoil(worker, from, |facts| {
            (facts.taps, facts.valve_quarters) = (0, [4, 1]);
            facts.nut_turns = [8, 8, 8, 2];
        });
        between(worker);
        takes_points(worker, FLOWS);
    })
}

#[test]
fn points_that_are_measured_again_are_judged_by_the_last_taking() {
    let over = taken_twice(|_| ());
    assert_eq!(broken(&over), [""; 0], "written over");
    let struck = taken_twice(|worker| {
        for number in 1..=7 {
            worker.does(Action::Strike { what: Struck::Point(point(number)) }, |_| ());
        }
    });
    assert_eq!(broken(&struck), [""; 0], "struck out");
    let marks = struck.judged(crate::marking::mark);
    assert!(marks.total > 99.9, "{:#?}", marks.parts);
    assert_eq!(marks.readings.len(), 23, "what was struck out is no reading");
}

#[test]
fn one_point_that_is_taken_again_at_the_end_is_judged_there() {
    let again = |spoilt: bool| {
        careful_with(|worker| {
            takes_points(worker, FLOWS);
            worker.does(Action::Strike { what: Struck::Point(point(3)) }, |_| ());
            let from = worker.events.len();
            takes_point(worker, 3, FLOWS[2]);
            if spoilt {
                spoil(worker, from, |facts| facts.taps = 0);
            }
        })
    };
    assert_eq!(broken(&again(false)), [""; 0]);
    assert_eq!(broken(&again(true)), ["pen-tapped"]);
}

#[test]
fn what_was_read_in_time_may_be_written_after_the_knob_was_turned() {
    for field in [Field::Up(point(2)), Field::Down(point(2)), Field::Chart(point(2))] {
        let mut turned = careful();
        writes_later(&mut turned, field, opens(3));
        assert_eq!(broken(&turned), [""; 0], "{field:?} after the knob");
        let mut looked = careful();
        writes_later(&mut looked, field, marks(3));
        assert_eq!(broken(&looked), [""; 0], "{field:?} after other looks");
        assert!(looked.judged(crate::marking::mark).total > 99.9);
    }
}

#[test]
fn points_may_be_written_all_together_and_in_any_order() {
    let together = careful_with(|worker| {
        for (number, flow) in (1..).zip(FLOWS) {
            looks_at_point(worker, flow);
            worker.does(Action::MarkChart { label: number.to_string() }, |_| ());
        }
        for number in [4, 1, 7, 2, 6, 3, 5] {
            writes_point(worker, number, FLOWS[usize::from(number) - 1]);
        }
    });
    assert_eq!(broken(&together), [""; 0]);
    let mut chart_first = careful();
    for number in 1..=7 {
        writes_later(&mut chart_first, Field::Up(point(number)), marks(number));
        writes_later(&mut chart_first, Field::Down(point(number)), marks(number));
    }
    assert_eq!(broken(&chart_first), [""; 0]);
}

#[test]
fn a_slip_of_the_pen_that_is_mended_later_is_judged_where_it_was_read() {
    let mut session = careful();
    let right = session.text_of(Field::Chart(point(2)));
    session.rewrite(Field::Chart(point(2)), "5.2");
    assert!(broken(&session).contains(&"values-as-seen"));
    let mended = Action::Write { field: Field::Chart(point(2)), text: right };
    session.insert_after(opens(4), mended);
    session.redo_sums();
    assert_eq!(broken(&session), [""; 0]);
}

#[test]
fn a_wrong_leg_that_another_flow_would_show_is_still_wrong() {
    let mut session = careful();
    let of_another = session.text_of(Field::Up(point(1)));
    session.rewrite(Field::Up(point(5)), &of_another);
    assert!(broken(&session).contains(&"values-as-seen"));
    let chart = session.text_of(Field::Chart(point(1)));
    let mut copied = careful();
    copied.rewrite(Field::Chart(point(5)), &chart);
    assert!(broken(&copied).contains(&"values-as-seen"));
}

#[test]
fn what_was_seen_at_the_look_counts_and_not_what_came_after() {
    // The pen was tapped only after it had been looked at, while the eye was elsewhere.
    let mut session = careful();
    let at_looks = |action: &Action| matches!(action, Action::Look { at: Sight::Pen, .. });
    session.at(at_looks, |facts| facts.taps = 0);
    for number in 1..=7 {
        let before =
            session.events.iter().position(|m| writes(&m.action, Field::Up(point(number))));
        let before = before.unwrap();
        let mut away = session.events[before - 1].clone();
        away.action = Action::Look { at: Sight::Watch, eye_mm: 0.0 };
        session.events.insert(before, away);
    }
    let found = session.judged(super::findings);
    let untapped: Vec<_> = found.iter().filter(|one| one.rule == "pen-tapped").collect();
    assert_eq!(untapped.len(), 7, "{found:#?}");
    assert!(untapped.iter().all(|finding| finding.decisive));
}

/// A rule about readings, and how a flow check breaks it at every reading.
type Spoil = (&'static str, fn(&mut TestSession));

#[test]
fn a_flow_check_is_read_by_the_same_rules_as_a_point() {
    let spoils: [Spoil; 6] = [
        ("pen-tapped", |session| session.at_check(|facts| facts.taps = 0)),
        ("pen-at-rest", |session| session.at_check(|facts| facts.pen_at_rest = facts.pen - 0.8)),
        ("eye-level", |session| session.at_check(|facts| facts.eye_mm = 25.0)),
        ("looked-before-writing", |session| {
            let leg = |action: &Action| matches!(action, Action::Look { at: Sight::LeftLeg, .. });
            let zero = session.events.iter().position(|moment| leg(&moment.action)).unwrap();
            let kept = session.events[zero].clone();
            session.without(leg);
            session.events.insert(zero, kept);
        }),
        ("to-the-division", |session| {
            for number in 1..=3 {
                let text = session.text_of(Field::CheckUp(point(number)));
                session.rewrite(Field::CheckUp(point(number)), &format!("{text}0"));
            }
        }),
        ("pen-on-paper", |session| session.at_check(|facts| facts.on_paper = false)),
    ];
    for (rule, spoil) in spoils {
        let mut session = careful_check();
        spoil(&mut session);
        let found = session.judged(super::findings);
        let of_rule: Vec<_> = found.iter().filter(|finding| finding.rule == rule).collect();
        assert_eq!(of_rule.len(), 3, "{rule}: {found:#?}");
        assert!(of_rule.iter().all(|finding| finding.point.is_none()), "{rule}: no point");
        let habit = matches!(rule, "pen-tapped" | "eye-level");
        assert!(of_rule.iter().all(|finding| finding.decisive == habit), "{rule}: {of_rule:#?}");
    }
    let mut one_leg = careful_check();
    one_leg.without(|action| writes(action, Field::CheckDown(point(2))));
    assert!(broken(&one_leg).contains(&"both-legs"));
}

#[test]
fn one_look_gives_one_reading_of_a_check() {
    // The flow stays as it is from one reading to the next.
    let steady = || {
        let mut session = careful_check();
        session.always(|facts| facts.steady_s = if facts.powered { 500.0 } else { 1000.0 });
        session
    };
    assert_eq!(broken(&steady()), [""; 0]);
    let mut copied = steady();
    let second = writes_of(&copied, Field::CheckChart(point(2)));
    let look = copied.events[..second]
        .iter()
        .rposition(|moment| matches!(moment.action, Action::Look { at: Sight::Pen, .. }));
    copied.events.remove(look.unwrap());
    assert_eq!(broken(&copied), ["looked-before-writing"]);
}

/// The index of the first entry in a field.
fn writes_of(session: &TestSession, field: Field) -> usize {
    session.events.iter().position(|moment| writes(&moment.action, field)).unwrap()
}

#[test]
fn conditions_without_a_look_are_no_readings() {
    for (sight, rule) in [(Sight::Thermometer, "temperature"), (Sight::Barometer, "pressure")] {
        let mut session = careful();
        session.without(|action| matches!(action, Action::Look { at, .. } if *at == sight));
        let found = session.judged(super::findings);
        assert_eq!(found.len(), 1, "{found:#?}");
        assert_eq!(found[0].rule, "conditions-as-read");
        assert!(found[0].evidence.contains(rule), "{}", found[0].evidence);
    }
}

#[test]
fn readings_of_the_run_are_marked_too() {
    let session = super::careful_run();
    let marks = session.judged(crate::marking::mark);
    for field in [Field::StartChart, Field::EndChart, Field::MeterBefore, Field::MeterAfter] {
        let found = marks.readings.iter().find(|reading| reading.field == field).unwrap();
        assert!(found.score > 0.99, "{found:#?}");
    }
    let mut wrong = super::careful_run();
    wrong.rewrite(Field::EndChart, &format!("{:.1}", chart_of(1.13) + 3.0));
    let marks = wrong.judged(crate::marking::mark);
    let found = marks.readings.iter().find(|reading| reading.field == Field::EndChart).unwrap();
    assert!(found.score < 0.3, "{found:#?}");
}

#[test]
fn a_start_reading_may_be_written_after_the_blower_was_switched_off() {
    let mut session = super::careful_run();
    let from = writes_of(&session, Field::StartChart);
    let off = Action::SwitchTimer { to: TimerSwitch::Off };
    let place = session.events[from..].iter().position(|m| m.action == off).unwrap() + from;
    let mut moment = session.events[place].clone();
    moment.before = moment.after.clone();
    moment.action = session.events[from].action.clone();
    session.events.insert(place + 1, moment);
    session.events.remove(from);
    assert_eq!(broken(&session), [""; 0]);
}
