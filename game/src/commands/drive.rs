//! `drive`: a session line by line, for other programs as JSON, for people in plain sentences.

use std::io::{BufRead, IsTerminal, Write};
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};
use sessions::{
    FrontEndError, InputLine, LiveSession, MarkedSession, Opened, Outcome, action_from_json,
    open_session, read_line,
};
use sim_core::marking::Marks;
use sim_core::session::ActError;
use sim_core::session::action::Action;
use words::talk::Talk;

/// A session line by line: actions on the standard input, what can be seen on the standard output.
///
/// Each line of input is one JSON object, an action; each line of output is one JSON object with
/// the tick, the time on the watch and what can be seen, at the resolution of a sharp eye. A line
/// that is no action, or cannot be done, is answered with `error` or `refused` and changes nothing.
/// `{"wait":{"seconds":30}}` lets time pass. After `"sign"` the last line holds the marks.
///
/// In a terminal, or with --words, it speaks plain sentences both ways: say `help`.
///
/// Exit status 0: signed and passed. 1: signed and not yet, or not signed. 2: it could not be done.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  echo '{\"look\":{\"at\":\"barometer\"}}' | steady-draw drive scenarios/01_first_calibration.ron\n  steady-draw drive scenarios/01_first_calibration.ron --words --journal today.journal"
)]
pub struct DriveArguments {
    /// The scenario; not needed with --resume.
    #[arg(required_unless_present = "resume")]
    pub scenario: Option<PathBuf>,
    /// The seed from which the rig is drawn.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// Plain sentences instead of JSON.
    #[arg(long)]
    pub words: bool,
    /// Write the journal here, line by line. An existing file is not written over.
    #[arg(long, conflicts_with = "resume")]
    pub journal: Option<PathBuf>,
    /// Go on with the session of this journal.
    #[arg(long, conflicts_with_all = ["scenario", "seed"])]
    pub resume: Option<PathBuf>,
}

/// Runs the command on the process's own input.
///
/// # Errors
///
/// When the session cannot begin, or its journal cannot be written.
pub fn run(arguments: DriveArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let stdin = std::io::stdin();
    let words = arguments.words || (stdin.is_terminal() && std::io::stdout().is_terminal());
    run_on(DriveArguments { words, ..arguments }, &mut stdin.lock(), out)
}

/// Runs the command on any input.
///
/// # Errors
///
/// As [`run`].
pub fn run_on(
    arguments: DriveArguments,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let DriveArguments { scenario, seed, words, journal, resume } = arguments;
    let opened = open_session(scenario, seed, journal, resume)?;
    if words {
        return talk(opened, input, out);
    }
    let Opened { mut session, notice, .. } = opened;
    if let Some(notice) = notice {
        say(out, &json!({ "note": notice }))?;
    }
    say(out, &seen(session.as_ref()))?;
    let mut line = String::new();
    while session.ended().is_none() {
        line.clear();
        match read_line(input, &mut line)? {
            InputLine::End => break,
            InputLine::TooLong => {
                say(out, &json!({ "error": "the line is longer than 64 KiB: one action a line" }))?;
                continue;
            }
            InputLine::Line => {}
        }
        if line.trim().is_empty() {
            continue;
        }
        let answer = answer(session.as_mut(), line.trim())?;
        say(out, &answer)?;
    }
    match session.ended() {
        None => Ok(Outcome::Negative),
        Some(_) => {
            let ended = session.finish()?;
            say(out, &ended_as_json(&ended.head, &ended.marks))?;
            Ok(outcome(&ended))
        }
    }
}

/// Talks in plain sentences, and writes the debrief once the session has ended.
fn talk(
    opened: Opened,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let Some(session) = Talk::new(opened).run(input, out)? else { return Ok(Outcome::Negative) };
    let ended = session.finish()?;
    writeln!(out)?;
    report::debrief::write_debrief(out, &ended)?;
    Ok(outcome(&ended))
}

/// Passed, or not yet.
const fn outcome(ended: &MarkedSession) -> Outcome {
    if ended.marks.passed { Outcome::Done } else { Outcome::Negative }
}

/// Does one line and says what came of it.
fn answer(session: &mut dyn LiveSession, line: &str) -> Result<Value, FrontEndError> {
    let action = match action_from_json(line) {
        Ok(action) => action,
        Err(what) => return Ok(json!({ "error": what })),
    };
    let done = match action {
        Action::Wait { seconds } => session.wait(seconds),
        Action::LeaveSite => session.leave_site(),
        action => session.act(action),
    };
    match done {
        Ok(()) => Ok(seen(session)),
        Err(ActError::Refused(refusal)) => Ok(json!({ "refused": refusal.to_string() })),
        Err(error @ (ActError::Sink(_) | ActError::Ended)) => {
            Err(FrontEndError::Wrong(error.to_string()))
        }
    }
}

/// What can be seen, as one object.
fn seen(session: &dyn LiveSession) -> Value {
    let view = session.view().at_eye_resolution();
    json!({ "tick": view.tick, "time": view.time, "seen": view })
}

/// The end of a session, as one object.
fn ended_as_json(head: &str, marks: &Marks) -> Value {
    json!({ "ended": true, "journal_head": head, "marks": marks })
}

/// Writes one object on one line and hands it over at once.
fn say(out: &mut dyn Write, value: &Value) -> Result<(), FrontEndError> {
    writeln!(out, "{value}")?;
    out.flush()?;
    Ok(())
}
