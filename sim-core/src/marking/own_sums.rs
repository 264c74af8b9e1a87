//! The trainee's sums done again from the trainee's own readings (40 CFR 50 App. B, 9.3).

use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::Evidence;
use crate::units::ZERO_CELSIUS_K;

/// Standard temperature, K (40 CFR 50 App. B, 2.2; read).
const STANDARD_K: f64 = 298.0;
/// Standard pressure, mmHg (40 CFR 50 App. B, 2.2; read).
const STANDARD_MMHG: f64 = 760.0;

/// What follows from the readings in the book.
#[derive(Debug, Clone, Default)]
pub(crate) struct OwnSums {
    /// Each point for which both sums can be done.
    pub points: Vec<OwnPoint>,
    /// The line through points worked out without rounding.
    pub line: Option<Line>,
    /// The line through flows and chart terms as they are written, rounding and all.
    pub written_line: Option<Line>,
}

/// One point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OwnPoint {
    /// Its number.
    pub number: PointNumber,
    /// Flow at standard conditions, m3/min: (sqrt(dH P/760 298/T) - b)/m.
    pub flow: f64,
    /// Chart term I sqrt(P/760 298/T).
    pub term: f64,
    /// Chart reading I, divisions.
    pub chart: f64,
}

/// A straight line of chart terms on flows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Line {
    /// Slope, chart divisions per m3/min.
    pub slope: f64,
    /// Intercept, chart divisions.
    pub intercept: f64,
    /// Correlation coefficient.
    pub correlation: f64,
    /// Largest distance of a point from the line along the flow, m3/min.
    pub worst_m3_min: f64,
}

impl OwnSums {
    /// The sums of a field book.
    pub fn of(evidence: &Evidence<'_>) -> Self {
        let book = evidence.book;
        let points: Vec<OwnPoint> =
            book.points().into_iter().filter_map(|number| own_point(evidence, number)).collect();
        let exact: Vec<(f64, f64)> = points.iter().map(|point| (point.flow, point.term)).collect();
        let written: Vec<(f64, f64)> = book
            .points()
            .into_iter()
            .filter_map(|number| {
                Some((
                    book.number(Field::PointFlow(number))?,
                    book.number(Field::ChartTerm(number))?,
                ))
            })
            .collect();
        Self { points, line: line_through(&exact), written_line: line_through(&written) }
    }
}

/// The sum of both legs: as worked out from them when both are there, else as written.
pub(crate) fn own_delta_h(evidence: &Evidence<'_>, number: PointNumber) -> Option<f64> {
    let leg = |field| evidence.book.number(field).map(f64::abs);
    match (leg(Field::Up(number)), leg(Field::Down(number))) {
        (Some(up), Some(down)) => Some(up + down),
        _ => leg(Field::DeltaH(number)),
    }
}

/// sqrt(P/760 298/T) for P in mmHg and T in degrees Celsius; `None` outside what can be.
pub(crate) fn root_factor(pressure_mmhg: f64, temperature_c: f64) -> Option<f64> {
    let kelvin = temperature_c + ZERO_CELSIUS_K;
    let factor = (pressure_mmhg / STANDARD_MMHG * STANDARD_K / kelvin).sqrt();
    (pressure_mmhg > 0.0 && kelvin > 0.0 && factor.is_finite()).then_some(factor)
}

/// One point from the book.
fn own_point(evidence: &Evidence<'_>, number: PointNumber) -> Option<OwnPoint> {
    let book = evidence.book;
    let factor = root_factor(book.number(Field::Pressure)?, book.number(Field::Temperature)?)?;
    let slope = book.number(Field::CertificateSlope)?;
    let intercept = book.number(Field::CertificateIntercept)?;
    let chart = book.number(Field::Chart(number))?;
    let delta_h = own_delta_h(evidence, number)?;
    let flow = (delta_h.sqrt() * factor - intercept) / slope;
    let term = chart * factor;
    (flow.is_finite() && term.is_finite()).then_some(OwnPoint { number, flow, term, chart })
}

/// Least squares through at least three points whose flows differ, centred in two passes.
fn line_through(points: &[(f64, f64)]) -> Option<Line> {
    if points.len() < 3 {
        return None;
    }
    let count = points.len() as f64;
    let mean_x = points.iter().map(|point| point.0).sum::<f64>() / count;
    let mean_y = points.iter().map(|point| point.1).sum::<f64>() / count;
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (x, y) in points {
        let (dx, dy) = (x - mean_x, y - mean_y);
        xx += dx * dx;
        xy += dx * dy;
        yy += dy * dy;
    }
    let slope = xy / xx;
    let intercept = mean_y - slope * mean_x;
    let correlation = xy / (xx * yy).sqrt();
    let worst_m3_min =
        points.iter().map(|(x, y)| ((y - intercept) / slope - x).abs()).fold(0.0, f64::max);
    let line = Line { slope, intercept, correlation, worst_m3_min };
    let finite =
        [slope, intercept, correlation, worst_m3_min].iter().all(|value| value.is_finite());
    finite.then_some(line)
}
