//! The marks of whole sessions: careful ones, and those with one bad habit.

use super::{FaultVerdict, MarkPartName, Standing, mark};
use crate::fault::Fault;
use crate::field_book::Field;
use crate::noise::Stream;
use crate::procedure::Ending;
use crate::procedure::test_bench::{TestSession, careful, delta_h_of, is_reading, point, writes};
use crate::rig::parts::{BlowerPlug, Nut, RigPart};
use crate::session::action::{Action, FaultKind, FaultPlace, Response, Sight};
use crate::session::ground_truth::GroundTruth;

/// The fraction of its weight that a part earned, 0 to 1.
fn share(marks: &super::Marks, name: MarkPartName) -> f64 {
    let part = marks.parts.iter().find(|part| part.name == name).unwrap();
    part.got / part.weight
}

/// A careful session with the scatter of honest readings: 0.02 in at a leg, 0.2 divisions at the
/// pen.
fn with_reading_noise(seed: u64) -> TestSession {
    let mut session = careful();
    let mut stream = Stream::new(seed, "reader");
    let mut moved = Vec::new();
    for moment in &session.events {
        if let Action::Write { field, text } = &moment.action
            && is_reading(&moment.action)
        {
            let value: f64 = text.parse().unwrap();
            let text = match field {
                Field::Chart(_) => {
                    format!("{:.1}", ((value + 0.2 * stream.normal()) * 2.0).round() / 2.0)
                }
                _ => format!("{:.2}", ((value + 0.02 * stream.normal()) * 20.0).round() / 20.0),
            };
            moved.push((*field, text));
        }
    }
    for (field, text) in &moved {
        session.rewrite(*field, text);
    }
    for number in 1..=7 {
        let leg = |wanted: Field| {
            let (_, text) = moved.iter().find(|(field, _)| *field == wanted).unwrap();
            text.parse::<f64>().unwrap()
        };
        let sum = leg(Field::Up(point(number))) + leg(Field::Down(point(number)));
        session.rewrite(Field::DeltaH(point(number)), &format!("{sum:.2}"));
    }
    session.redo_sums();
    session
}

#[test]
fn perfect_session_gets_everything() {
    let marks = careful().judged(mark);
    assert!(marks.total > 99.9, "{:#?}", marks.parts);
    assert!(marks.passed && marks.gate.is_none());
    assert_eq!(marks.standing, Standing::Worked);
    assert!(marks.set_point_flow_error_pct.unwrap().abs() < 0.3);
    assert_eq!(marks.readings.len(), 23);
}

#[test]
fn careful_reader_with_honest_noise_gets_ninety() {
    for seed in 1..=200 {
        let marks = with_reading_noise(seed).judged(mark);
        let error = marks.set_point_flow_error_pct.unwrap();
        assert!(marks.passed, "seed {seed}: {} {:#?}", marks.total, marks.findings);
        assert!(marks.total >= 90.0, "seed {seed}: {} {:#?}", marks.total, marks.parts);
        assert!(error.abs() < 2.0, "seed {seed}: {error} %");
    }
}

/// A habit, the rule that decides because of it, and the session with this habit.
type Habit = (&'static str, &'static str, fn(&mut TestSession));

