//! What was decided and what was true: points, calibration line and set point as written, as they
//! follow from the trainee's readings, and as they really are. The volumes are in [`super::cost`].

use serde::Serialize;

use super::added_filters::{AddedCompared, added_filters};
use super::truth::true_response_in;
use crate::air::Ambient;
use crate::calibration::{
    AirConditions, Curve, FittedLine, HIGHEST_FLOW_STD_M3_MIN, LOWEST_FLOW_STD_M3_MIN, SumError,
};
use crate::field_book::Field;
use crate::procedure::own_sums::OwnSums;
use crate::procedure::{Evidence, flow_check};
use crate::scenario::setup::CheckedLine;
use crate::session::ended_session::EndedSession;
use crate::time::Tick;
use crate::units::{PA_PER_MMHG, ZERO_CELSIUS_K};

/// Number of flows, evenly spaced over the range of the method, through which the true line is fitted.
const TRUE_FLOWS: u8 = 7;
/// The confidence of intervals (common practice).
pub const CONFIDENCE: f64 = 0.95;

/// Points, line and set point: as written, as they follow from the readings, and as they really are.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Compared {
    /// Each point, in the order of the numbers.
    pub points: Vec<PointCompared>,
    /// The line as written.
    pub own_line: Option<LineCompared>,
    /// The line that follows from the trainee's readings.
    pub redone_line: Option<LineCompared>,
    /// The line through the true response of the rig between the limits of the method, in the air at
    /// the end of the session.
    pub true_line: Option<LineCompared>,
    /// The scatter of the trainee's points about their line.
    pub scatter: Option<Scatter>,
    /// The flow that was ordered, standard m3/min.
    pub target_flow_std_m3_min: f64,
    /// The same flow in the air of the run, m3/min: at altitude the difference decides whether it is in
    /// the range of the method.
    pub target_flow_actual_m3_min: Option<f64>,
    /// By how much flows by the certificate are too high because of the laboratory that made it,
    /// percent.
    pub laboratory_bias_pct: f64,
    /// The set point as written, chart divisions.
    pub own_set_point: Option<f64>,
    /// The set point that follows from the trainee's readings.
    pub redone_set_point: Option<f64>,
    /// The chart reading at which the rig really draws the ordered flow in the air of the run.
    pub true_set_point: Option<f64>,
    /// The flow check against a standard, if one was made.
    pub check: Option<CheckCompared>,
    /// The test of the flow controller with added filters, if one was ordered.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub added_filters: Option<AddedCompared>,
}

/// A flow check: as written, as it follows from the readings, and as it really is. Flows are in
/// standard m3/min; percent differences are those of the line's flow from the standard's.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CheckCompared {
    /// What the standard is compared with.
    pub of: CheckedLine,
    /// Flow by the standard as written, and as it follows from the readings.
    pub standard_std_m3_min: [Option<f64>; 2],
    /// The true flow when the standard was read.
    pub true_std_m3_min: Option<f64>,
    /// Flow by the line as written, and as it follows from the readings; the ordered flow where no line
    /// is checked.
    pub line_std_m3_min: [Option<f64>; 2],
    /// The percent difference as written, and as it follows from the readings.
    pub difference_pct: [Option<f64>; 2],
    /// The percent difference between the line's flow, as it follows from the readings, and the true
    /// flow.
    pub true_difference_pct: Option<f64>,
    /// The largest percent difference that the work order allows.
    pub within_pct: f64,
}

/// One point.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PointCompared {
    /// Its number.
    pub number: u8,
    /// When its first reading was taken.
    pub tick: Tick,
    /// Flow and corrected chart reading as written.
    pub written: Option<FlowTermPair>,
    /// Flow and corrected chart reading as they follow from the readings.
    pub redone: Option<FlowTermPair>,
    /// The true flow, and the corrected chart reading of the pen at rest in the true air.
    pub truth: Option<FlowTermPair>,
    /// Distance of the point that follows from the readings from the line through all of them, along
    /// the flow, m3/min.
    pub off_line_m3_min: Option<f64>,
    /// Distance of the true pair from the same line, m3/min: how much too high the line reads here.
    pub truth_off_line_m3_min: Option<f64>,
}

/// A flow and the corrected chart reading that belongs to it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FlowTermPair {
    /// Flow, standard m3/min.
    pub flow_std_m3_min: f64,
    /// Corrected chart reading, chart divisions.
    pub chart_term: f64,
}

/// A calibration line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LineCompared {
    /// Slope M, chart divisions per m3/min.
    pub slope: f64,
    /// Intercept B, chart divisions.
    pub intercept: f64,
    /// Correlation coefficient, if known.
    pub r: Option<f64>,
}

