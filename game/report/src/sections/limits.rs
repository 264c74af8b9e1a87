//! The limits that the work is held to, each with its source.

use content::document::{CellAlign, Table};
use sim_core::calibration::{
    FEWEST_POINTS, HIGHEST_FLOW_M3_MIN, HIGHEST_FLOW_STD_M3_MIN, LARGEST_OFF_LINE_M3_MIN,
    LEAST_CORRELATION, LOWEST_FLOW_M3_MIN, LOWEST_FLOW_STD_M3_MIN, RUN_MINUTES,
    RUN_MINUTES_TOLERANCE, STANDARD_PRESSURE_MMHG, STANDARD_TEMPERATURE_K,
};

use super::super::document::Block;

/// The section.
pub fn limits() -> Vec<Block> {
    let left = CellAlign::Left;
    let mut table = Table::new([("limit", left), ("value", left), ("source", left)]);
    for (what, value, source) in rows() {
        table.row([what.to_owned(), value, source.to_owned()]);
    }
    vec![
        Block::Heading("Limits and their sources".to_owned()),
        Block::Table(table),
        Block::Note("The source of each rule is given with its finding.".to_owned()),
    ]
}

/// Each limit with its value and its source. Those of the method were
/// read (READ); the largest distance from the line and the least correlation are from memory (MEMORY).
fn rows() -> [(&'static str, String, &'static str); 9] {
    [
        (
            "standard conditions",
            format!("{STANDARD_TEMPERATURE_K:.0} K, {STANDARD_PRESSURE_MMHG:.0} mmHg"),
            "40 CFR Part 50, App. B, 2.2 and 9.3.7",
        ),
        (
            "flow during sampling, in the air of the run",
            format!("{LOWEST_FLOW_M3_MIN} to {HIGHEST_FLOW_M3_MIN} m³/min"),
            "40 CFR Part 50, App. B, 7.2 and 8.8",
        ),
        (
            "range that the points include",
            format!("{LOWEST_FLOW_STD_M3_MIN} to {HIGHEST_FLOW_STD_M3_MIN} std m³/min"),
            "40 CFR Part 50, App. B, 9.3.8",
        ),
        ("points in all", format!("at least {FEWEST_POINTS}"), "common practice"),
        (
            "warm-up before the first point",
            "at least 5 min".to_owned(),
            "40 CFR Part 50, App. B, 9.3.3",
        ),
        ("time at each flow", "at least 2 min".to_owned(), "40 CFR Part 50, App. B, 9.3.6"),
        (
            "distance of a point from the line",
            format!("at most {LARGEST_OFF_LINE_M3_MIN} m³/min"),
            "common practice",
        ),
        (
            "correlation coefficient",
            format!("above {LEAST_CORRELATION:.3}"),
            "common practice; 40 CFR Part 50, App. B, sets no limit",
        ),
        (
            "length of a run",
            format!("{RUN_MINUTES:.0} ± {RUN_MINUTES_TOLERANCE:.0} min"),
            "40 CFR Part 50, App. B, 8.15",
        ),
    ]
}