#[test]
fn each_grave_habit_is_not_yet() {
    let habits: [Habit; 8] = [
        ("skips warm-up", "warm-up", |session| {
            session.always(|facts| facts.running_s = facts.running_s.min(130.0));
        }),
        ("never zeroes", "manometer-zeroed", |session| {
            // The legs stand apart; a scale that is merely shifted would cancel in their sum.
            session.always(|facts| facts.zero_in = [0.2, -0.1]);
        }),
        ("leaves the motor on its controller", "motor-on-line", |session| {
            session.at_readings(|facts| facts.blower_plug = BlowerPlug::Controller);
        }),
        ("reads one leg", "both-legs", |session| {
            for number in 1..=7 {
                let half = delta_h_of(1.0 + f64::from(number) * 0.1) / 2.0;
                session.without(|action| writes(action, Field::Down(point(number))));
                session.rewrite(Field::DeltaH(point(number)), &format!("{half:.2}"));
            }
            session.redo_sums();
        }),
        ("uses any certificate", "certificate-serial", |session| {
            session.setup.rig.calibrator_serial = "OC-0001".to_owned();
        }),
        ("does not tap", "pen-tapped", |session| session.always(|facts| facts.taps = 0)),
        ("reads at a slant", "eye-level", |session| {
            let leg = |action: &Action| matches!(action, Action::Look { at: Sight::LeftLeg, .. });
            session.at(leg, |facts| facts.eye_mm = 60.0);
        }),
        ("sees faults everywhere", "false-alarms", |session| {
            for place in [FaultPlace::Tube, FaultPlace::Calibrator, FaultPlace::Timer] {
                session.report(place, Response::Noted);
            }
        }),
    ];
    for (name, rule, spoil) in habits {
        let mut session = careful();
        spoil(&mut session);
        let marks = session.judged(mark);
        assert!(!marks.passed, "{name}");
        let gate = marks.gate.unwrap();
        assert!(gate.decisive && !gate.critical, "{name}: {gate:#?}");
        assert_eq!(gate.rule, rule, "{name}");
    }
}

#[test]
fn one_small_slip_still_passes() {
    let mut session = careful();
    session.without(|action| writes(action, Field::Down(point(2))));
    session.without(|action| matches!(action, Action::BlowThrough | Action::CapPen));
    session.always(|facts| facts.blown_through = false);
    session.end.capped = false;
    let marks = session.judged(mark);
    assert!(marks.passed, "{} {:#?}", marks.total, marks.findings);
    assert!(marks.total < 99.0);
}

/// Whether an action lifts the hold-down frame.
fn lifts_frame(action: &Action) -> bool {
    matches!(action, Action::Take { part: RigPart::Frame })
}

#[test]
fn critical_finding_fails_whatever_the_rest() {
    let mut session = careful();
    session.at(lifts_frame, |facts| facts.powered = true);
    let marks = session.judged(mark);
    assert!(!marks.passed && marks.total > 75.0);
    assert!(marks.gate.as_ref().unwrap().critical);
    assert!(share(&marks, MarkPartName::Safety) < 1e-9);
}

#[test]
fn reading_is_worth_less_the_farther_it_is() {
    let worth = |off: f64| {
        let mut session = careful();
        let seen = crate::procedure::test_bench::chart_of(1.4);
        session.at(
            |action| writes(action, Field::Chart(point(4))),
            |facts: &mut GroundTruth| {
                facts.pen = seen;
            },
        );
        session.rewrite(Field::Chart(point(4)), &format!("{:.2}", seen + off));
        let marks = session.judged(mark);
        let found = marks.readings.iter().find(|r| r.field == Field::Chart(point(4))).cloned();
        found.unwrap().score
    };
    assert!((worth(0.45) - 1.0).abs() < 1e-9);
    // One division beyond the allowed half loses half of the share for what was visible.
    assert!((worth(1.5) - (0.75 * 0.5 + 0.25 * 0.875)).abs() < 0.01, "{}", worth(1.5));
    assert!(worth(6.0) < 1e-9);
}

