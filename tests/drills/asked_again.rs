//! What can be done to see better, and readings that are had in words.

use sim_core::drill::{Answer, DrillError, DrillKind, DrillMove, DrillSeries, Question};
use sim_core::session::action::BarometerReference;
use sim_core::session::journal::NullSink;

use super::drawn::number;

fn begun(kind: DrillKind, seed: u64) -> DrillSeries {
    DrillSeries::begin(kind, seed, 1_000, Box::new(NullSink)).unwrap()
}

/// The reading that the marks give to whoever counts them.
fn counted(question: &Question) -> f64 {
    let seen = question.against_scale()[0];
    seen.number + (f64::from(seen.marks_past) + if seen.midway { 0.5 } else { 0.0 }) * seen.mark
}

#[test]
fn a_level_eye_reads_every_leg_right() {
    for seed in 0..40 {
        let mut series = begun(DrillKind::Leg, seed);
        let looked = counted(series.question());
        series.make(DrillMove::Eye { eye_mm: 0.0 }).unwrap();
        let question = series.question();
        assert!(question.looks()[0].view.eye_mm.abs() < 1e-9);
        let level = counted(question);
        assert!((level - number(question)).abs() <= 0.025 + 1e-9, "seed {seed}");
        let judged = series.answer(Answer::Number(level), 5.0, 1_005).unwrap();
        assert!(judged.right, "seed {seed}: {judged:?}");
        assert!((looked - level).abs() < 0.2, "seed {seed}: parallax is at most a division");
    }
}

#[test]
fn a_barometer_at_sea_level_is_set_to_the_station_first() {
    let mut set = 0;
    for seed in 0..40 {
        let mut series = begun(DrillKind::Barometer, seed);
        let found = series.question().looks()[0].view.barometer;
        series.make(DrillMove::SetBarometer { to: BarometerReference::Station }).unwrap();
        let station = counted(series.question());
        assert!(series.answer(Answer::Number(station), 4.0, 0).unwrap().right, "seed {seed}");
        set += u32::from(found.set_to == Some(BarometerReference::SeaLevel));
    }
    assert!(set > 3, "{set} of 40 were found at sea level");
}

#[test]
fn what_cannot_be_done_is_refused_and_changes_nothing() {
    let mut pen = begun(DrillKind::Pen, 1);
    for made in [
        DrillMove::Eye { eye_mm: 10.0 },
        DrillMove::SetBarometer { to: BarometerReference::Station },
    ] {
        assert!(matches!(pen.make(made), Err(DrillError::Refused(_))), "{made:?}");
    }
    let mut leg = begun(DrillKind::Leg, 1);
    for eye_mm in [150.5, -151.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(leg.make(DrillMove::Eye { eye_mm }), Err(DrillError::Refused(_))));
    }
    assert!(leg.go_on().is_err(), "an open question is passed over");
    leg.answer(Answer::Number(1.0), 1.0, 0).unwrap();
    assert!(leg.answer(Answer::Number(1.0), 1.0, 0).is_err(), "it is answered twice");
    assert!(leg.make(DrillMove::ReadInWords).is_err(), "it is read after it was answered");
    leg.go_on().unwrap();
    assert_eq!(leg.question().number(), 1);
    leg.end(0).unwrap();
    assert!(leg.answer(Answer::Number(1.0), 1.0, 0).is_err() && leg.go_on().is_err());
}

/// Whoever has readings in words is nearly always within the tolerance, and the result says so.
#[test]
fn a_reading_in_words_is_had_only_when_asked_for_and_is_recorded() {
    for (kind, read) in [
        (
            DrillKind::Leg,
            (|question: &Question| {
                let view = question.read_in_words().unwrap().remove(0);
                match view.focus {
                    sim_core::session::action::Sight::LeftLeg => view.manometer.left.meniscus_in,
                    _ => view.manometer.right.meniscus_in,
                }
            }) as fn(&Question) -> f64,
        ),
        (DrillKind::Pen, |question| question.read_in_words().unwrap()[0].recorder.pen.unwrap()),
        (DrillKind::Barometer, |question| {
            question.read_in_words().unwrap()[0].barometer.pointer_mmhg
        }),
        (DrillKind::Thermometer, |question| {
            question.read_in_words().unwrap()[0].thermometer.column_c
        }),
        (DrillKind::ElapsedTime, |question| {
            question.read_in_words().unwrap()[0].run.as_deref().unwrap().timer.meter_min
        }),
    ] {
        let mut right = 0;
        for seed in 0..40 {
            let mut series = begun(kind, seed);
            assert_eq!(series.question().read_in_words(), None, "{kind} is read unasked");
            for made in [
                DrillMove::Eye { eye_mm: 0.0 },
                DrillMove::SetBarometer { to: BarometerReference::Station },
            ] {
                // Refused where there is nothing of the kind.
                let _ = series.make(made);
            }
            series.make(DrillMove::ReadInWords).unwrap();
            let (one, again) = (read(series.question()), read(series.question()));
            assert_eq!(one.to_bits(), again.to_bits());
            right += u32::from(series.answer(Answer::Number(one), 5.0, 0).unwrap().right);
            assert!(series.results()[0].in_words);
        }
        assert!(right >= 37, "{kind}: {right} of 40 readings in words are within the tolerance");
    }
    for kind in [DrillKind::Line, DrillKind::Certificate, DrillKind::WaterAtRest] {
        assert!(begun(kind, 1).make(DrillMove::ReadInWords).is_err(), "{kind}");
    }
}
