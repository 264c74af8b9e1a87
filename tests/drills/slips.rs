//! Answers that follow from a typical slip are recognised, and the slip is named.

use sim_core::drill::{Answer, Asked, DrillKind, DrillSheet, DrillSlip, PointSheet, Question};
use sim_core::rig::parts::Leg;
use sim_core::session::action::BarometerReference;

use super::drawn::{number, truth};

/// Draws of each kind.
const DRAWS: u32 = 120;

/// What is made of an answer with a number.
fn slip(question: &Question, answer: f64) -> Option<DrillSlip> {
    let judged = question.judge(&Answer::Number(answer)).unwrap();
    let error = judged.error.unwrap();
    let right = number(question);
    let counted = if question.kind() == DrillKind::PointSums {
        100.0 * (answer / right - 1.0)
    } else {
        answer - right
    };
    assert!((error - counted).abs() < 1e-9, "{error} is told and not {counted}");
    assert!(judged.slip.is_none() || !judged.right, "a right answer is no slip");
    judged.slip
}

/// How often an answer that follows from a slip is named as that slip, of how many.
fn named(
    kind: DrillKind,
    expected: DrillSlip,
    leads_to: impl Fn(&Question) -> Option<f64>,
) -> (u32, u32) {
    let (mut found, mut of) = (0, 0);
    for at in 0..DRAWS {
        let question = Question::draw(kind, 21, at).unwrap();
        let Some(answer) = leads_to(&question) else { continue };
        if question.kind().standard().allows(answer - number(&question)) {
            continue;
        }
        of += 1;
        found += u32::from(slip(&question, answer) == Some(expected));
    }
    (found, of)
}

#[track_caller]
fn recognised(kind: DrillKind, expected: DrillSlip, leads_to: impl Fn(&Question) -> Option<f64>) {
    let (found, of) = named(kind, expected, leads_to);
    assert!(of >= 8, "{kind} {expected:?}: only {of} questions where it matters");
    // Here and there two slips lead to the same answer, and the likelier one is named.
    assert!(f64::from(found) >= 0.9 * f64::from(of), "{kind} {expected:?}: {found} of {of}");
}

fn seen_in(question: &Question) -> f64 {
    let Asked::Leg(leg) = question.asked() else { panic!("a leg is asked for") };
    question.looks()[0].view.manometer.leg(*leg).meniscus_in
}

#[test]
fn slips_at_a_leg_are_named() {
    let kind = DrillKind::Leg;
    recognised(kind, DrillSlip::EyeHeight, |question| Some(seen_in(question)));
    let level = |question: &Question| question.looks()[0].view.eye_mm.abs() < 1.0;
    recognised(kind, DrillSlip::UpperRim, |question| {
        let Asked::Leg(leg) = question.asked() else { return None };
        level(question).then(|| question.looks()[0].view.manometer.leg(*leg).rim_in)
    });
    recognised(kind, DrillSlip::NeighbouringDivision, |question| {
        level(question).then(|| number(question) - 0.1)
    });
    recognised(kind, DrillSlip::WrongNumber, |question| Some(number(question) + 1.0));
    recognised(kind, DrillSlip::Sign, |question| Some(-number(question)));
    recognised(kind, DrillSlip::WrongDirection, |question| {
        let under = number(question).floor();
        // Midway between two numbers both directions lead to the same mark; near a number, nowhere new.
        let beyond = number(question) - under;
        // From zero, the wrong direction is the wrong sign.
        let clear = (0.3..0.42).contains(&beyond) || (0.6..0.7).contains(&beyond);
        (clear && under.abs() > 0.5).then_some(2.0 * under - number(question))
    });
}

#[test]
fn slips_with_both_legs_are_named() {
    let kind = DrillKind::Difference;
    let legs = |question: &Question| {
        let [left, right] = [Leg::Left, Leg::Right].map(|leg| {
            let at = usize::from(leg == Leg::Right);
            let view = &question.looks()[at].view;
            view.manometer.leg(leg).meniscus_in + view.eye_mm * 6.0 / 350.0 / 25.4
        });
        (left, right)
    };
    recognised(kind, DrillSlip::OneLeg, |question| Some(legs(question).0.abs()));
    recognised(kind, DrillSlip::OneLeg, |question| Some(legs(question).1.abs()));
    recognised(kind, DrillSlip::OneLegDoubled, |question| Some(2.0 * legs(question).1.abs()));
    recognised(kind, DrillSlip::LegsSubtracted, |question| {
        let (left, right) = legs(question);
        Some((left.abs() - right.abs()).abs())
    });
    recognised(kind, DrillSlip::EyeHeight, |question| {
        let [left, right] = [0, 1].map(|at| &question.looks()[at].view);
        let seen = left.manometer.left.meniscus_in - right.manometer.right.meniscus_in;
        Some(seen)
    });
}