#[test]
fn faults_are_found_missed_and_put_right() {
    let fault = Fault::ThermometerInSun { by_k: 6.0 };
    let verdict = |spoil: &dyn Fn(&mut TestSession)| {
        let mut session = careful();
        session.events[0].before.faults = vec![fault];
        spoil(&mut session);
        let marks = session.judged(mark);
        (marks.faults[0].verdict, share(&marks, MarkPartName::Judgement))
    };
    let report = |response| {
        move |session: &mut TestSession| {
            session.report_kind(FaultKind::ThermometerInSun, response);
        }
    };
    let (open, part) =
        verdict(&|session| session.report(FaultPlace::Thermometer, Response::Repaired));
    let mut mistaken = careful();
    mistaken.events[0].before.faults = vec![Fault::ManometerBubble { length_mm: 5.0 }];
    mistaken.report_kind(FaultKind::ManometerWrongFluid, Response::Rejected);
    let wrong = mistaken.judged(mark).faults;
    assert_eq!((wrong.len(), wrong[0].verdict), (1, FaultVerdict::WrongCause));
    assert_eq!(open, FaultVerdict::CauseOpen);
    let (found, whole) = verdict(&report(Response::Repaired));
    assert!(part < whole);
    assert_eq!(found, FaultVerdict::Found);
    assert!((whole - 1.0).abs() < 1e-9);
    let (noted, some) = verdict(&report(Response::Noted));
    assert_eq!(noted, FaultVerdict::WrongResponse);
    let (silent, _) = verdict(&|_| ());
    assert_eq!(silent, FaultVerdict::PutRightSilently);
    let in_sun =
        |session: &mut TestSession| session.always(|facts| facts.thermometer_shaded = false);
    let (missed, least) = verdict(&in_sun);
    assert_eq!(missed, FaultVerdict::Missed);
    assert!(whole > some && some > least);
    // Saying so does not move anything into the shade.
    let (said, nothing) = verdict(&|session| {
        in_sun(session);
        session.report_kind(FaultKind::ThermometerInSun, Response::Repaired);
    });
    assert_eq!(said, FaultVerdict::OnlySaid);
    assert!((nothing - least).abs() < 1e-9, "{nothing} for a word, {least} for none");
}

#[test]
fn what_is_done_after_the_last_reading_or_makes_it_worse_puts_nothing_right() {
    let verdict = |fault: Fault, response, spoil: &dyn Fn(&mut TestSession)| {
        let mut session = careful();
        session.events[0].before.faults = vec![fault];
        spoil(&mut session);
        session.report_kind(fault.kind(), response);
        session.judged(mark).faults[0].verdict
    };
    let loose = Fault::NutLoose { nut: Nut::ALL[1], leak_mm2: 15.0 };
    let said = Response::Repaired;
    assert_eq!(verdict(loose, said, &|_| ()), FaultVerdict::Found);
    let leaks = |session: &mut TestSession| session.always(|facts| facts.leak_mm2 = 15.0);
    assert_eq!(verdict(loose, said, &leaks), FaultVerdict::OnlySaid);
    let zero = Fault::PenZeroOff { divisions: -3.0 };
    let below = |session: &mut TestSession| session.always(|facts| facts.pen_at_rest -= 5.0);
    let of_pen = |response| verdict(zero, response, &below);
    assert_eq!(of_pen(Response::Repaired), FaultVerdict::OnlySaid, "nobody touched the screw");
    // The chart readings are written as those of a fault-free pen.
    assert_eq!(of_pen(Response::Corrected), FaultVerdict::Found);
    let wet = Fault::TubeWet { height_in: 0.5 };
    assert_eq!(
        verdict(wet, Response::Repaired, &|_| ()),
        FaultVerdict::OnlySaid,
        "drained by nobody"
    );
}

#[test]
fn leak_that_r_cannot_see_must_not_be_accepted() {
    // A leak past the calibrator: the pen shows more flow than the calibrator does.
    let leaky = || {
        let mut session = careful();
        for number in 1..=7 {
            session.move_pen(point(number), 2.0 + 0.4 * f64::from(number));
        }
        session.redo_sums();
        session
    };
    let accepted = leaky().judged(mark);
    assert_eq!(accepted.gate.as_ref().unwrap().rule, "decision-sound");
    assert!(accepted.findings.iter().any(|finding| finding.rule == "last-line"));
    assert!(accepted.findings.iter().all(|finding| finding.rule != "correlation"));
    let mut refused = leaky();
    refused.refuse();
    let refused = refused.judged(mark);
    assert!(refused.passed, "{:#?}", refused.gate);
}

