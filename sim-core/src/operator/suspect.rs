//! What an operator takes for usual, and which instrument is suspected when something is not.

use super::Scene;
use super::mind::Mind;
use crate::math;
use crate::session::action::{FaultPlace, Response};
use crate::session::view::OrificeEdge;

/// Flow that a sampler of this kind draws through a fully open calibrator in air of 1.2 kg/m3, at
/// the conditions of the air, m3/min (the bench's own design).
const USUAL_OPEN_M3_MIN: f64 = 1.70;
/// Exponent of the density with which that flow goes (the bench's own design, computed).
const USUAL_DENSITY_EXPONENT: f64 = -0.267;
/// Pressure and kelvins over density of dry air, mmHg m3 K/kg: 287.05/133.322.
const MMHG_M3_K_KG: f64 = 2.153;

/// Wind, as felt, that moves a column of water.
const GUSTY: f64 = 0.12;
/// Part of the usual flow below which a blower is weak.
const WEAK: f64 = 0.94;

/// The standard atmosphere's pressure at a height, mmHg.
///
/// p = 760 (1 - 0.0065 h/288.15)^5.25588, h the height (m) taken as geopotential, -500 to 9000 m
/// (US Standard Atmosphere 1976, from memory).
pub(super) fn standard_atmosphere_mmhg(elevation_m: f64) -> f64 {
    let height_m = elevation_m.clamp(-500.0, 9000.0);
    760.0 * math::pow(1.0 - 0.0065 * height_m / 288.15, 5.25588)
}

/// Flow at standard conditions that a fully open calibrator usually lets through, m3/min.
fn usual_open_std_m3_min(pressure_mmhg: f64, temperature_k: f64) -> f64 {
    let density_kg_m3 = pressure_mmhg / (MMHG_M3_K_KG * temperature_k);
    let actual = USUAL_OPEN_M3_MIN * math::pow(density_kg_m3 / 1.2, USUAL_DENSITY_EXPONENT);
    actual * pressure_mmhg / 760.0 * 298.0 / temperature_k
}

/// Which of two instruments is further from what is usual with the calibrator fully open.
///
/// `flow` is what the manometer says, `chart_flow` what the recorder says by the last line, both at
/// standard conditions, m3/min.
pub(super) fn further_off(
    flow: f64,
    chart_flow: f64,
    pressure_mmhg: f64,
    temperature_k: f64,
) -> FaultPlace {
    let usual = usual_open_std_m3_min(pressure_mmhg, temperature_k);
    if (flow - usual).abs() >= (chart_flow - usual).abs() {
        FaultPlace::Manometer
    } else {
        FaultPlace::Recorder
    }
}

/// Gives the calibration up when the edge of the orifice, now in focus, is unfit.
pub(super) fn edge(scene: &Scene<'_>, mind: &mut Mind) {
    let why = match scene.view.calibrator.edge {
        Some(OrificeEdge::Nicked) => "the edge of the calibrator's orifice is nicked",
        Some(OrificeEdge::Dirty) => "the edge of the calibrator's orifice is dirty",
        Some(OrificeEdge::Sharp) | None => return,
    };
    mind.rejects(FaultPlace::Calibrator, why);
}

/// Reports gusts that are felt, and a blower that is heard to waver.
pub(super) fn air_and_sound(scene: &Scene<'_>, mind: &mut Mind) {
    if scene.view.blower.wavering {
        mind.reports(
            FaultPlace::Blower,
            Response::Noted,
            "the blower's sound wavers: worn brushes or wandering mains",
        );
    }
    if scene.view.sky.wind > GUSTY {
        restless(mind);
    }
}

/// Reports gusts, felt or seen in a column that does not come to rest.
pub(super) fn restless(mind: &mut Mind) {
    mind.reports(FaultPlace::Weather, Response::Noted, "gusts press on the open leg");
}

/// Reports a blower that draws too little, when both instruments agree that it does.
pub(super) fn weak_blower(flow: f64, pressure_mmhg: f64, temperature_k: f64, mind: &mut Mind) {
    if flow < WEAK * usual_open_std_m3_min(pressure_mmhg, temperature_k) {
        mind.reports(
            FaultPlace::Blower,
            Response::Noted,
            "the blower draws less than it should: low mains or dragging bearings",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::{further_off, standard_atmosphere_mmhg, usual_open_std_m3_min};
    use crate::session::action::FaultPlace;

    #[test]
    fn the_usual_flow_holds_at_both_reference_sites() {
        assert!((usual_open_std_m3_min(760.0, 293.15) - 1.729).abs() < 0.01);
        assert!((usual_open_std_m3_min(626.5, 278.15) - 1.560).abs() < 0.01);
    }

    #[test]
    fn the_standard_atmosphere_at_1600_m() {
        assert!((standard_atmosphere_mmhg(1600.0) - 626.5).abs() < 0.1);
    }

    #[test]
    fn a_short_column_points_to_the_manometer_and_a_low_pen_to_the_recorder() {
        assert_eq!(further_off(1.65, 1.73, 760.0, 293.15), FaultPlace::Manometer);
        assert_eq!(further_off(1.73, 1.60, 760.0, 293.15), FaultPlace::Recorder);
    }
}
