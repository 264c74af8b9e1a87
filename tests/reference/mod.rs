//! Figures from outside the project. Each module holds one law or sum against its table in `data/`
//! and gives its rows to the qualification page.

mod air_density;
mod blower_curves;
mod filter_loading;
mod five_points;
mod flow_controller_loop;
mod leak_divider;
mod norris;
mod operating_points;
mod operating_points_filter;
mod orifice;
mod pen_play;
mod published_concentration;
mod standard_atmosphere;
mod trapped_air;
mod u_tube;
mod u_tube_tilt;
mod units;
mod warm_up;
mod water_density;
mod worked_sampler;
mod worked_transfer_standard;

use bench_tests::Row;

/// Reads a table from `data/`: comment lines begin with `#`, the first other line names the columns.
pub fn table(name: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let path = bench_tests::tests_folder().join("reference/data").join(name);
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(&path)
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    reader.deserialize().map(|row| row.unwrap_or_else(|error| panic!("{name}: {error}"))).collect()
}

/// A column of a row as a number.
pub fn number(row: &std::collections::BTreeMap<String, String>, column: &str) -> f64 {
    row.get(column)
        .unwrap_or_else(|| panic!("no column {column}"))
        .trim()
        .parse()
        .unwrap_or_else(|error| panic!("column {column}: {error}"))
}

/// Every row of the qualification page, in its order.
pub fn rows() -> Vec<Row> {
    [
        units::rows(),
        norris::rows(),
        five_points::rows(),
        worked_transfer_standard::rows(),
        worked_sampler::rows(),
        published_concentration::rows(),
        air_density::rows(),
        water_density::rows(),
        standard_atmosphere::rows(),
        orifice::rows(),
        blower_curves::rows(),
        operating_points::rows(),
        operating_points_filter::rows(),
        warm_up::rows(),
        filter_loading::rows(),
        flow_controller_loop::rows(),
        u_tube::rows(),
        u_tube_tilt::rows(),
        trapped_air::rows(),
        leak_divider::rows(),
        pen_play::rows(),
    ]
    .concat()
}

#[test]
fn every_row_holds() {
    bench_tests::assert_rows(&rows());
}
