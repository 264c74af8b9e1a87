//! Rules on weather and place.

use super::{Findings, Rule};
use crate::math;
use crate::scenario::Scenario;

/// Pressure and elevation belong together.
pub(super) const FITS_ELEVATION: Rule = Rule {
    id: "pressure-fits-elevation",
    about: "Station pressure, and the pressure expected for the run, lie within 40 mmHg of the \
            standard atmosphere at the station's elevation: weather moves it by 25 mmHg at most, a \
            pressure reduced to sea level is further off on any hill.",
    find: fits_elevation,
};

/// How far weather can move station pressure, with some room, mmHg (CHOSEN).
const ROOM_MMHG: f64 = 40.0;

fn fits_elevation(scenario: &Scenario, findings: &mut Findings<'_>) {
    let elevation_m = scenario.station.elevation_m;
    if !(-430.0..=4000.0).contains(&elevation_m) {
        // No elevation at all is reported by the rule on ranges.
        return;
    }
    let standard = standard_atmosphere_mmhg(elevation_m);
    for (path, name, mmhg) in [
        ("weather.pressure_mmhg", "pressure_mmhg", scenario.weather.pressure_mmhg.centre()),
        (
            "work_order.run_pressure_mmhg",
            "run_pressure_mmhg",
            scenario.work_order.run_pressure_mmhg,
        ),
    ] {
        // So is what is no pressure at all.
        if (400.0..=820.0).contains(&mmhg) && (mmhg - standard).abs() > ROOM_MMHG {
            findings.add(
                path,
                format!("{name} {mmhg} does not belong to an elevation of {elevation_m} m"),
                format!(
                    "write the station pressure, not that of sea level: the standard atmosphere \
                     has {standard:.0} mmHg there"
                ),
            );
        }
    }
}

/// Pressure of the standard atmosphere, mmHg, at a height z in m: 760 (1 - 2.25577e-5 z)^5.25588
/// (US Standard Atmosphere 1976 in its handbook form, from memory), up to 11 km.
fn standard_atmosphere_mmhg(elevation_m: f64) -> f64 {
    760.0 * math::pow((1.0 - 2.25577e-5 * elevation_m).max(0.0), 5.25588)
}