#[test]
fn slips_at_pen_barometer_and_thermometer_are_named() {
    for (kind, mark, numbers) in [
        (DrillKind::Pen, 1.0, 10.0),
        (DrillKind::Barometer, 1.0, 10.0),
        (DrillKind::Thermometer, 1.0, 5.0),
    ] {
        recognised(kind, DrillSlip::WrongNumber, |question| Some(number(question) - numbers));
        let clear = |question: &Question| {
            let beyond = number(question).rem_euclid(numbers) / numbers;
            (0.3..0.45).contains(&beyond) || (0.6..0.7).contains(&beyond)
        };
        recognised(kind, DrillSlip::NeighbouringDivision, |question| {
            clear(question).then(|| number(question) + mark)
        });
        if kind != DrillKind::Thermometer {
            recognised(kind, DrillSlip::WrongDirection, |question| {
                let under = (number(question) / numbers).floor() * numbers;
                clear(question).then_some(2.0 * under - number(question))
            });
        }
    }
    recognised(DrillKind::Barometer, DrillSlip::SeaLevel, |question| {
        let seen = question.looks()[0].view.barometer;
        (seen.set_to == Some(BarometerReference::SeaLevel)).then_some(seen.pointer_mmhg)
    });
    recognised(DrillKind::Thermometer, DrillSlip::Sign, |question| Some(-number(question)));
    recognised(DrillKind::Thermometer, DrillSlip::HalfTakenForWhole, |question| {
        let five = (number(question) / 5.0).floor() * 5.0;
        let beyond = number(question) - five;
        (1.3..4.2).contains(&beyond).then_some(five + 2.0 * beyond)
    });
}

#[test]
fn slips_after_a_run_are_named() {
    let meter = DrillKind::ElapsedTime;
    recognised(meter, DrillSlip::TenthsAsMinutes, |question| Some(10.0 * number(question)));
    recognised(meter, DrillSlip::TenthsLeftOut, |question| {
        (number(question).fract() > 0.35).then(|| number(question).floor())
    });
    recognised(meter, DrillSlip::DigitsExchanged, |question| {
        let tenths = (10.0 * number(question)).round() as u64;
        let (one, ten) = (tenths / 100 % 10, tenths / 1000 % 10);
        let exchanged = tenths - one * 100 - ten * 1000 + one * 1000 + ten * 100;
        (one != ten).then_some(exchanged as f64 / 10.0)
    });
}

#[test]
fn slips_at_the_chart_of_a_run_are_named() {
    let mut found = [0, 0];
    for at in 0..24 {
        let question = Question::draw(DrillKind::ChartMean, 21, at).unwrap();
        let run = question.looks()[0].view.run.as_deref().unwrap();
        let trace = run.kept_chart.as_deref().unwrap();
        let hours: Vec<f64> = (0..24)
            .filter_map(|hour| {
                let middle = f64::from(hour) + 0.5;
                let near = |&&(at, pen): &&(f64, f64)| (at - middle).abs() < 0.06 && pen > 10.0;
                trace.iter().find(near).map(|&(_, pen)| pen)
            })
            .collect();
        let mean = hours.iter().sum::<f64>() / hours.len() as f64;
        assert!((mean - number(&question)).abs() < 1e-9, "question {at}: {mean}");
        let empty = hours.iter().sum::<f64>() / 24.0;
        if hours.len() < 24 {
            found[0] += 1;
            assert_eq!(slip(&question, empty), Some(DrillSlip::EmptyHours), "question {at}");
        }
        let standard = DrillKind::ChartMean.standard();
        if !standard.allows(hours[0] - mean) {
            found[1] += 1;
            let named = slip(&question, hours[0]);
            assert_eq!(named, Some(DrillSlip::FirstHour), "question {at}");
        }
    }
    assert!(found[0] >= 3, "{} charts of 24 have hours without a trace", found[0]);
    assert!(found[1] >= 3, "{} charts of 24 are not level", found[1]);
}

