//! Density and viscosity of water.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::water;

use super::{number, table};

pub fn rows() -> Vec<Row> {
    let (mut tanaka, mut iapws, mut viscosity) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("water_density.csv") {
        let kelvin = number(&row, "t_C") + 273.15;
        tanaka.relative(water::density_kg_m3(kelvin), number(&row, "rho_tanaka2001"));
        iapws.relative(water::density_kg_m3(kelvin), number(&row, "rho_iapws95"));
        viscosity.relative(water::kinematic_viscosity_m2_s(kelvin), number(&row, "nu_m2_s"));
    }
    vec![
        tanaka.row(
            "water density, 0 to 45 degrees",
            "computed from Tanaka et al., Metrologia 38 (2001) 301",
            Mark::Computed,
            "relative",
            1e-7,
        ),
        iapws.row(
            "water density, 0 to 45 degrees",
            "computed from IAPWS-95",
            Mark::Computed,
            "relative",
            5e-6,
        ),
        viscosity.row(
            "water kinematic viscosity, 0 to 45 degrees",
            "computed from the IAPWS formulations",
            Mark::Computed,
            "relative",
            2e-3,
        ),
    ]
}

#[test]
fn water_is_as_dense_and_viscous_as_the_tables_say() {
    assert_rows(&rows());
}
