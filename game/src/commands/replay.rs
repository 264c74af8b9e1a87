//! `replay`: has a session again from its journal, verifies every checksum, and marks it.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use serde_json::json;
use sim_core::session::journal::NoInk;
use sim_core::session::replay;

use super::session_files::{Ended, end_of, read_journal};
use super::{CommandError, Outcome};
use crate::report::{cost_words, words as debrief};

/// Has a session again from its journal, verifies every checksum, and marks it.
///
/// Exit status 0: the journal holds and the session passed. 1: it holds and the session has not
/// passed yet, has not ended, or its last line was broken off. 2: it does not hold; the line is named.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  steady-draw replay out/01/session.journal")]
pub struct ReplayArguments {
    /// The journal.
    pub journal: PathBuf,
    /// One JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
}

/// Runs the command.
///
/// # Errors
///
/// When the journal cannot be read or does not hold.
pub fn run(arguments: &ReplayArguments, out: &mut dyn Write) -> Result<Outcome, CommandError> {
    let text = read_journal(&arguments.journal)?;
    let replayed = replay::replay(&text, Box::new(NoInk)).map_err(|error| {
        CommandError::Wrong(format!("{}: {error}", arguments.journal.display()))
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
        }
        return Ok(Outcome::Negative);
    }
    let Ended { signed, head, marks, costs } = end_of(session)?;
    if arguments.json {
        let object = json!({
            "ended": signed.ended, "bench_seconds": seconds, "checksums": checks,
            "last_line_broken": cut_short, "state": digest, "journal_head": head,
            "scenario_sha256": signed.source.sha256, "seed": signed.source.seed, "marks": marks, "costs": costs,
        });
        writeln!(out, "{object}")?;
    } else {
        writeln!(out, "The journal holds: {checks} checksums, {seconds:.0} s of bench time.")?;
        if cut_short {
            writeln!(out, "Its last line was broken off and has been left out.")?;
        }
        debrief::write_marks(out, &marks, signed.setup.station.start)?;
        cost_words::write_costs(out, &costs)?;
        writeln!(out, "\nHead of the journal: {head}")?;
    }
    Ok(if marks.passed && !cut_short { Outcome::Done } else { Outcome::Negative })
}