#[test]
fn slips_in_the_calculations_are_named() {
    let sheet = |question: &Question| match question.sheet() {
        Some(DrillSheet::Point(sheet)) => sheet.clone(),
        _ => panic!("a point is asked for"),
    };
    let flow = |sheet: &PointSheet, delta_h: f64, ratio: f64| {
        ((delta_h * ratio).sqrt() - sheet.standard.intercept) / sheet.standard.slope
    };
    let ratio =
        |sheet: &PointSheet| sheet.pressure_mmhg / 760.0 * 298.0 / (sheet.temperature_c + 273.15);
    let both = |sheet: &PointSheet| sheet.rise_in + sheet.fall_in;
    type Wrong<'a> = &'a dyn Fn(&PointSheet) -> f64;
    let wrong: [(DrillSlip, Wrong<'_>); 6] = [
        (DrillSlip::OneLeg, &|sheet| flow(sheet, sheet.rise_in, ratio(sheet))),
        (DrillSlip::RootLeftOut, &|sheet| {
            (both(sheet) * ratio(sheet) - sheet.standard.intercept) / sheet.standard.slope
        }),
        (DrillSlip::Celsius, &|sheet| {
            flow(sheet, both(sheet), sheet.pressure_mmhg / 760.0 * 298.0 / sheet.temperature_c)
        }),
        (DrillSlip::ActualPair, &|sheet| {
            ((both(sheet) * ratio(sheet)).sqrt() - sheet.actual.intercept) / sheet.actual.slope
        }),
        (DrillSlip::NoAirCorrection, &|sheet| flow(sheet, both(sheet), 1.0)),
        (DrillSlip::InterceptLeftOut, &|sheet| {
            (both(sheet) * ratio(sheet)).sqrt() / sheet.standard.slope
        }),
    ];
    for (expected, leads_to) in wrong {
        let (mut found, mut of) = (0, 0);
        for at in 0..DRAWS {
            let question = Question::draw(DrillKind::PointSums, 21, at).unwrap();
            if *question.asked() != Asked::PointFlow {
                continue;
            }
            let sheet = sheet(&question);
            let right = flow(&sheet, both(&sheet), ratio(&sheet));
            assert!((right - number(&question)).abs() < 1e-6, "{right} and {}", number(&question));
            let answer = leads_to(&sheet);
            if (answer / right - 1.0).abs() < 0.0055 {
                continue;
            }
            of += 1;
            found += u32::from(slip(&question, answer) == Some(expected));
        }
        assert!(of >= 8, "{expected:?}: only {of} questions where it matters");
        assert!(f64::from(found) >= 0.85 * f64::from(of), "{expected:?}: {found} of {of}");
    }
}

/// What is made of a choice.
fn chosen(question: &Question, name: &str) -> (bool, Option<DrillSlip>) {
    let judged = question.judge(&Answer::Choice(name.to_owned())).unwrap();
    assert_eq!(judged.error, None);
    (judged.right, judged.slip)
}

#[test]
fn wrong_choices_are_named() {
    for kind in [DrillKind::WaterAtRest, DrillKind::PenAtRest] {
        for at in 0..12 {
            let question = Question::draw(kind, 21, at).unwrap();
            let rests = truth(&question) == Answer::Choice("at-rest".to_owned());
            let (wrong, slip) = if rests {
                ("moving", DrillSlip::TooLate)
            } else {
                ("at-rest", DrillSlip::TooSoon)
            };
            assert_eq!(chosen(&question, wrong), (false, Some(slip)), "{kind} {at}");
        }
    }
    for at in 0..60 {
        let question = Question::draw(DrillKind::Station, 21, at).unwrap();
        let Answer::Choice(right) = truth(&question) else { panic!("a choice is asked for") };
        assert_eq!(chosen(&question, &right), (true, None));
        let other =
            question.choices().into_iter().find(|name| *name != right && *name != "nothing");
        let expected =
            if right == "nothing" { DrillSlip::FalseAlarm } else { DrillSlip::WrongPart };
        assert_eq!(chosen(&question, other.unwrap()), (false, Some(expected)), "{at}");
        if right != "nothing" {
            assert_eq!(chosen(&question, "nothing"), (false, Some(DrillSlip::Missed)), "{at}");
        }
    }
}

/// Serial, date and original decide, by the papers alone; each flaw is named.
#[test]
fn the_valid_certificate_is_the_only_one_without_a_flaw() {
    use std::collections::BTreeSet;
    let mut named = BTreeSet::new();
    for at in 0..DRAWS {
        let question = Question::draw(DrillKind::Certificate, 21, at).unwrap();
        let Asked::ValidCertificate { plate, today } = question.asked() else { panic!() };
        let papers = question.papers();
        for (index, paper) in papers.certificates.iter().enumerate() {
            let days = today.days_since(paper.date);
            let expected = if paper.serial != *plate {
                Some(DrillSlip::OtherCalibrator)
            } else if days < 0 {
                Some(DrillSlip::DatedAhead)
            } else if days > 366 {
                Some(DrillSlip::Expired)
            } else if paper.is_copy() {
                Some(DrillSlip::FaultyCopy)
            } else {
                None
            };
            let (right, slip) = chosen(&question, &(index + 1).to_string());
            assert_eq!((right, slip), (expected.is_none(), expected), "{at}: {paper:?}");
            named.extend(slip);
        }
    }
    assert_eq!(named.len(), 4, "{named:?}");
}

#[test]
fn an_answer_of_the_wrong_form_is_refused_and_says_what_to_answer() {
    let leg = Question::draw(DrillKind::Leg, 1, 0).unwrap();
    let error = leg.judge(&Answer::Choice("3".to_owned())).unwrap_err();
    assert!(error.contains("answer with a number"), "{error}");
    assert!(leg.judge(&Answer::Number(f64::NAN)).is_err());
    let line = Question::draw(DrillKind::Line, 1, 0).unwrap();
    for answer in [Answer::Number(3.0), Answer::Choice("point 9".to_owned())] {
        let error = line.judge(&answer).unwrap_err();
        assert!(error.contains("accept, range, point-1"), "{error}");
    }
}
