//! Right ways of working that a stricter rule would mark down, and wrong ones beside them.

use super::broken;
use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::Ending;
use crate::procedure::test_bench::{
    TestSession, careful, careful_check, careful_run, point, writes,
};
use crate::session::action::{Action, Sight};

/// Thunder from this second of a session on.
fn thunder(session: &mut TestSession, from_s: f64) {
    let since = |seconds: f64| (seconds >= from_s).then_some(seconds - from_s);
    for moment in &mut session.events {
        let heard = since(moment.tick.seconds());
        (moment.before.thunder_since_s, moment.after.thunder_since_s) = (heard, heard);
    }
    let end = session.events.last().unwrap().tick.seconds();
    session.end.thunder_since_s = since(end);
}

/// A session that ends so many seconds after thunder, with nothing done since but a look at the sky.
fn idle_for(seconds: f64, ended: Ending) -> Vec<&'static str> {
    let mut session = careful();
    session.events.truncate(6);
    let mut last = session.events[5].clone();
    last.action = Action::Look { at: Sight::Sky, eye_mm: 0.0 };
    last.tick = last.tick.later((seconds * 20.0) as u64);
    let heard = session.events[5].tick.seconds();
    session.events.push(last);
    thunder(&mut session, heard);
    session.end = session.events[6].after.clone();
    session.ended = ended;
    broken(&session).into_iter().filter(|id| *id == "thunder").collect()
}

#[test]
fn staying_on_the_roof_after_thunder_is_found_even_if_nothing_is_done() {
    assert_eq!(idle_for(290.0, Ending::LeftRoof), [""; 0]);
    assert_eq!(idle_for(400.0, Ending::LeftRoof), ["thunder"]);
    assert_eq!(idle_for(400.0, Ending::Signed), ["thunder"]);
    assert_eq!(idle_for(1900.0, Ending::TimeOut), ["thunder"]);
}

#[test]
fn leaving_the_site_after_thunder_and_writing_from_afar_endangers_nobody() {
    let left_after = |seconds: f64| {
        let mut session = careful_run();
        let leaves = |action: &Action| matches!(action, Action::LeaveSite);
        let at = session.events.iter().position(|moment| leaves(&moment.action)).unwrap();
        let heard = session.events[at - 1].tick;
        session.events[at].tick = heard.later((seconds * 20.0) as u64);
        // An entry far from the site, ten minutes later; the trainee is back the next day.
        let mut afar = session.events[at].clone();
        afar.action = Action::Write { field: Field::Remarks, text: "thunder".to_owned() };
        afar.tick = afar.tick.later(20 * 600);
        afar.before = session.events[at].after.clone();
        if let Some(run) = &mut afar.before.run {
            run.back = false;
        }
        for moment in &mut session.events[at + 1..] {
            moment.tick = moment.tick.later(20 * 86_400);
        }
        session.events.insert(at + 1, afar);
        for moment in &mut session.events[at..=at + 1] {
            moment.before.thunder_since_s = Some(moment.tick.seconds_since(heard));
        }
        broken(&session).contains(&"thunder")
    };
    assert!(!left_after(90.0));
    assert!(!left_after(280.0));
    assert!(left_after(400.0));
}

#[test]
fn one_mean_for_a_changing_flow_is_right_on_a_square_root_chart() {
    let mut session = careful_run();
    session.in_run(|run| {
        if let Some(truth) = &mut run.truth {
            truth.lowest_std_m3_min *= 0.8;
        }
    });
    assert_eq!(broken(&session), [""; 0]);
}

/// A run in air that is colder than the work order expected, calculated with the order's averages.
fn with_averages(warmer_k: f64) -> Vec<&'static str> {
    let mut session = careful_run();
    let order = &mut session.setup.work_order;
    (order.run_pressure_mmhg, order.run_temperature_c) = (747.0, 21.0);
    let set_point = session.judged(crate::procedure::set_point::own_set_point).unwrap();
    session.rewrite(Field::SetPoint, &format!("{set_point:.1}"));
    session.rewrite(Field::StartChart, &format!("{set_point:.1}"));
    session.at(|action| writes(action, Field::StartChart), |facts| facts.pen = set_point);
    session.in_run(|run| {
        if let Some(truth) = &mut run.truth {
            truth.mean_temperature_c += warmer_k;
        }
    });
    broken(&session)
}

#[test]
fn averages_of_the_season_serve_for_the_run_within_their_window() {
    assert_eq!(with_averages(-8.0), [""; 0]);
    // In air as cold as that, the flow is outside its range as well.
    assert_eq!(with_averages(-16.0), ["run-air", "validity-judged"]);
}

