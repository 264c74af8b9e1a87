//! Figures from outside the project. Each module holds one law or sum against its table in `data/`
//! and gives its rows to the qualification page.

use bench_tests::Row;

pub mod five_points;
pub mod leak_divider;
pub mod norris;
pub mod pen_play;
pub mod published_concentration;
pub mod trapped_air;
pub mod u_tube;
pub mod u_tube_tilt;
pub mod units;
pub mod worked_sampler;
pub mod worked_transfer_standard;

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
