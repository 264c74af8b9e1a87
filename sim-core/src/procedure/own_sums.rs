//! The calculations repeated from the trainee's readings (40 CFR Part 50 App. B, 9.3).

use super::evidence::Evidence;
use super::fluid::density_at;
use crate::calibration::{
    AirConditions, Basis, Curve, Expression, FittedLine, PointReading, SumError, TransferStandard,
    averages_hold,
};
use crate::field_book::{Field, PointNumber};

/// What follows from the readings in the field book.
#[derive(Debug, Clone, Default)]
pub(crate) struct OwnSums {
    /// Each point for which flow and corrected chart reading can be calculated.
    pub points: Vec<OwnPoint>,
    /// The line through the points, calculated without rounding.
    pub line: Option<FittedLine>,
    /// The line through flows and corrected chart readings as written, including their rounding.
    pub written_line: Option<FittedLine>,
}

/// One point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OwnPoint {
    /// Its number.
    pub number: PointNumber,
    /// Its readings and the air at the time.
    pub reading: PointReading,
    /// Flow at standard conditions, m3/min.
    pub flow: f64,
    /// Corrected chart reading.
    pub term: f64,
}

impl OwnSums {
    /// The calculations from a field book.
    pub fn of(evidence: &Evidence<'_>) -> Self {
        let book = evidence.book;
        let numbers = book.points();
        let points: Vec<OwnPoint> =
            numbers.iter().filter_map(|&number| own_point(evidence, number)).collect();
        let exact: Vec<(f64, f64)> = points.iter().map(|point| (point.flow, point.term)).collect();
        let written = |number| {
            Some((book.number(Field::PointFlow(number))?, book.number(Field::ChartTerm(number))?))
        };
        let written: Vec<(f64, f64)> = numbers.into_iter().filter_map(written).collect();
        Self {
            points,
            line: FittedLine::fit(&exact).ok(),
            written_line: FittedLine::fit(&written).ok(),
        }
    }

    /// Distance of the farthest point from the line along the flow, m3/min.
    pub fn farthest_off_m3_min(&self) -> Option<f64> {
        let points: Vec<(f64, f64)> =
            self.points.iter().map(|point| (point.flow, point.term)).collect();
        Some(self.line?.farthest_along_x(&points))
    }
}

/// The pressure difference: both legs added, times the density of the manometer's fluid, if both are
/// there; otherwise as written.
pub(crate) fn own_delta_h(evidence: &Evidence<'_>, number: PointNumber) -> Option<f64> {
    let leg = |field| evidence.book.number(field).map(f64::abs);
    match (leg(Field::Up(number)), leg(Field::Down(number))) {
        (Some(up), Some(down)) => Some((up + down) * density_at(evidence, Field::Up(number))),
        _ => leg(Field::DeltaH(number)),
    }
}

/// One point from the field book.
fn own_point(evidence: &Evidence<'_>, number: PointNumber) -> Option<OwnPoint> {
    let book = evidence.book;
    let conditions =
        AirConditions::as_read(book.number(Field::Pressure)?, book.number(Field::Temperature)?)
            .ok()?;
    let standard = TransferStandard::new(
        book.number(Field::CertificateSlope)?,
        book.number(Field::CertificateIntercept)?,
    );
    let reading = PointReading {
        delta_h_inh2o: own_delta_h(evidence, number)?,
        chart: book.number(Field::Chart(number))?,
        conditions,
    };
    let (flow, term) = reading.flow_and_term(standard.ok()?, evidence.expression()).ok()?;
    Some(OwnPoint { number, reading, flow, term })
}

/// Slope and intercept as written, or else as they follow from the trainee's readings.
pub(crate) fn own_slope_and_intercept(evidence: &Evidence<'_>) -> Option<(f64, f64)> {
    let book = evidence.book;
    match (book.number(Field::Slope), book.number(Field::Intercept)) {
        (Some(slope), Some(intercept)) => Some((slope, intercept)),
        _ => OwnSums::of(evidence).line.map(|line| (line.slope, line.intercept)),
    }
}

