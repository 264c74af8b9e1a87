//! Barometer and thermometer.

use super::super::bench::{self, Site, Written};
use super::super::draw::Draw;
use super::super::drawn::{Counted, Drawn, Gauge, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillLook};
use super::super::slip::DrillSlip;
use super::misread::misread;
use crate::rig::parts::BarometerReference;
use crate::rig::station::barometer::Barometer;
use crate::session::action::{Action, Sight};
use crate::units::PA_PER_MMHG;

/// In so many questions the barometer is found set to sea level.
const AT_SEA_LEVEL: f64 = 0.25;
/// Temperatures, degrees Celsius: from the coldest to the warmest work.
const TEMPERATURES_C: (f64, f64) = (-18.0, 44.0);

/// The station pressure by the barometer.
pub(super) fn barometer(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let (mut bench, site) = bench::begin(draw, &Written::default())?;
    bench::act_all(&mut bench, [Action::Look { at: Sight::Barometer, eye_mm: 0.0 }]);
    let mut view = bench.view();
    let Site { elevation_m, .. } = site;
    let station_mmhg = view.barometer.pointer_mmhg;
    let sea_mmhg = Barometer::new(elevation_m, BarometerReference::SeaLevel)
        .pointer_mmhg(station_mmhg * PA_PER_MMHG);
    if draw.happens(AT_SEA_LEVEL) {
        view.barometer.set_to = Some(BarometerReference::SeaLevel);
        view.barometer.pointer_mmhg = sea_mmhg;
    }
    let mut slips = vec![(DrillSlip::SeaLevel, sea_mmhg)];
    slips.extend(misread(station_mmhg, 1.0, 10.0));
    let truth = Truth::Number { value: station_mmhg, counted: Counted::Plainly, slips };
    let looks = vec![DrillLook { at_s: 0.0, view }];
    let mut drawn = Drawn::of(bench, Asked::StationPressure, looks, truth);
    drawn.gauge = Gauge::Barometer([station_mmhg, sea_mmhg]);
    Ok(drawn)
}

/// The temperature by the thermometer in its screen.
pub(super) fn thermometer(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let temperature_c = Some(draw.between(TEMPERATURES_C.0, TEMPERATURES_C.1));
    let (mut bench, _) = bench::begin(draw, &Written { temperature_c, ..Written::default() })?;
    bench::act_all(&mut bench, [Action::Look { at: Sight::Thermometer, eye_mm: 0.0 }]);
    let view = bench.view();
    let value = view.thermometer.column_c;
    let five = (value / 5.0).floor() * 5.0;
    let mut slips = vec![
        (DrillSlip::Sign, -value),
        (DrillSlip::HalfTakenForWhole, five + 2.0 * (value - five)),
    ];
    // One degree beside it: half a degree beside it is within what is asked for.
    slips.extend(misread(value, 1.0, 5.0));
    let truth = Truth::Number { value, counted: Counted::Plainly, slips };
    Ok(Drawn::of(bench, Asked::Temperature, vec![DrillLook { at_s: 0.0, view }], truth))
}