/// The scatter of the trainee's points about their line. An error that all points share does not show
/// in it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Scatter {
    /// Standard error of the slope.
    pub se_slope: f64,
    /// Standard error of the intercept.
    pub se_intercept: f64,
    /// Standard deviation of the residuals, chart divisions.
    pub residual_sd: f64,
    /// Half of the interval at [`CONFIDENCE`] in which one more reading at the ordered flow would fall,
    /// in percent of that flow.
    pub flow_pct: Option<f64>,
}

/// Compares what was decided with what was true.
pub fn compare(signed: &EndedSession) -> Compared {
    let evidence = signed.evidence();
    let sums = OwnSums::of(&evidence);
    let order = &evidence.setup.work_order;
    let target = order.target_flow_std_m3_min;
    let run_air = AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c);
    let target_flow_actual_m3_min = run_air.as_ref().ok().map(|air| target / air.to_standard());
    let redone_set_point =
        sums.line.and_then(|line| chart_for(&evidence, line.y_at(target), run_air));
    let response_of_run = true_response_in(
        &signed.rig,
        &Ambient {
            pressure_pa: order.run_pressure_mmhg * PA_PER_MMHG,
            temperature_k: order.run_temperature_c + ZERO_CELSIUS_K,
            ..*signed.rig.ambient()
        },
    );
    Compared {
        points: points(&evidence, &sums),
        own_line: own_line(&evidence),
        redone_line: sums.line.map(LineCompared::from),
        true_line: true_line(&evidence),
        scatter: sums.line.map(|line| scatter(&line, target)),
        target_flow_std_m3_min: target,
        target_flow_actual_m3_min,
        laboratory_bias_pct: evidence.setup.laboratory_bias_pct,
        own_set_point: evidence.book.number(Field::SetPoint),
        redone_set_point,
        true_set_point: response_of_run.chart_at_flow(target),
        check: check(&evidence),
        added_filters: added_filters(&evidence),
    }
}

fn points(evidence: &Evidence<'_>, sums: &OwnSums) -> Vec<PointCompared> {
    let one = |point: crate::procedure::evidence::PointTaken<'_>| {
        let written = |field| evidence.book.number(field);
        let redone = sums.points.iter().find(|own| own.number == point.number);
        let redone =
            redone.map(|own| FlowTermPair { flow_std_m3_min: own.flow, chart_term: own.term });
        let facts = point.chart.unwrap_or(point.first).facts();
        let air = AirConditions::as_read(facts.pressure_mmhg, facts.temperature_c);
        let term =
            air.and_then(|air| evidence.expression().calibration_term(facts.pen_at_rest, air));
        let truth = term
            .ok()
            .map(|chart_term| FlowTermPair { flow_std_m3_min: facts.flow_std_m3_min, chart_term });
        let off = |pair: Option<FlowTermPair>| {
            let pair = pair?;
            let off = sums.line?.off_along_x((pair.flow_std_m3_min, pair.chart_term));
            off.is_finite().then_some(off)
        };
        PointCompared {
            number: point.number.number(),
            tick: point.first.tick(),
            written: written(Field::PointFlow(point.number))
                .zip(written(Field::ChartTerm(point.number)))
                .map(|(flow_std_m3_min, chart_term)| FlowTermPair { flow_std_m3_min, chart_term }),
            redone,
            truth,
            off_line_m3_min: off(redone),
            truth_off_line_m3_min: off(truth),
        }
    };
    evidence.points().into_iter().map(one).collect()
}

fn check(evidence: &Evidence<'_>) -> Option<CheckCompared> {
    let order = evidence.setup.work_order.flow_check?;
    let numbers = flow_check::readings(evidence);
    let flows: Vec<f64> = numbers
        .iter()
        .filter_map(|&number| evidence.read(Field::CheckUp(number)))
        .map(|at| at.facts().flow_std_m3_min)
        .collect();
    if flows.is_empty() {
        return None;
    }
    let truth = flows.iter().sum::<f64>() / flows.len() as f64;
    let own = flow_check::own_check(evidence);
    let number = |field| evidence.book.number(field);
    let off = own.map(|own| 100.0 * (own.line / truth - 1.0)).filter(|off| off.is_finite());
    Some(CheckCompared {
        of: order.line,
        standard_std_m3_min: [number(Field::CheckFlow), own.map(|own| own.standard)],
        true_std_m3_min: Some(truth),
        line_std_m3_min: [number(Field::CheckLineFlow), own.map(|own| own.line)],
        difference_pct: [number(Field::CheckDifference), own.map(|own| own.difference_pct())],
        true_difference_pct: off,
        within_pct: order.within_pct,
    })
}

