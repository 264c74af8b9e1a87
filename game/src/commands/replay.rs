//! `replay`: has a session again from its journal, verifies every checksum, and marks it.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use report::files::ExistingFiles;
use report::session::SessionReport;
use report::{cost_words, debrief, files};
use serde_json::json;
use sessions::{FrontEndError, MarkedSession, Outcome, mark_ended, read_journal};
use sim_core::session::journal::NullSink;
use sim_core::session::replay;

use super::paper::PaperArgument;

/// Has a session again from its journal, verifies every checksum, and marks it.
///
/// Exit status 0: the journal holds and the session passed. 1: it holds and the session has not
/// passed yet, has not ended, or its last line was broken off. 2: it does not hold; the line is named.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  steady-draw replay out/01/session.journal\n  steady-draw replay out/01/session.journal --out report --operator \"R. Lindqvist\""
)]
pub struct ReplayArguments {
    /// The journal.
    pub journal: PathBuf,
    /// Write the report into this folder: report.html, report.pdf, readings.csv, marks.json and
    /// debrief.txt. It is made if it is not there.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Replace the report that stands in that folder.
    #[arg(long, requires = "out")]
    pub replace: bool,
    /// Who did the work, for the head of the report.
    #[arg(long, value_name = "NAME")]
    pub operator: Option<String>,
    /// Paper size of the report.
    #[command(flatten)]
    pub paper: PaperArgument,
    /// One JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
}

/// Runs the command.
///
/// # Errors
///
/// When the journal cannot be read or does not hold.
pub fn run(arguments: &ReplayArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let text = read_journal(&arguments.journal)?;
    let replayed = replay::replay(&text, Box::new(NullSink)).map_err(|error| {
        FrontEndError::Wrong(format!("{}: {error}", arguments.journal.display()))
    })?;
    let (checks, cut_short) = (replayed.checks, replayed.cut_short);
    let session = replayed.session;
    let seconds = session.now().seconds();
    let digest = session.digest();
    if session.ended().is_none() {
        if arguments.json {
            let object = json!({
                "ended": null, "bench_seconds": seconds, "checksums": checks,
                "last_line_broken": cut_short, "state": digest,
            });
            writeln!(out, "{object}")?;
        } else {
            writeln!(out, "The journal holds: {checks} checksums, {seconds:.0} s of bench time.")?;
            if cut_short {
                writeln!(out, "Its last line was broken off and has been left out.")?;
            }
            writeln!(out, "The session has not ended: go on with it by drive --resume.")?;
            if arguments.out.is_some() {
                writeln!(out, "There is no report of it yet.")?;
            }
        }
        return Ok(Outcome::Negative);
    }
    let ended = mark_ended(session)?;
    if let Some(folder) = &arguments.out {
        let existing = if arguments.replace { ExistingFiles::Replace } else { ExistingFiles::Keep };
        files::prepare_folder(folder, existing)?;
    }
    let report = SessionReport::of(&ended, arguments.operator.as_deref());
    let mut object = files::object(&report);
    for (name, value) in [
        ("checksums", json!(checks)),
        ("last_line_broken", json!(cut_short)),
        ("state", json!(digest)),
    ] {
        object[name] = value;
    }
    if let Some(folder) = &arguments.out {
        files::write(folder, &report, &object, arguments.paper.paper)?;
    }
    let MarkedSession { signed, head, marks, costs } = &ended;
    if arguments.json {
        writeln!(out, "{object}")?;
    } else {
        writeln!(out, "The journal holds: {checks} checksums, {seconds:.0} s of bench time.")?;
        if cut_short {
            writeln!(out, "Its last line was broken off and has been left out.")?;
        }
        debrief::write_marks(out, marks, signed.setup.station.start)?;
        cost_words::write_costs(out, costs)?;
        debrief::write_compared(out, &report.figures)?;
        writeln!(out, "\nHead of the journal: {head}")?;
        if let Some(folder) = &arguments.out {
            writeln!(out, "The report is in {}.", folder.display())?;
        }
    }
    Ok(if marks.passed && !cut_short { Outcome::Done } else { Outcome::Negative })
}
