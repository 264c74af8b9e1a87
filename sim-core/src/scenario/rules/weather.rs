//! The rule on weather and elevation.

use super::{ScenarioFindings, ScenarioRule};
use crate::air::atmosphere;
use crate::scenario::Scenario;
use crate::units::Pressure;

/// Pressure and elevation belong together.
pub(super) const FITS_ELEVATION: ScenarioRule = ScenarioRule {
    id: "pressure-fits-elevation",
    about: "Station pressure, the pressure expected for the run and the average of the season are \
            within 40 mmHg of the standard atmosphere at the station's elevation: weather changes it \
            by 25 mmHg at most, and a pressure reduced to sea level is farther off on any hill.",
    find: fits_elevation,
};

/// How far weather can change station pressure, with some margin, mmHg (CHOSEN).
const ROOM_MMHG: f64 = 40.0;

fn fits_elevation(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let elevation_m = scenario.station.elevation_m;
    if !(-430.0..=4000.0).contains(&elevation_m) {
        // The rule on ranges reports an impossible elevation.
        return;
    }
    let standard = Pressure::from_pa(atmosphere::pressure_pa(elevation_m)).mmhg();
    let of_season = scenario.work_order.averages.map(|averages| {
        ("work_order.averages.pressure_mmhg", "pressure_mmhg", averages.pressure_mmhg)
    });
    let others = [
        ("weather.pressure_mmhg", "pressure_mmhg", scenario.weather.pressure_mmhg.centre()),
        (
            "work_order.run_pressure_mmhg",
            "run_pressure_mmhg",
            scenario.work_order.run_pressure_mmhg,
        ),
    ];
    for (path, name, mmhg) in others.into_iter().chain(of_season) {
        // The rule on ranges also reports an impossible pressure.
        if (400.0..=820.0).contains(&mmhg) && (mmhg - standard).abs() > ROOM_MMHG {
            findings.add(
                path,
                format!("{name} {mmhg} does not fit an elevation of {elevation_m} m"),
                format!(
                    "write the station pressure, not the pressure reduced to sea level: the \
                     standard atmosphere has {standard:.0} mmHg there"
                ),
            );
        }
    }
}
