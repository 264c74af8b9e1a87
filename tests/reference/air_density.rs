//! Density of moist air: the reference formula, and the simpler law that the rig uses.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::{AirState, cipm};

use super::{number, table};

pub fn rows() -> Vec<Row> {
    let (mut formula, mut independent, mut simple) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("air_density.csv") {
        let celsius = number(&row, "t_C");
        let state = AirState {
            pressure_pa: number(&row, "p_Pa"),
            temperature_k: celsius + 273.15,
            humidity: number(&row, "rh"),
        };
        let found = cipm::density_kg_m3(state.pressure_pa, state.temperature_k, state.humidity);
        formula.relative(found, number(&row, "rho_cipm2007"));
        // Below freezing the independent figures take humidity over ice.
        if celsius >= 0.0 {
            independent.relative(found, number(&row, "rho_coolprop"));
            simple.relative(state.density().kg_m3(), number(&row, "rho_coolprop"));
        }
    }
    const CIPM: &str = "computed from CIPM-2007 (Picard et al., Metrologia 45, 2008)";
    const COOLPROP: &str = "computed with CoolProp 8.0";
    vec![
        // The table has six decimals: half a unit of the last is 6e-7 of the smallest density.
        formula.row("moist air density, CIPM-2007", CIPM, Mark::Computed, "relative", 1e-6),
        independent.row(
            "moist air density, CIPM-2007, 0 to 45 degrees",
            COOLPROP,
            Mark::Computed,
            "relative",
            7e-5,
        ),
        simple.row(
            "moist air density, the rig's law, 0 to 45 degrees",
            COOLPROP,
            Mark::Computed,
            "relative",
            7e-4,
        ),
    ]
}

#[test]
fn air_is_as_dense_as_the_tables_say() {
    assert_rows(&rows());
}
