//! A filter's day: deposit and resistance gained.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::rig::flow::filter::{Filter, FilterParameters};

use super::{number, table};

pub fn rows() -> Vec<Row> {
    let (mut deposit, mut mass, mut gained) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("filter_loading.csv") {
        let parameters = FilterParameters {
            loading_per_s: number(&row, "K2_Pa_s_m_per_kg_m2"),
            ..FilterParameters::default()
        };
        let mut filter = Filter::default();
        for _ in 0..24 * 60 {
            let dust_kg_m3 = number(&row, "conc_ug_m3") * 1e-9;
            filter.load(&parameters, 60.0, 1.3 / 60.0, dust_kg_m3);
        }
        let grams_m2 = filter.deposit_kg_m2 * 1e3;
        deposit.absolute(grams_m2, number(&row, "W_24h_g_m2"));
        mass.absolute(grams_m2 * parameters.exposed_area_m2 * 1e3, number(&row, "mass_mg"));
        let more = filter.resistance_pa_s_m(&parameters) - parameters.clean_pa_s_m;
        gained.absolute(more, number(&row, "dR_Pa_s_m"));
    }
    const SOURCE: &str = "computed from W = c Q t / A, dR = K2 W with Python";
    // Half a unit of the tables' last digits.
    vec![
        deposit.row("filter loading, deposit", SOURCE, Mark::Computed, "g/m2", 6e-4),
        mass.row("filter loading, mass", SOURCE, Mark::Computed, "mg", 0.06),
        gained.row("filter loading, resistance gained", SOURCE, Mark::Computed, "Pa s/m", 0.6),
    ]
}

#[test]
fn a_day_loads_the_filter_as_the_table_says() {
    assert_rows(&rows());
}
