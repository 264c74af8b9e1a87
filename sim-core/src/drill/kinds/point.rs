//! The calculations of one point, by hand.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Counted, Drawn, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillSheet, PointSheet};
use super::super::slip::DrillSlip;
use crate::calibration::{
    AirConditions, Expression, PointReading, RecorderScale, STANDARD_PRESSURE_MMHG,
    STANDARD_TEMPERATURE_K, TransferStandard,
};
use crate::scenario::setup::CertificatePair;
use crate::units::{Pressure, Temperature, ZERO_CELSIUS_K};

/// The question: flow or corrected chart reading of a point.
pub(super) fn draw(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let (bench, site) = bench::begin(draw, &Written::default())?;
    let papers = bench.papers();
    let paper = papers.certificates.first();
    let paper = paper.ok_or_else(|| DrawError::new("there is no certificate"))?;
    // As they are written into a field book.
    let half = |value: f64| (value * 2.0).round() / 2.0;
    let fall_in = half_tenth(draw.between(0.8, 3.6));
    let sheet = PointSheet {
        pressure_mmhg: half(site.pressure_mmhg),
        temperature_c: half(site.temperature_c),
        rise_in: half_tenth(fall_in + draw.side() * draw.between(0.1, 0.5)),
        fall_in,
        chart: half(draw.between(34.0, 62.0)),
        standard: paper.standard,
        actual: paper.actual,
    };
    let asked = if draw.happens(0.6) { Asked::PointFlow } else { Asked::PointTerm };
    let (flow, term) = right(&sheet)?;
    let (value, slips) = match asked {
        Asked::PointFlow => (flow, flow_slips(&sheet)),
        _ => (term, term_slips(&sheet)),
    };
    let truth = Truth::Number { value, counted: Counted::InPercent, slips };
    let mut drawn = Drawn::of(bench, asked, Vec::new(), truth);
    drawn.sheet = Some(DrillSheet::Point(sheet));
    Ok(drawn)
}

/// A reading of a leg as it is written down: to half a tenth of an inch.
fn half_tenth(value_in: f64) -> f64 {
    (value_in * 20.0).round() / 20.0
}

/// Flow and corrected chart reading, by the calculations of the method.
fn right(sheet: &PointSheet) -> Result<(f64, f64), DrawError> {
    let conditions = AirConditions::new(
        Pressure::from_mmhg(sheet.pressure_mmhg),
        Temperature::from_c(sheet.temperature_c),
    )
    .map_err(DrawError::new)?;
    let reading = PointReading {
        delta_h_inh2o: sheet.rise_in + sheet.fall_in,
        chart: sheet.chart,
        conditions,
    };
    let CertificatePair { slope, intercept } = sheet.standard;
    let standard = TransferStandard::new(slope, intercept).map_err(DrawError::new)?;
    let expression = Expression::actual(RecorderScale::SquareRoot);
    reading.flow_and_term(standard, expression).map_err(DrawError::new)
}

/// Ratios of the air as somebody puts them: P/760 298/T is right.
fn ratios(sheet: &PointSheet) -> [(DrillSlip, f64); 4] {
    let pressure = sheet.pressure_mmhg / STANDARD_PRESSURE_MMHG;
    let kelvin = STANDARD_TEMPERATURE_K / (sheet.temperature_c + ZERO_CELSIUS_K);
    let celsius = STANDARD_TEMPERATURE_K / sheet.temperature_c;
    [
        (DrillSlip::NoAirCorrection, 1.0),
        (DrillSlip::RatioInverted, pressure / kelvin),
        (DrillSlip::RatioInverted, kelvin / pressure),
        (DrillSlip::Celsius, pressure * celsius),
    ]
}

/// P/760 298/T.
fn ratio(sheet: &PointSheet) -> f64 {
    let kelvin = sheet.temperature_c + ZERO_CELSIUS_K;
    sheet.pressure_mmhg / STANDARD_PRESSURE_MMHG * STANDARD_TEMPERATURE_K / kelvin
}

/// Flows that follow from slips.
fn flow_slips(sheet: &PointSheet) -> Vec<(DrillSlip, f64)> {
    let flow = |delta_h: f64, ratio: f64, pair: CertificatePair| {
        ((delta_h * ratio).max(0.0).sqrt() - pair.intercept) / pair.slope
    };
    let (both, pair) = (sheet.rise_in + sheet.fall_in, sheet.standard);
    let ratio = ratio(sheet);
    let root = (both * ratio).sqrt();
    let mut slips = vec![
        (DrillSlip::OneLeg, flow(sheet.rise_in, ratio, pair)),
        (DrillSlip::OneLeg, flow(sheet.fall_in, ratio, pair)),
        (DrillSlip::OneLegDoubled, flow(2.0 * sheet.rise_in, ratio, pair)),
        (DrillSlip::OneLegDoubled, flow(2.0 * sheet.fall_in, ratio, pair)),
        (DrillSlip::LegsSubtracted, flow((sheet.rise_in - sheet.fall_in).abs(), ratio, pair)),
        (DrillSlip::RootLeftOut, (both * ratio - pair.intercept) / pair.slope),
        (DrillSlip::InterceptLeftOut, root / pair.slope),
        (DrillSlip::InterceptAdded, (root + pair.intercept) / pair.slope),
        (DrillSlip::ActualPair, flow(both, ratio, sheet.actual)),
    ];
    slips.extend(ratios(sheet).map(|(slip, ratio)| (slip, flow(both, ratio, pair))));
    slips
}

/// Corrected chart readings that follow from slips.
fn term_slips(sheet: &PointSheet) -> Vec<(DrillSlip, f64)> {
    let term = |ratio: f64| sheet.chart * ratio.max(0.0).sqrt();
    let ratio = ratio(sheet);
    let mut slips = vec![(DrillSlip::RootLeftOut, sheet.chart * ratio)];
    slips.extend(ratios(sheet).map(|(slip, ratio)| (slip, term(ratio))));
    slips
}
