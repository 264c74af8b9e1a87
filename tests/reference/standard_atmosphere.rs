//! The standard atmosphere.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::atmosphere;

use super::{number, table};

pub fn rows() -> Vec<Row> {
    let (mut tools, mut closed, mut warmth) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("standard_atmosphere.csv") {
        let height = number(&row, "z_geometric_m");
        tools.relative(atmosphere::pressure_pa(height), number(&row, "p_ambiance_Pa"));
        closed.relative(atmosphere::pressure_pa(height), number(&row, "p_closed_form_Pa"));
        warmth.absolute(atmosphere::temperature_k(height), number(&row, "T_K"));
    }
    // Published at geopotential heights: 1000 m is 1000.16 m of geometric height.
    let mut published = Worst::new();
    for (geopotential, pascals) in [(1000.0, 89_874.6), (2000.0, 79_495.2)] {
        let height = 6_356_766.0 * geopotential / (6_356_766.0 - geopotential);
        published.absolute(atmosphere::pressure_pa(height), pascals);
    }
    const TOOLS: &str = "computed from the US Standard Atmosphere 1976 with ambiance";
    vec![
        tools.row("standard atmosphere, pressure", TOOLS, Mark::Computed, "relative", 5e-5),
        closed.row(
            "standard atmosphere, pressure",
            "computed from the closed form with independent tools",
            Mark::Computed,
            "relative",
            3e-5,
        ),
        warmth.row("standard atmosphere, temperature", TOOLS, Mark::Computed, "K", 1e-3),
        published.row(
            "standard atmosphere, pressure at 1000 and 2000 m (geopotential)",
            "US Standard Atmosphere 1976, tables",
            Mark::Published,
            "Pa",
            0.06,
        ),
    ]
}

#[test]
fn the_atmosphere_thins_as_the_tables_say() {
    assert_rows(&rows());
}