/// The chart reading that the trainee's line gives for a flow in this air, even if the line falls.
pub(crate) fn own_chart_for(
    evidence: &Evidence<'_>,
    flow_std_m3_min: f64,
    air: Result<AirConditions, SumError>,
) -> Option<f64> {
    own_line_in(evidence, air.ok()?)?.chart_for(flow_std_m3_min)
}

/// The trainee's line as it is used in some air: also one that falls, as it does when the blower was
/// left on its controller.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OwnLineIn {
    slope: f64,
    intercept: f64,
    expression: Expression,
    air: AirConditions,
}

impl OwnLineIn {
    /// The chart reading for a flow.
    pub fn chart_for(&self, flow_std_m3_min: f64) -> Option<f64> {
        let term = self.slope * flow_std_m3_min + self.intercept;
        self.expression.chart_for(term, self.air).ok()
    }

    /// The same without averages built in, so that it holds in any air.
    fn plain(self) -> Self {
        // A unit line grows by the factor by which every line does.
        let by = Curve::new(1.0, 0.0, self.expression)
            .map_or(1.0, |unit| unit.without_averages().slope());
        Self {
            slope: by * self.slope,
            intercept: by * self.intercept,
            expression: Expression::actual(self.expression.recorder),
            air: self.air,
        }
    }
}

/// The trainee's line as it is used in this air: with averages built in only while it is near them.
pub(crate) fn own_line_in(evidence: &Evidence<'_>, air: AirConditions) -> Option<OwnLineIn> {
    let (slope, intercept) = own_slope_and_intercept(evidence)?;
    let line = OwnLineIn { slope, intercept, expression: evidence.expression(), air };
    match line.expression.basis {
        Basis::Averages(averages) if averages_hold(averages, air) => Some(line),
        _ => Some(line.plain()),
    }
}

/// The trainee's curve, with the expression that the order asks for; see [`Curve::in_air`].
pub(crate) fn own_curve(evidence: &Evidence<'_>) -> Option<Curve> {
    let (slope, intercept) = own_slope_and_intercept(evidence)?;
    Curve::new(slope, intercept, evidence.expression()).ok()
}

/// Error of the volumes by the trainee's curve when the pen is at the chart reading that the curve
/// gives for the ordered flow, percent: 100 (Q/Qtrue - 1).
///
/// The curve is compared at the true pressure and temperature at which the true response was
/// calculated: I = (M Q + B)/sqrt(P/760 298/T). `None` without a curve, or if the pen of this rig
/// never reaches that reading.
pub(crate) fn set_point_flow_error_pct(evidence: &Evidence<'_>) -> Option<f64> {
    let target = evidence.setup.work_order.target_flow_std_m3_min;
    let air = AirConditions::as_read(evidence.end.pressure_mmhg, evidence.end.temperature_c);
    // Whatever averages are built in, the line is compared in the air of the true response.
    let chart = own_line_in(evidence, air.ok()?)?.plain().chart_for(target)?;
    let truth = evidence.true_response.flow_at_chart(chart)?;
    let error = 100.0 * (target / truth - 1.0);
    error.is_finite().then_some(error)
}

/// The same, less what the bias of the laboratory has in it. Nobody on the roof can know that bias, so
/// that neither a decision nor marks may depend on it.
pub(crate) fn own_flow_error_pct(evidence: &Evidence<'_>) -> Option<f64> {
    Some(evidence.setup.without_laboratory_pct(set_point_flow_error_pct(evidence)?))
}

/// The flow that the trainee's line gives for the pen when the sampler was left, standard m3/min.
pub(crate) fn start_flow(evidence: &Evidence<'_>, air: AirConditions) -> Option<f64> {
    let curve = own_curve(evidence)?.in_air(air);
    curve.flow_std_m3_min(evidence.book.number(Field::StartChart)?, air).ok()
}
