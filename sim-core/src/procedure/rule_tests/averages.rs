//! Averages of the season built into the line, as the order asks, and left out where the day is too far
//! from them.

use super::broken;
use crate::calibration::{AirConditions, Basis, Curve, Expression, RecorderScale};
use crate::field_book::Field;
use crate::procedure::set_point::own_set_point;
use crate::procedure::test_bench::{
    PRESSURE, TEMPERATURE, TestSession, careful, careful_run, point,
};
use crate::procedure::volume::own_run;
use crate::scenario::setup::SeasonAverages;

/// By what factor corrected chart readings, slope and intercept with these averages built in differ
/// from the plain ones: sqrt(760/Pa Ta/298).
fn factor(averages: SeasonAverages) -> f64 {
    let (mmhg, kelvins) = (averages.pressure_mmhg, averages.temperature_c + 273.15);
    (760.0 / mmhg * kelvins / 298.0).sqrt()
}

/// The session where the order asks for these averages; the last line has them built in.
fn ordered(mut session: TestSession, averages: SeasonAverages) -> TestSession {
    session.setup.work_order.averages = Some(averages);
    if let Some(last) = &mut session.setup.work_order.last_line {
        last.slope *= factor(averages);
        last.intercept *= factor(averages);
    }
    session
}

/// Writes corrected chart readings and line with the averages built in.
fn builds_in(session: &mut TestSession, averages: SeasonAverages) {
    let by = factor(averages);
    for number in (1..=7).map(point) {
        let term = session.book_number(Field::ChartTerm(number)) * by;
        session.rewrite(Field::ChartTerm(number), &format!("{term:.3}"));
    }
    for field in [Field::Slope, Field::Intercept] {
        let value = session.book_number(field) * by;
        session.rewrite(field, &format!("{value:.4}"));
    }
    let set_point = session.judged(own_set_point).unwrap();
    session.rewrite(Field::SetPoint, &format!("{set_point:.1}"));
}

/// Averages that differ so much from the day of the bench.
fn averages(by_mmhg: f64, by_k: f64) -> SeasonAverages {
    SeasonAverages { pressure_mmhg: PRESSURE + by_mmhg, temperature_c: TEMPERATURE + by_k }
}

#[test]
fn averages_that_the_order_asks_for_are_built_in_within_their_window() {
    for near in [averages(-40.0, -12.0), averages(59.0, 14.5), averages(-60.0, 15.0)] {
        let mut session = ordered(careful(), near);
        builds_in(&mut session, near);
        assert_eq!(broken(&session), [""; 0], "{near:?}");
        let plain = broken(&ordered(careful(), near));
        assert!(plain.contains(&"chart-expression"), "{near:?}: {plain:?}");
    }
}

#[test]
fn averages_are_left_out_on_a_day_outside_their_window() {
    for far in [averages(-40.0, -16.0), averages(62.0, 3.0), averages(-61.0, 0.0)] {
        assert_eq!(broken(&ordered(careful(), far)), [""; 0], "{far:?}");
        let mut session = ordered(careful(), far);
        builds_in(&mut session, far);
        let regardless = broken(&session);
        assert!(regardless.contains(&"chart-expression"), "{far:?}: {regardless:?}");
    }
}

#[test]
fn a_run_near_the_averages_needs_no_air_of_its_own_and_another_is_corrected() {
    let built_in = averages(-20.0, -6.0);
    let mut session = ordered(careful_run(), built_in);
    builds_in(&mut session, built_in);
    let volume = |session: &TestSession| session.judged(own_run).unwrap().volume_std_m3;
    let near = volume(&session);
    session.rewrite(Field::RunTemperature, "25");
    assert!((volume(&session) / near - 1.0).abs() < 1e-12, "the reading alone gives the flow");
    // 17 K from the averages: the same as with the plain line, I sqrt(P/760 298/T).
    session.rewrite(Field::RunTemperature, "32");
    let plain = |field| session.book_number(field) / factor(built_in);
    let curve = Curve::new(
        plain(Field::Slope),
        plain(Field::Intercept),
        Expression { recorder: RecorderScale::SquareRoot, basis: Basis::Actual },
    )
    .unwrap();
    let air = AirConditions::as_read(PRESSURE, 32.0).unwrap();
    let flow = curve.flow_std_m3_min(session.book_number(Field::MeanChart), air).unwrap();
    assert!((volume(&session) / (1440.0 * flow) - 1.0).abs() < 1e-9);
    assert!((volume(&session) / near - 1.0).abs() > 0.01, "the correction matters");
}