#[test]
fn leaving_before_a_thunderstorm_is_no_loss_and_running_away_is() {
    let left = |thunder: Option<f64>| {
        let mut session = careful();
        session.events.truncate(30);
        session.end = session.events[29].after.clone();
        session.end.thunder_since_s = thunder;
        session.ended = Ending::LeftRoof;
        session.judged(mark)
    };
    let fled = left(Some(20.0));
    assert_eq!(fled.standing, Standing::RightlyStopped);
    assert!(fled.passed, "{:#?}", fled.findings);
    let ran = left(None);
    assert_eq!(ran.standing, Standing::BrokenOff);
    assert!(!ran.passed && ran.total < 60.0);
}

#[test]
fn thunder_at_any_moment_costs_no_mark() {
    for cut in (20..careful().events.len()).step_by(3) {
        let mut session = careful();
        session.events.truncate(cut);
        session.end = session.events[cut - 1].after.clone();
        session.end.thunder_since_s = Some(20.0);
        session.ended = Ending::LeftRoof;
        let marks = session.judged(mark);
        assert_eq!(marks.standing, Standing::RightlyStopped, "after {cut} actions");
        assert!(marks.findings.is_empty(), "after {cut} actions: {:#?}", marks.findings);
        let lost = marks.of - marks.total;
        assert!(marks.passed && lost < 0.1, "after {cut} actions: {} of {}", marks.total, marks.of);
        assert!(marks.of <= 45.0, "after {cut} actions: of {}", marks.of);
    }
}

#[test]
fn empty_session_is_not_yet_and_finite() {
    let mut session = careful();
    session.events.truncate(1);
    session.end = session.events[0].after.clone();
    let marks = session.judged(mark);
    assert!(!marks.passed && marks.total.is_finite());
    assert!(marks.total < 50.0, "{}", marks.total);
}

#[test]
fn nonsense_in_the_book_is_no_panic() {
    let mut session = careful();
    for nonsense in ["", "nan", "-1e300", "1e300", "0", "½½", "abc"] {
        for moment in &mut session.events {
            if let Action::Write { text, .. } = &mut moment.action {
                nonsense.clone_into(text);
            }
        }
        let marks = session.judged(mark);
        assert!(marks.total.is_finite() && !marks.passed, "{nonsense}");
        assert!(marks.set_point_flow_error_pct.is_none_or(f64::is_finite), "{nonsense}");
    }
}

#[test]
fn units_and_missing_entries_cost_the_record() {
    let mut session = careful();
    session.rewrite(Field::Pressure, "996");
    session.without(|action| writes(action, Field::Correlation));
    let marks = session.judged(mark);
    let record = marks.parts.iter().find(|part| part.name == MarkPartName::Record).unwrap();
    assert!(record.reasons.iter().any(|reason| reason.contains("hPa")), "{:?}", record.reasons);
    assert!(record.reasons.iter().any(|reason| reason.contains("correlation")));
    assert!(share(&marks, MarkPartName::Record) < 0.8);
}

#[test]
fn marks_are_written_with_stable_names() {
    let mut session = careful();
    session.at(lifts_frame, |facts| facts.powered = true);
    session.report(FaultPlace::FlowController, Response::Noted);
    let text = ron::to_string(&session.judged(mark)).unwrap();
    for name in [
        "set_point_flow_error_pct",
        "pass_mark",
        "safety",
        "critical",
        "strip",
        "leg_up",
        "false_alarm",
        "flow_controller",
        "dead-before-hands",
    ] {
        assert!(text.contains(name), "{name}");
    }
}

#[test]
fn a_report_of_what_was_never_looked_at_is_a_guess() {
    let blind = |place| {
        move |session: &mut TestSession| {
            session.report(place, Response::Repaired);
            session.without(|action| {
                matches!(action, Action::Look { at: Sight::Tube | Sight::Manometer, .. })
            });
            session.without(|action| {
                matches!(action, Action::ConnectTube | Action::DisconnectTube | Action::BlowThrough)
            });
        }
    };
    let mut sound = careful();
    blind(FaultPlace::Tube)(&mut sound);
    let marks = sound.judged(mark);
    assert_eq!(marks.faults.len(), 1, "{:?}", marks.faults);
    assert_eq!(marks.faults[0].verdict, FaultVerdict::FalseAlarm);
    assert!(share(&marks, MarkPartName::Judgement) < 0.9, "{:#?}", marks.parts);

    let mut kinked = careful();
    blind(FaultPlace::Tube)(&mut kinked);
    kinked.always(|facts| facts.faults = vec![Fault::TubeKinked]);
    let marks = kinked.judged(mark);
    assert_eq!(marks.faults[0].verdict, FaultVerdict::Guessed);
    assert!(share(&marks, MarkPartName::Judgement) < 0.5);
}

