//! `replay`: replays a session from its journal, verifies every checksum, and marks it.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use report::files::ExistingFiles;
use report::session::SessionReport;
use report::{cost_words, debrief, files};
use serde_json::json;
use sessions::{FrontEndError, MarkedSession, Outcome, mark_ended, printable_path, read_journal};
use sim_core::session::journal::NullSink;
use sim_core::session::replay;

use super::json::print_object;
use super::paper::PaperArgument;

/// Replays a session from its journal, verifies every checksum, and marks the session.
///
/// Exit status 0: the journal is intact and the session was passed. 1: the journal is intact, but the
/// session was not passed or has not ended, or the last line is incomplete. 2: the journal is damaged
/// (the message names the line) or could not be read, or the output could not be written.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  steady-draw replay out/01/session.journal\n  steady-draw replay out/01/session.journal --out report --operator \"R. Lindqvist\""
)]
pub struct ReplayArguments {
    /// The journal.
    pub journal: PathBuf,
    /// Write the report (report.html, report.pdf, readings.csv, marks.json and debrief.txt) to this
    /// folder, which is created if it does not exist.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Replace an earlier report in that folder.
    #[arg(long, requires = "out")]
    pub replace: bool,
    /// The name of the trainee, for the top of the report.
    #[arg(long, value_name = "NAME")]
    pub operator: Option<String>,
    /// Paper size of the report.
    #[command(flatten)]
    pub paper: PaperArgument,
    /// Print one JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
}

/// What the journal itself came to.
struct Replay {
    checks: usize,
    seconds: f64,
    cut_short: bool,
    digest: String,
}

/// Runs the command.
///
/// # Errors
///
/// When the journal cannot be read or is damaged, or a report cannot be written.
pub fn run(arguments: &ReplayArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let text = read_journal(&arguments.journal)?;
    let replayed = replay::replay(&text, Box::new(NullSink)).map_err(|error| {
        FrontEndError::Wrong(format!("{}: {error}", printable_path(&arguments.journal)))
    })?;
    let session = replayed.session;
    let replay = Replay {
        checks: replayed.checks,
        seconds: session.now().seconds(),
        cut_short: replayed.cut_short,
        digest: session.digest(),
    };
    if session.ended().is_none() {
        write_unfinished(arguments, &replay, out)?;
        return Ok(Outcome::Negative);
    }
    let ended = mark_ended(session)?;
    write_ended(arguments, &replay, &ended, out)?;
    let passed = ended.marks.passed && !replay.cut_short;
    Ok(if passed { Outcome::Done } else { Outcome::Negative })
}

/// Reports a session that has not ended.
fn write_unfinished(
    arguments: &ReplayArguments,
    replay: &Replay,
    out: &mut dyn Write,
) -> Result<(), FrontEndError> {
    if arguments.json {
        let object = json!({
            "ended": null, "bench_seconds": replay.seconds, "checksums": replay.checks,
            "last_line_broken": replay.cut_short, "state": replay.digest,
        });
        return print_object(out, &object);
    }
    write_intact(out, replay)?;
    writeln!(out, "The session has not ended: continue it with drive --resume.")?;
    if arguments.out.is_some() {
        writeln!(out, "There is no report until it has ended.")?;
    }
    Ok(())
}

/// Reports a session that has ended, and writes its files.
fn write_ended(
    arguments: &ReplayArguments,
    replay: &Replay,
    ended: &MarkedSession,
    out: &mut dyn Write,
) -> Result<(), FrontEndError> {
    if let Some(folder) = &arguments.out {
        let existing = if arguments.replace { ExistingFiles::Replace } else { ExistingFiles::Keep };
        files::prepare_folder(folder, existing)?;
    }
    let report = SessionReport::of(ended, arguments.operator.as_deref());
    let mut object = files::object(&report);
    for (name, value) in [
        ("checksums", json!(replay.checks)),
        ("last_line_broken", json!(replay.cut_short)),
        ("state", json!(replay.digest)),
    ] {
        object[name] = value;
    }
    if let Some(folder) = &arguments.out {
        files::write(folder, &report, &object, arguments.paper.paper)?;
    }
    if arguments.json {
        return print_object(out, &object);
    }
    let MarkedSession { session, head, marks, costs } = ended;
    write_intact(out, replay)?;
    debrief::write_marks(out, marks, session.setup.station.start)?;
    cost_words::write_costs(out, costs)?;
    debrief::write_compared(out, &report.figures)?;
    writeln!(out, "\nHead of the journal: {head}")?;
    if let Some(folder) = &arguments.out {
        writeln!(out, "The report is in {}.", printable_path(folder))?;
    }
    Ok(())
}

/// Says that the journal is intact, and how much of a session it holds.
fn write_intact(out: &mut dyn Write, replay: &Replay) -> std::io::Result<()> {
    let Replay { checks, seconds, .. } = replay;
    writeln!(out, "The journal is intact: {checks} checksums, {seconds:.0} s of bench time.")?;
    if replay.cut_short {
        writeln!(out, "Its last line is incomplete and was left out.")?;
    }
    Ok(())
}
