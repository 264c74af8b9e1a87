//! `sums`: the calculations of a calibration alone, from a file of readings.

mod complete;
mod readings;
mod report;
mod sections;
mod table;
mod text;
mod values;
mod wrong_entry;

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use sessions::{FrontEndError, Outcome, printable_json, printable_path, read_text};
use sim_core::calibration::Concern;
use sim_core::scenario::text_places::TextPlaces;

use self::report::Report;
use self::wrong_entry::WrongEntry;
use super::json::not_json;

/// Calculates a calibration, a set point and a sampled volume from a file of readings.
///
/// Works out the transfer standard, the calibration line, the set point, the sampled volume and the
/// concentration by 40 CFR Part 50, Appendix B, and reports every limit that is exceeded. This is a
/// training aid: the site's own procedure comes first.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: steady-draw sums readings.ron --json\n\
                  `steady-draw sums --help` describes the file.",
    after_long_help = concat!(
        include_str!("sums/help.txt"),
        include_str!("sums/example.ron"),
        include_str!("sums/keys.txt"),
        "\nExample: steady-draw sums readings.ron --json"
    )
)]
pub struct SumsArguments {
    /// The file of readings, in RON
    pub file: PathBuf,
    /// Print one JSON object and nothing else
    #[arg(long)]
    pub json: bool,
}

/// Prints the calculations of a file. Negative when the calibration exceeds a limit.
///
/// # Errors
///
/// When the file cannot be read or is wrong, a reading gives no result, or the output fails.
pub fn run(arguments: &SumsArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let report = worked_out(arguments)?;
    if arguments.json {
        let json = serde_json::to_string_pretty(&report).map_err(|error| not_json(&error))?;
        writeln!(out, "{}", printable_json(&json))?;
    } else {
        table::print(&report, out)?;
    }
    let exceeded = report.problems.iter().any(|problem| problem.concern() == Concern::Calibration);
    Ok(if exceeded { Outcome::Negative } else { Outcome::Done })
}

/// Reads the file and works it out.
fn worked_out(arguments: &SumsArguments) -> Result<Report, FrontEndError> {
    let name = printable_path(&arguments.file);
    let text = read_text(&arguments.file)?;
    let sections = text::sections(&text)
        .map_err(|problem| FrontEndError::Wrong(format!("{name}:{problem}")))?;
    let readings = complete::complete(&sections).map_err(|entries| wrong(&name, &text, entries))?;
    Report::work_out(&readings).map_err(|entry| wrong(&name, &text, vec![entry]))
}

/// Entries that are wrong, in the order in which they are written, each with its line and column.
fn wrong(name: &str, text: &str, mut entries: Vec<WrongEntry>) -> FrontEndError {
    let places = TextPlaces::of(text);
    entries.sort_by_key(|entry| entry.place(&places));
    let message = |entry: &WrongEntry| {
        let place = entry.place(&places);
        format!("{name}:{}:{}: {}", place.line, place.column, entry.what)
    };
    FrontEndError::Wrong(entries.iter().map(message).collect::<Vec<_>>().join("\n"))
}
