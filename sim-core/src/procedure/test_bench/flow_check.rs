//! The careful session of the tests with a flow check in place of its points.

use super::work::careful;
use super::{PRESSURE, TEMPERATURE, TRUE_LINE, TestSession, chart_of, delta_h_of, point, writes};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::scenario::setup::{CheckedLine, FlowCheckOrder, FlowOfRun, LastLine};
use crate::session::action::{Action, Decision};
use crate::time::Date;

/// Readings of the check.
const READINGS: u8 = 3;
/// The flow that is checked, m3/min.
const FLOW: f64 = 1.13;

/// A session that only checks the line of the last calibration, which is right.
pub fn careful_check() -> TestSession {
    let mut session = careful();
    let order = &mut session.setup.work_order;
    order.last_line = Some(LastLine {
        date: Date::new(2026, 8, 3).unwrap(),
        slope: TRUE_LINE.0,
        intercept: TRUE_LINE.1,
    });
    order.flow_check = Some(FlowCheckOrder {
        readings: READINGS,
        within_pct: 7.0,
        line: CheckedLine::Last,
        last_good: Date::new(2026, 10, 5).ok(),
        flow_of_run: FlowOfRun::Line,
    });
    for moment in &mut session.events {
        let Action::Write { field, .. } = &mut moment.action else { continue };
        *field = match *field {
            Field::Up(number) if number.number() <= READINGS => Field::CheckUp(number),
            Field::Down(number) if number.number() <= READINGS => Field::CheckDown(number),
            Field::Chart(number) if number.number() <= READINGS => Field::CheckChart(number),
            other => other,
        };
    }
    session.without(of_a_line);
    let (leg_in, chart) = (delta_h_of(FLOW) / 2.0, chart_of(FLOW));
    session.at_check(|facts| {
        facts.places[RigPart::Filter as usize] = PartPlace::Holder;
        facts.blower_plug = BlowerPlug::Controller;
        facts.opening = 1.0;
        (facts.pressure_mmhg, facts.temperature_c) = (PRESSURE, TEMPERATURE);
        (facts.flow_std_m3_min, facts.calibrator_flow_std_m3_min) = (FLOW, FLOW);
        facts.menisci_in = [leg_in, -leg_in];
        facts.undisturbed_menisci_in = facts.menisci_in;
        (facts.pen, facts.pen_at_rest, facts.undisturbed_pen) = (chart, chart, chart);
    });
    for number in 1..=READINGS {
        session.rewrite(Field::CheckUp(point(number)), &format!("{leg_in:.2}"));
        session.rewrite(Field::CheckDown(point(number)), &format!("{leg_in:.2}"));
        session.rewrite(Field::CheckChart(point(number)), &format!("{chart:.1}"));
    }
    let own = session.judged(crate::procedure::flow_check::own_check).unwrap();
    for (field, text) in [
        (Field::CheckFlow, format!("{:.3}", own.standard)),
        (Field::CheckLineFlow, format!("{:.3}", own.line)),
        (Field::CheckDifference, format!("{:+.1}", own.difference_pct())),
    ] {
        session.write(field, &text);
    }
    session.decide(Decision::CheckPassed, "");
    session
}

/// Whether an action writes a reading of the check.
pub fn is_check(action: &Action) -> bool {
    matches!(
        action,
        Action::Write { field: Field::CheckUp(_) | Field::CheckDown(_) | Field::CheckChart(_), .. }
    )
}

/// Whether an action writes a value of points or line.
fn of_a_line(action: &Action) -> bool {
    let Action::Write { field, .. } = action else { return writes(action, Field::Decision) };
    matches!(
        field,
        Field::Up(_)
            | Field::Down(_)
            | Field::Chart(_)
            | Field::DeltaH(_)
            | Field::PointFlow(_)
            | Field::ChartTerm(_)
            | Field::Expression
            | Field::Slope
            | Field::Intercept
            | Field::Correlation
            | Field::TargetFlow
            | Field::SetPoint
    )
}
