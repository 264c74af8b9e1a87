//! The readings of a replayed session: what a perfect reader sees in it, with the reading errors that
//! the trainee made in the original session.

use super::context::{CostContext, CostedReading};
use super::edits::Values;
use crate::calibration::{
    AirConditions, Curve, Expression, FittedLine, PointReading, TransferStandard,
};
use crate::field_book::{Field, PointNumber};
use crate::procedure::certificate::{is_actual_pair, owner_of_numbers, reference_paper};
use crate::procedure::evidence::same_serial;
use crate::procedure::fluid::density_at;
use crate::procedure::instrument::Instrument;
use crate::scenario::setup::{Certificate, CertificatePair};
use crate::session::counterfactual::{Counterfactual, EventOrigin};
use crate::session::ground_truth::GroundTruth;
use crate::units::{Pressure, Temperature};

/// Largest difference between the written sum and the sum of both legs, in; beyond it, the legs were
/// not added.
const NOT_ADDED_IN: f64 = 0.051;
/// Largest difference between a written temperature or pressure and what was shown: one division and
/// its rounding. Beyond it, the value was not read.
const NOT_READ: f64 = 1.05;
/// Smallest pressure difference of an added point, inches of water.
const LEAST_ADDED_IN: f64 = 0.05;

/// What the calculations start from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RereadReadings {
    air: Option<AirConditions>,
    standard: Option<TransferStandard>,
    /// Pressure difference in inches of water, and chart reading.
    points: Vec<(f64, f64)>,
}

impl RereadReadings {
    /// Reads the replayed session.
    pub fn of(context: &CostContext<'_>, counterfactual: &Counterfactual, values: &Values) -> Self {
        let reader = Reader { context, counterfactual, values };
        let pair = reader.pair();
        Self {
            air: reader.air(),
            standard: pair.and_then(|pair| TransferStandard::new(pair.slope, pair.intercept).ok()),
            points: reader.points(),
        }
    }

    /// The curve through the points, as the trainee's calculations should have given it.
    pub fn curve(&self, expression: Expression) -> Option<Curve> {
        let (conditions, standard) = (self.air?, self.standard?);
        let points: Vec<(f64, f64)> = self
            .points
            .iter()
            .filter_map(|&(delta_h_inh2o, chart)| {
                let reading = PointReading { delta_h_inh2o, chart, conditions };
                reading.flow_and_term(standard, expression).ok()
            })
            .collect();
        let line = FittedLine::fit(&points).ok()?;
        Curve::new(line.slope, line.intercept, expression).ok()
    }
}

/// Reads the instruments of a replayed session.
struct Reader<'a, 's> {
    context: &'a CostContext<'s>,
    counterfactual: &'a Counterfactual,
    values: &'a Values,
}

impl Reader<'_, '_> {
    /// What was true before a moment of the original session, in the replayed session.
    fn facts(&self, index: usize) -> Option<&GroundTruth> {
        let mut moments = self.counterfactual.events.iter();
        moments
            .find(|(of, _)| *of == EventOrigin::Original(index))
            .map(|(_, moment)| &moment.before)
    }

    /// What a perfect reader sees at the moment of a reading: when it was taken, or when it should have
    /// been.
    fn seen(&self, reading: &CostedReading) -> Option<f64> {
        let as_seen = self.values.as_seen.contains(&reading.field);
        let at = if as_seen { reading.last } else { reading.read };
        let facts = self.facts(at).or_else(|| self.facts(reading.write))?;
        Some(reading.instrument.seen(facts))
    }

    /// How far a reading is from what is visible.
    fn off(&self, reading: &CostedReading) -> f64 {
        let off = reading.written - reading.seen;
        match reading.field {
            field if self.values.as_seen.contains(&field) => 0.0,
            Field::Up(point) | Field::Down(point) if self.values.level.contains(&point) => {
                off - reading.parallax
            }
            _ => off,
        }
    }

    /// The value that a field gets.
    fn value(&self, field: Field) -> Option<f64> {
        let reading = self.context.reading(field)?;
        Some(self.seen(reading)? + self.off(reading))
    }

    fn air(&self) -> Option<AirConditions> {
        let shown = |field, instrument: Instrument| {
            let read = self.context.reading(field);
            let unread = read.is_none_or(|read| (read.written - read.seen).abs() > NOT_READ);
            match read {
                Some(read) if unread && self.values.conditions => self.seen(read),
                None if self.values.conditions => {
                    let first = self.context.evidence.first_reading()?;
                    self.facts(first.index).map(|facts| instrument.seen(facts))
                }
                _ => self.value(field),
            }
        };
        let pressure = shown(Field::Pressure, Instrument::Barometer)?;
        let temperature = shown(Field::Temperature, Instrument::Thermometer)?;
        AirConditions::new(Pressure::from_mmhg(pressure), Temperature::from_c(temperature)).ok()
    }

    fn points(&self) -> Vec<(f64, f64)> {
        let mut points = Vec::new();
        // How the trainee's points compare with what a perfect reader sees: added points are read with
        // the same errors.
        let (mut ratio, mut off_in, mut off) = (0.0, 0.0, 0.0);
        for taken in &self.context.points {
            let number = taken.number;
            let (Some(delta_h), Some(chart)) =
                (self.delta_h(number), self.value(Field::Chart(number)))
            else {
                continue;
            };
            let at = taken.up.or(taken.down).or(taken.sum).unwrap_or(taken.first);
            let both = self.facts(at.index).map_or(f64::NAN, sum_of_legs);
            // Legs that are read and added are off by inches; a leg left out is off by a factor.
            if self.adds_legs(number) {
                ratio += 1.0;
                off_in += delta_h - both;
            } else {
                ratio += delta_h / both;
            }
            off += self.context.reading(Field::Chart(number)).map_or(0.0, |read| self.off(read));
            points.push((delta_h, chart));
        }
        let count = points.len() as f64;
        let added =
            self.counterfactual.events.iter().filter(|(of, _)| matches!(of, EventOrigin::Added(_)));
        for (_, moment) in added {
            let both = sum_of_legs(&moment.before);
            if moment.before.powered && both > LEAST_ADDED_IN && !points.is_empty() {
                let delta_h = (both * ratio + off_in) / count;
                points.push((delta_h, moment.before.pen + off / count));
            }
        }
        points
    }

