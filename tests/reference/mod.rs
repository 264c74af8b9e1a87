//! Figures from outside the project. Each module holds one law or sum against its table in `data/`
//! and gives its rows to the qualification page.

mod air_density;
mod blower_curves;
mod by_hand;
mod energy;
mod filter_loading;
mod five_points;
mod flow_controller_loop;
mod laboratories;
mod leak_divider;
mod lines_of_the_rig;
mod meniscus;
mod norris;
mod operating_points;
mod operating_points_filter;
mod orifice;
mod orifice_line;
mod pen_play;
mod pen_taps;
mod plain;
mod published_concentration;
mod published_ranges;
mod standard_atmosphere;
mod test_theory;
mod trapped_air;
mod u_tube;
mod u_tube_tilt;
mod units;
mod warm_up;
mod warm_water;
mod water_density;
mod worked_sampler;
mod worked_transfer_standard;

use bench_tests::{Mark, Row};

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

/// Rows of the qualification page under one heading.
pub struct Group {
    /// The heading.
    pub title: &'static str,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// Every row of the qualification page, under its headings and in its order.
pub fn groups() -> Vec<Group> {
    let group = |title, rows: &[Vec<Row>]| Group { title, rows: rows.concat() };
    vec![
        group("Units", &[units::rows()]),
        group(
            "Air and water",
            &[
                air_density::rows(),
                standard_atmosphere::rows(),
                water_density::rows(),
                warm_water::rows(),
            ],
        ),
        group("Orifice", &[orifice::rows(), orifice_line::rows()]),
        group(
            "Blower and flow path",
            &[
                blower_curves::rows(),
                operating_points::rows(),
                lines_of_the_rig::rows(),
                warm_up::rows(),
            ],
        ),
        group("Filter", &[operating_points_filter::rows(), filter_loading::rows()]),
        group("Published of samplers", &[published_ranges::rows()]),
        group("Flow controller", &[flow_controller_loop::rows()]),
        group(
            "Manometer, tube and leaking lines",
            &[
                u_tube::rows(),
                u_tube_tilt::rows(),
                trapped_air::rows(),
                leak_divider::rows(),
                meniscus::rows(),
            ],
        ),
        group("Recorder", &[pen_play::rows(), pen_taps::rows()]),
        group(
            "Sums",
            &[
                norris::rows(),
                five_points::rows(),
                worked_transfer_standard::rows(),
                worked_sampler::rows(),
                published_concentration::rows(),
                by_hand::rows(),
            ],
        ),
        group("Whole calibrations", &[laboratories::rows()]),
        group("Statistics of examinations", &[test_theory::rows()]),
    ]
}

/// Every row of the qualification page.
fn rows() -> Vec<Row> {
    groups().into_iter().flat_map(|group| group.rows).collect()
}

#[test]
fn every_row_holds() {
    bench_tests::assert_rows(&rows());
}

#[test]
fn every_source_says_how_sure_it_is() {
    for row in rows() {
        let computed = row.source.starts_with("computed ");
        assert_eq!(computed, row.mark == Mark::Computed, "{}: {}", row.law, row.source);
    }
}
