//! The sums as somebody does them from the field book alone, with a pocket calculator.

use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::rig::recorder::RecorderKind;
use sim_core::scenario::setup::WorkOrder;

use crate::sessions::cost::common::{line, root};

/// Somebody with a field book, a work order and a calculator.
pub struct Clerk<'a> {
    pub book: &'a FieldBook,
    pub order: &'a WorkOrder,
    /// What the plate of the recorder says.
    pub scale: RecorderKind,
}

impl Clerk<'_> {
    /// What is to be written into a field of sums; none where the book does not give it.
    pub fn works_out(&self, field: Field) -> Option<String> {
        Some(match field {
            Field::DeltaH(point) => format!("{:.2}", self.both_legs(point)?),
            Field::PointFlow(point) => format!("{:.3}", self.flow(point)?),
            Field::ChartTerm(point) => format!("{:.2}", self.term(point)?),
            Field::Slope => format!("{:.3}", line(&self.points()?).0),
            Field::Intercept => format!("{:.3}", line(&self.points()?).1),
            Field::Correlation => format!("{:.5}", correlation(&self.points()?)),
            Field::TargetFlow => format!("{:.3}", self.order.target_flow_std_m3_min),
            Field::SetPoint => format!("{:.1}", self.set_point()?),
            Field::Volume => format!("{:.1}", self.volume()?),
            _ => return None,
        })
    }

    fn number(&self, field: Field) -> Option<f64> {
        self.book.number(field)
    }

    /// Both legs added; where only one was read, what was written for the sum.
    fn both_legs(&self, point: PointNumber) -> Option<f64> {
        match (self.number(Field::Up(point)), self.number(Field::Down(point))) {
            (Some(up), Some(down)) => Some(up.abs() + down.abs()),
            _ => self.number(Field::DeltaH(point)),
        }
    }

    fn root(&self) -> Option<f64> {
        Some(root(self.number(Field::Pressure)?, self.number(Field::Temperature)?))
    }

    fn flow(&self, point: PointNumber) -> Option<f64> {
        let slope = self.number(Field::CertificateSlope)?;
        let intercept = self.number(Field::CertificateIntercept)?;
        Some((self.both_legs(point)?.sqrt() * self.root()? - intercept) / slope)
    }

    fn term(&self, point: PointNumber) -> Option<f64> {
        let chart = self.number(Field::Chart(point))?;
        Some(match self.scale {
            RecorderKind::SquareRoot => chart * self.root()?,
            RecorderKind::Linear => chart.sqrt() * self.root()?,
            RecorderKind::MassFlow => chart,
        })
    }

    /// Flow and chart term of every point of which both can be told.
    fn points(&self) -> Option<Vec<(f64, f64)>> {
        let points = self.book.points().into_iter();
        let points: Vec<(f64, f64)> =
            points.filter_map(|point| Some((self.flow(point)?, self.term(point)?))).collect();
        (points.len() >= 2).then_some(points)
    }

    /// V = sum of Q t, with Q = (I sqrt(P/760 298/T) - B)/M of each part's chart reading, or of the mean
    /// one.
    fn volume(&self) -> Option<f64> {
        let (slope, intercept) = (self.number(Field::Slope)?, self.number(Field::Intercept)?);
        let air = root(self.number(Field::RunPressure)?, self.number(Field::RunTemperature)?);
        let flow = |chart: f64| {
            let term = match self.scale {
                RecorderKind::SquareRoot => chart * air,
                RecorderKind::Linear => chart.sqrt() * air,
                RecorderKind::MassFlow => chart,
            };
            (term - intercept) / slope
        };
        let part = |part| {
            let minutes = self.number(Field::PartMinutes(part))?;
            Some(flow(self.number(Field::PartChart(part))?) * minutes)
        };
        let parts: f64 = PointNumber::all().filter_map(part).sum();
        if parts > 0.0 {
            return Some(parts);
        }
        Some(flow(self.number(Field::MeanChart)?) * self.number(Field::RunMinutes)?)
    }

    /// I = (M Q + B)/sqrt(P/760 298/T), for a square-root scale, of what stands in the book, for the run.
    fn set_point(&self) -> Option<f64> {
        let (slope, intercept) = (self.number(Field::Slope)?, self.number(Field::Intercept)?);
        let target = self.number(Field::TargetFlow)?;
        let air = root(self.order.run_pressure_mmhg, self.order.run_temperature_c);
        let term = slope * target + intercept;
        Some(match self.scale {
            RecorderKind::SquareRoot => term / air,
            RecorderKind::Linear => (term / air).powi(2),
            RecorderKind::MassFlow => term,
        })
    }
}

fn correlation(points: &[(f64, f64)]) -> f64 {
    let turned: Vec<(f64, f64)> = points.iter().map(|&(x, y)| (y, x)).collect();
    (line(points).0 * line(&turned).0).sqrt()
}