fn own_line(evidence: &Evidence<'_>) -> Option<LineCompared> {
    Some(LineCompared {
        slope: evidence.book.number(Field::Slope)?,
        intercept: evidence.book.number(Field::Intercept)?,
        r: evidence.book.number(Field::Correlation),
    })
}

/// The least-squares line through the true response at evenly spaced flows.
fn true_line(evidence: &Evidence<'_>) -> Option<LineCompared> {
    let air =
        AirConditions::as_read(evidence.end.pressure_mmhg, evidence.end.temperature_c).ok()?;
    let span = HIGHEST_FLOW_STD_M3_MIN - LOWEST_FLOW_STD_M3_MIN;
    let pairs = (0..TRUE_FLOWS).filter_map(|index| {
        let flow = LOWEST_FLOW_STD_M3_MIN + span * f64::from(index) / f64::from(TRUE_FLOWS - 1);
        let chart = evidence.true_response.chart_at_flow(flow)?;
        Some((flow, evidence.expression().calibration_term(chart, air).ok()?))
    });
    FittedLine::fit(&pairs.collect::<Vec<_>>()).ok().map(LineCompared::from)
}

fn scatter(line: &FittedLine, target: f64) -> Scatter {
    let interval = line.prediction_interval(target, CONFIDENCE).ok();
    let flow_pct = interval
        .map(|interval| 100.0 * (interval.high - interval.middle) / line.slope.abs() / target);
    Scatter {
        se_slope: line.se_slope,
        se_intercept: line.se_intercept,
        residual_sd: line.residual_sd,
        flow_pct: flow_pct.filter(|percent| percent.is_finite()),
    }
}

fn chart_for(
    evidence: &Evidence<'_>,
    term: f64,
    air: Result<AirConditions, SumError>,
) -> Option<f64> {
    let air = air.ok()?;
    // A line with averages built in is used as it is only while the air is near them.
    let unit = Curve::new(1.0, 0.0, evidence.expression()).ok()?.in_air(air);
    unit.expression().chart_for(unit.slope() * term, air).ok()
}

impl From<FittedLine> for LineCompared {
    fn from(line: FittedLine) -> Self {
        Self { slope: line.slope, intercept: line.intercept, r: Some(line.r) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::operator;
    use crate::session::Session;
    use crate::session::journal::NullSink;

    fn compared(operator: &str) -> Compared {
        // Hands can come near to the truth only by a certificate that is true.
        let text = include_str!("../../../scenarios/01_first_calibration.ron")
            .replace("\", date: ", "\", laboratory_bias_pct: Fixed(0), date: ");
        let mut session = Session::begin(&text, 4, Box::new(NullSink)).unwrap();
        let mut hands = operator::by_name(operator, 4).unwrap();
        operator::rehearse(&mut session, hands.as_mut()).unwrap();
        compare(&session.open().unwrap())
    }

    #[test]
    fn who_works_carefully_comes_near_to_the_truth_in_all_three() {
        let found = compared("careful");
        let (own, redone, truth) =
            (found.own_line.unwrap(), found.redone_line.unwrap(), found.true_line.unwrap());
        assert!((own.slope / redone.slope - 1.0).abs() < 0.01, "{own:?} {redone:?}");
        assert!((redone.slope / truth.slope - 1.0).abs() < 0.05, "{redone:?} {truth:?}");
        let set_points = [found.own_set_point, found.redone_set_point, found.true_set_point];
        let [own, redone, truth] = set_points.map(Option::unwrap);
        assert!((own - redone).abs() < 0.6 && (own - truth).abs() < 1.5, "{set_points:?}");
        for point in &found.points {
            let (redone, truth) = (point.redone.unwrap(), point.truth.unwrap());
            assert!((redone.flow_std_m3_min / truth.flow_std_m3_min - 1.0).abs() < 0.02);
            assert!(point.off_line_m3_min.unwrap().abs() < 0.04);
        }
        let scatter = found.scatter.unwrap().flow_pct.unwrap();
        assert!((0.0..3.0).contains(&scatter), "{scatter}");
    }

    #[test]
    fn the_truth_does_not_care_how_the_legs_were_read() {
        let (careful, one_leg) = (compared("careful"), compared("one-leg"));
        let flows = |found: &Compared| found.redone_line.unwrap().slope;
        assert!(flows(&one_leg) > 1.2 * flows(&careful), "half the column, less flow");
        assert!(
            (careful.true_line.unwrap().slope / one_leg.true_line.unwrap().slope - 1.0).abs()
                < 0.01
        );
    }
}