    /// Whether both legs of a point were read and added for its pressure difference.
    fn adds_legs(&self, number: PointNumber) -> bool {
        let was = |field| self.context.reading(field).map(|reading| reading.written);
        let added = match (was(Field::Up(number)), was(Field::Down(number))) {
            (Some(up), Some(down)) => {
                self.sum_not_added(number, (up + down) * self.density(number)).is_none()
            }
            _ => false,
        };
        added || self.values.both_legs.contains(&number)
    }

    /// The sum as written, if it is not the sum of both legs, inches of water.
    fn sum_not_added(&self, number: PointNumber, legs_in: f64) -> Option<f64> {
        let sum = self.context.evidence.book.number(Field::DeltaH(number)).map(f64::abs);
        sum.filter(|sum| (sum - legs_in).abs() > NOT_ADDED_IN)
    }

    /// The pressure difference of a point, inches of water: both legs added, or what the trainee
    /// made of them.
    fn delta_h(&self, number: PointNumber) -> Option<f64> {
        let (up, down) = (Field::Up(number), Field::Down(number));
        if self.values.both_legs.contains(&number) {
            let legs_in = self.leg_or(number, up, down)? + self.leg_or(number, down, up)?;
            return Some(legs_in * self.density(number));
        }
        let sum = self.context.evidence.book.number(Field::DeltaH(number)).map(f64::abs);
        let was = |field| self.context.reading(field).map(|reading| reading.written);
        match (self.value(up), self.value(down), sum) {
            (Some(up_in), Some(down_in), _) => {
                let written = (was(up)? + was(down)?) * self.density(number);
                let kept = self.sum_not_added(number, written);
                let legs_in = (up_in + down_in) * self.density(number);
                Some(kept.map_or(1.0, |sum| sum / written) * legs_in)
            }
            (Some(leg_in), None, Some(sum)) => Some(sum / was(up)? * leg_in),
            (None, Some(leg_in), Some(sum)) => Some(sum / was(down)? * leg_in),
            (None, None, Some(sum)) => {
                let point = self.context.points.iter().find(|point| point.number == number)?;
                let at = point.sum?;
                let now = self.facts(at.index)?;
                if self.values.as_seen.contains(&Field::DeltaH(number)) {
                    return Some(sum_of_legs(now));
                }
                Some((sum + sum_of_legs(now) - sum_of_legs(at.facts())).max(0.0))
            }
            _ => None,
        }
    }

    /// The density of the fluid in which a point was read.
    fn density(&self, number: PointNumber) -> f64 {
        density_at(self.context.evidence, Field::Up(number))
    }

    /// A leg as read; if it was not read, what a perfect reader sees, with the error of the other leg.
    fn leg_or(&self, number: PointNumber, leg: Field, other: Field) -> Option<f64> {
        if let Some(value) = self.value(leg) {
            return Some(value);
        }
        let instrument = match leg {
            Field::Up(_) => Instrument::LegUp,
            _ => Instrument::LegDown,
        };
        let Some(read) = self.context.reading(other) else {
            let point = self.context.points.iter().find(|point| point.number == number)?;
            return self.facts(point.first.index).map(|f| instrument.seen(f));
        };
        let facts = self.facts(read.read).or_else(|| self.facts(read.write))?;
        // The height of the eye shifts both legs in the same direction, and so their readings in
        // opposite directions.
        let shift = if self.values.level.contains(&number) { 0.0 } else { read.parallax };
        Some(instrument.seen(facts) + self.off(read) - 2.0 * shift)
    }

    /// The pair of the certificate.
    fn pair(&self) -> Option<CertificatePair> {
        let (evidence, values) = (self.context.evidence, self.values);
        let slope = evidence.book.number(Field::CertificateSlope);
        let intercept = evidence.book.number(Field::CertificateIntercept);
        let written =
            slope.zip(intercept).map(|(slope, intercept)| CertificatePair { slope, intercept });
        let actual = written.is_some_and(|pair| is_actual_pair(evidence, pair));
        if values.right_certificate
            && let Some(paper) = self.right_certificate()
        {
            let actual = actual && !values.standard_pair;
            return Some(if actual { paper.actual } else { paper.standard });
        }
        let paper = if values.standard_pair && actual {
            owner_of_numbers(evidence)
        } else if values.as_printed {
            reference_paper(evidence)
        } else {
            None
        };
        paper.map(|paper| paper.standard).or(written)
    }

    /// The newest current original certificate of this calibrator.
    fn right_certificate(&self) -> Option<&Certificate> {
        let setup = self.context.evidence.setup;
        let papers = setup.certificates.iter().filter(|paper| {
            same_serial(&paper.serial, &setup.rig.calibrator_serial)
                && paper.is_current(setup.station.date)
                && !paper.is_copy()
        });
        papers.max_by_key(|paper| paper.date)
    }
}

/// The sum of both legs as a perfect reader sees them, inches of water.
fn sum_of_legs(facts: &GroundTruth) -> f64 {
    let legs_in: f64 = facts.menisci_in.iter().map(|level| level.abs()).sum();
    legs_in * facts.fluid.relative_density()
}