#[test]
fn what_was_never_reached_earns_nothing() {
    let mut session = careful();
    session.events.retain(|moment| matches!(moment.action, Action::Sign));
    let marks = session.judged(mark);
    assert_eq!(marks.standing, Standing::BrokenOff);
    assert!(marks.total < 1e-9, "{:#?}", marks.parts);

    let mut opened = careful();
    opened.without(|action| {
        let done = matches!(action, Action::UnplugSampler | Action::OpenLid | Action::Sign);
        !done && !lifts_frame(action)
    });
    let marks = opened.judged(mark);
    let safety = marks.parts.iter().find(|part| part.name == MarkPartName::Safety).unwrap();
    assert!((marks.total - safety.got).abs() < 1e-9, "{:#?}", marks.parts);
    assert!(safety.got > 0.0 && safety.got <= safety.weight / 2.0);
}

/// The careful session, left before a thunderstorm after so many actions.
fn fled_after(actions: usize) -> TestSession {
    let mut session = careful();
    session.events.truncate(actions);
    session.end = session.events[actions - 1].after.clone();
    session.end.thunder_since_s = Some(20.0);
    session.ended = Ending::LeftRoof;
    session
}

#[test]
fn what_was_rightly_not_reached_is_left_out_of_the_total() {
    let fled = fled_after(30).judged(mark);
    assert_eq!(fled.standing, Standing::RightlyStopped);
    let assessed = |name| fled.parts.iter().any(|part| part.name == name && part.assessed);
    assert!(assessed(MarkPartName::Safety) && assessed(MarkPartName::Procedure));
    for name in [MarkPartName::Readings, MarkPartName::Fit, MarkPartName::Record] {
        assert!(!assessed(name), "{name:?}");
    }
    assert!((fled.of - 45.0).abs() < 1e-9, "{}", fled.of);
    assert!((fled.needed - 0.75 * 45.0).abs() < 1e-9, "{}", fled.needed);
    assert!((fled.percent() - 100.0 * fled.total / 45.0).abs() < 1e-9);
    // Without a hand in the sampler, safety was not shown either.
    let early = fled_after(10).judged(mark);
    assert!((early.of - 30.0).abs() < 1e-9, "{}", early.of);
    // Who works to the end is marked of a hundred.
    assert!((careful().judged(mark).of - 100.0).abs() < 1e-9);
}

#[test]
fn a_scenario_may_ask_for_parts_that_must_have_been_assessed() {
    let mut session = fled_after(30);
    assert!(session.judged(mark).passed);
    session.setup.terms.assessed = vec![MarkPartName::Procedure, MarkPartName::Readings];
    let marks = session.judged(mark);
    assert!(!marks.passed && marks.gate.is_none());
    assert_eq!(marks.unassessed, [MarkPartName::Readings]);
    let mut worked = careful();
    worked.setup.terms.assessed = vec![MarkPartName::Readings];
    assert!(worked.judged(mark).passed);
}

#[test]
fn the_share_of_what_was_assessed_is_compared_with_the_pass_mark() {
    let mut session = fled_after(30);
    session.always(|facts| facts.sampler_cord_in = true);
    session.without(|action| matches!(action, Action::Look { at: Sight::RoofEdge, .. }));
    let marks = session.judged(mark);
    assert!(marks.total < 75.0 && marks.total > marks.needed, "{} of {}", marks.total, marks.of);
    assert!(marks.passed, "{:#?}", marks.gate);
    session.setup.terms.pass_mark = 99.0;
    assert!(!session.judged(mark).passed);
}