#[test]
fn minutes_may_come_from_set_times_or_trace_where_they_are_true() {
    let minutes = |ran_min: f64| {
        let mut session = careful_run();
        session.in_run(|run| {
            if run.left {
                run.meter_min -= 30.0;
            }
            if let Some(truth) = &mut run.truth {
                truth.powered_min = ran_min;
            }
        });
        // The meter stopped for half an hour; the minutes are those that were set.
        session.rewrite(Field::MeterAfter, "2410.0");
        broken(&session)
    };
    assert_eq!(minutes(1440.0), [""; 0]);
    assert_eq!(minutes(1410.0), ["run-minutes"]);
}

#[test]
fn a_timer_within_half_an_hour_is_as_ordered() {
    let dial = |ahead_min: f64| {
        let mut session = careful_run();
        session.in_run(|run| {
            if !run.left {
                run.dial_ahead_min = ahead_min;
            }
        });
        broken(&session)
    };
    assert_eq!(dial(-28.0), [""; 0]);
    assert_eq!(dial(31.0), ["timer-as-ordered"]);
}

#[test]
fn a_session_that_only_checks_is_judged_in_its_mounting_and_its_manometer() {
    type Spoil = fn(&mut TestSession);
    let spoils: [(&str, Spoil); 7] = [
        ("nuts-snug", |session| session.at_check(|facts| facts.nut_turns = [8, 8, 8, 5])),
        ("gaskets-seated", |session| session.always(|facts| facts.calibrator_gasket = false)),
        ("leak-check", |session| session.without(|action| matches!(action, Action::Listen))),
        ("manometer-plumb", |session| session.at_check(|facts| facts.tilt_deg = 3.0)),
        ("zero-seen", |session| {
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
        }),
        ("blow-through", |session| session.always(|facts| facts.blown_through = false)),
        ("manometer-zeroed", |session| session.at_check(|facts| facts.zero_in = [0.2, 0.2])),
    ];
    for (rule, spoil) in spoils {
        let mut session = careful_check();
        spoil(&mut session);
        assert_eq!(broken(&session), [rule]);
    }
}

#[test]
fn a_check_is_spoilt_by_what_shifts_the_legs_against_each_other() {
    let decided = |change: &dyn Fn(&mut crate::session::ground_truth::GroundTruth)| {
        let mut session = careful_check();
        session.at_check(change);
        let found = session.judged(super::findings);
        let check = found.into_iter().find(|finding| finding.rule == "check-as-it-runs");
        check.is_some_and(|finding| finding.decisive)
    };
    assert!(!decided(&|facts| facts.zero_in = [0.2, 0.2]), "a shifted scale cancels");
    assert!(decided(&|facts| facts.zero_in = [0.1, -0.1]), "a bubble does not");
    assert!(decided(&|facts| facts.tilt_deg = -12.0));
    assert!(decided(&|facts| facts.faults = vec![crate::fault::Fault::TubeKinked]));
}

#[test]
fn a_tube_that_kinks_after_it_was_smoothed_is_kinked() {
    let mut session = careful();
    session.insert_after(|action| matches!(action, Action::BlowThrough), Action::StraightenTube);
    session.at_readings(|facts| facts.faults = vec![crate::fault::Fault::TubeKinked]);
    assert!(broken(&session).contains(&"tube-clear"));
}

#[test]
fn points_must_cover_the_range_and_only_a_worthless_line_decides() {
    let spread = |lowest: f64, target: f64| {
        let mut session = careful();
        session.setup.work_order.target_flow_std_m3_min = target;
        session.always(|facts| {
            let flow = &mut facts.calibrator_flow_std_m3_min;
            *flow = flow.max(lowest);
        });
        session.redo_sums();
        let found = session.judged(super::findings);
        let found = found.into_iter().find(|finding| finding.rule == "points-spread");
        found.map(|finding| finding.decisive)
    };
    assert_eq!(spread(1.12, 1.3), None);
    assert_eq!(spread(1.2, 1.3), Some(false));
    assert_eq!(spread(1.3, 1.2), Some(true), "the target lies outside");
    assert_eq!(spread(1.55, 1.6), Some(true), "they crowd together");
}

#[test]
fn a_flow_that_is_not_settled_costs_marks_and_decides_nothing() {
    let mut session = careful();
    session.at_readings(|facts| facts.steady_s = 20.0);
    let found = session.judged(super::findings);
    let settled: Vec<_> = found.iter().filter(|one| one.rule == "two-minutes").collect();
    assert_eq!(settled.len(), 7);
    assert!(settled.iter().all(|finding| !finding.decisive));
}

#[test]
fn a_missing_sum_of_legs_is_told_at_its_point() {
    let mut session = careful();
    session.without(|action| writes(action, Field::DeltaH(point(2))));
    assert_eq!(broken(&session), ["legs-added"]);
    assert!(PointNumber::all().count() > 2);
}
