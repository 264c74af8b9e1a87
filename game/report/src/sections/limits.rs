//! The limits that the work is held to, each with its source.

use sim_core::calibration::{
    FEWEST_INSIDE, FEWEST_POINTS, HIGHEST_FLOW_STD_M3_MIN, LARGEST_OFF_LINE_M3_MIN,
    LEAST_CORRELATION, LOWEST_FLOW_STD_M3_MIN, RUN_MINUTES, RUN_MINUTES_TOLERANCE,
    STANDARD_PRESSURE_MMHG, STANDARD_TEMPERATURE_K,
};

use crate::document::{Block, Stands, Table};

/// The section.
pub fn limits() -> Vec<Block> {
    let left = Stands::Left;
    let mut table = Table::new([("limit", left), ("value", left), ("source", left)]);
    let mut row = |what: &str, value: String, source: &str| {
        table.row([what.to_owned(), value, source.to_owned()]);
    };
    row(
        "standard conditions",
        format!("{STANDARD_TEMPERATURE_K:.0} K, {STANDARD_PRESSURE_MMHG:.0} mmHg"),
        "40 CFR 50 App. B, 2.2 and 9.3.7",
    );
    row(
        "flow of a sample",
        format!("{LOWEST_FLOW_STD_M3_MIN} to {HIGHEST_FLOW_STD_M3_MIN} m³/min"),
        "40 CFR 50 App. B, 7.2 and 8.8",
    );
    row("points inside that range", format!("at least {FEWEST_INSIDE}"), "40 CFR 50 App. B, 9.2.5");
    row("points in all", format!("at least {FEWEST_POINTS}"), "common practice, no source");
    row("running before the first point", "at least 5 min".to_owned(), "40 CFR 50 App. B, 9.3.3");
    row("time at each flow", "at least 2 min".to_owned(), "40 CFR 50 App. B, 9.3.6");
    row(
        "point off the line",
        format!("at most {LARGEST_OFF_LINE_M3_MIN} m³/min"),
        "calibration forms of the sampling manuals (from memory)",
    );
    row(
        "correlation coefficient",
        format!("above {LEAST_CORRELATION:.3}"),
        "from memory; 40 CFR 50 App. B itself sets no limit",
    );
    row(
        "time of a run",
        format!("{RUN_MINUTES:.0} ± {RUN_MINUTES_TOLERANCE:.0} min"),
        "40 CFR 50 App. B, 8.15",
    );
    vec![
        Block::Heading("Limits and where they come from".to_owned()),
        Block::Table(table),
        Block::Note(
            "Without “from memory” or “common practice” the source was read. The source of every rule stands at its \
             finding."
                .to_owned(),
        ),
    ]
}
