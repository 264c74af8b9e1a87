//! `sums`: the sums alone, from a file of readings.

mod file;
mod place;
mod report;
mod sections;
mod table;
mod values;

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use sessions::{FrontEndError, Outcome, read_text};
use sim_core::calibration::Concern;

use self::file::SumsFile;
use self::report::Report;

/// Work out the sums of a calibration from a file of readings
///
/// Transfer standard, calibration line, set point, sampled volume and concentration, by
/// 40 CFR Part 50 Appendix B, and every limit that they break. A training aid: the site's own
/// procedure comes first.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: steady-draw sums readings.ron --json\n\
                  `steady-draw sums --help` shows what stands in the file.",
    after_long_help = concat!(
        include_str!("sums/help.txt"),
        include_str!("sums/example.ron"),
        include_str!("sums/keys.txt"),
        "\nExample: steady-draw sums readings.ron --json"
    )
)]
pub struct SumsArguments {
    /// The readings, a RON file
    pub file: PathBuf,
    /// Print one JSON object and nothing else
    #[arg(long)]
    pub json: bool,
}

/// Works the file out and prints the sums. Negative when the calibration breaks a limit.
///
/// # Errors
///
/// When the file cannot be read or is wrong, a reading gives no result, or the output cannot be
/// written.
pub fn run(arguments: &SumsArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let path = arguments.file.display();
    let text = read_text(&arguments.file)?;
    let file = SumsFile::read(&text).map_err(|problems| {
        let lines: Vec<_> = problems.iter().map(|problem| format!("{path}:{problem}")).collect();
        FrontEndError::Wrong(lines.join("\n"))
    })?;
    let report = Report::work_out(&file)
        .map_err(|problem| FrontEndError::Wrong(format!("{path}: {problem}")))?;
    if arguments.json {
        let json = serde_json::to_string_pretty(&report)
            .map_err(|error| FrontEndError::Wrong(format!("cannot write the sums: {error}")))?;
        writeln!(out, "{json}")?;
    } else {
        table::print(&report, out)?;
    }
    let broken = report.problems.iter().any(|problem| problem.concern() == Concern::Calibration);
    Ok(if broken { Outcome::Negative } else { Outcome::Done })
}
