//! `rehearse`: a whole session by a scripted operator or a script of actions, marked.

use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;
use report::debrief::write_debrief;
use report::files::{self, ExistingFiles};
use report::paper::PaperSize;
use report::session::SessionReport;
use sessions::{
    Durability, FrontEndError, JournalFile, LiveSession, MarkedSession, Outcome, begin, mark_ended,
    read_text,
};
use sim_core::operator;
use sim_core::session::journal::NullSink;
use sim_core::session::{ActError, Session};
use words::script;

use super::paper::PaperArgument;

/// A whole session by a scripted operator, or by a script of actions, and its marks.
///
/// A script holds one action a line: a plain sentence as `drive --words` takes it, or an action as
/// JSON. Empty lines and lines that begin with # are skipped. With --out it writes session.journal,
/// report.html, report.pdf, readings.csv, marks.json and debrief.txt into that folder.
///
/// Exit status 0: passed. 1: not yet. 2: it could not be done.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  steady-draw rehearse scenarios/01_first_calibration.ron --out out/01\n  steady-draw rehearse scenarios/01_first_calibration.ron --operator one-leg --seed 7 --json"
)]
pub struct RehearseArguments {
    /// The scenario.
    pub scenario: PathBuf,
    /// The seed from which the rig and the operator's eyes are drawn.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// The operator: careful, or one with a bad habit; habits are joined by +.
    #[arg(long, default_value = "careful", conflicts_with = "script")]
    pub operator: String,
    /// A script of actions instead of an operator.
    #[arg(long)]
    pub script: Option<PathBuf>,
    /// Write journal and report into this folder. It is made if it is not there.
    #[arg(long)]
    pub out: Option<PathBuf>,
    /// Replace the session that an earlier rehearsal wrote into that folder.
    #[arg(long, requires = "out")]
    pub replace: bool,
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
/// When the scenario or the script has problems, or a file cannot be read or written.
pub fn run(arguments: RehearseArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let RehearseArguments { scenario, seed, operator, script, out: folder, replace, paper, json } =
        arguments;
    // Names and files are checked before a file is made.
    let (who, hands) = match script {
        Some(path) => ("script".to_owned(), Hands::Script { text: read_text(&path)?, path }),
        None => {
            let hands = operator::by_name(&operator, seed).ok_or_else(|| unknown(&operator))?;
            (operator, Hands::Operator(hands))
        }
    };
    let session = begin(&scenario, seed, || match &folder {
        Some(folder) => Ok(Box::new(fresh_journal(folder, replace)?)),
        None => Ok(Box::new(NullSink)),
    })?;
    let target = folder.as_deref().map(|folder| (folder, paper.paper));
    finish(&hands.work(session)?, &who, target, json, out)
}

/// Who does the session.
enum Hands {
    /// A scripted operator.
    Operator(Box<dyn operator::Operator>),
    /// A script.
    Script { path: PathBuf, text: String },
}

impl Hands {
    /// Does the whole session, and has it marked.
    fn work(self, mut session: Session) -> Result<MarkedSession, FrontEndError> {
        match self {
            Self::Operator(mut hands) => {
                operator::rehearse(&mut session, hands.as_mut())
                    .map_err(|error| FrontEndError::Wrong(error.to_string()))?;
                mark_ended(session)
            }
            Self::Script { path, text } => {
                follow(&mut session, &path, &text)?;
                mark_ended(session)
            }
        }
    }
}

/// Writes the files and says how it went.
fn finish(
    ended: &MarkedSession,
    who: &str,
    target: Option<(&Path, PaperSize)>,
    as_json: bool,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let report = SessionReport::of(ended, Some(who));
    let object = files::object(&report);
    if let Some((folder, paper)) = target {
        // The journal comes last: where the report cannot be written, both stay as they were.
        files::write(folder, &report, &object, paper)?;
        let (unfinished, journal) = (folder.join(UNFINISHED), folder.join(JOURNAL));
        std::fs::rename(unfinished, &journal)
            .map_err(|error| FrontEndError::file("replace", &journal, &error))?;
    }
    if as_json {
        writeln!(out, "{object}")?;
    } else {
        write_debrief(out, ended)?;
        if let Some((folder, _)) = target {
            writeln!(out, "\nJournal and report are in {}.", folder.display())?;
        }
    }
    Ok(if ended.marks.passed { Outcome::Done } else { Outcome::Negative })
}

/// Does the lines of a script, one after the other. The last one ends the session.
fn follow(session: &mut dyn LiveSession, path: &Path, text: &str) -> Result<(), FrontEndError> {
    for (index, line) in text.lines().enumerate() {
        let wrong = |what: String| {
            FrontEndError::Wrong(format!("{}:{}: {what}", path.display(), index + 1))
        };
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if session.ended().is_some() {
            return Err(wrong("the session has ended before this line: take it out".to_owned()));
        }
        let steps = script::steps(session, line).map_err(wrong)?;
        for step in steps {
            match step.take(session) {
                Ok(()) => {}
                Err(ActError::Refused(refusal)) => {
                    return Err(wrong(format!("`{line}` cannot be done: {refusal}")));
                }
                Err(error) => return Err(wrong(error.to_string())),
            }
        }
    }
    if session.ended().is_none() {
        return Err(FrontEndError::Wrong(format!(
            "{}: the session was not signed: end the script with `sign`",
            path.display()
        )));
    }
    Ok(())
}

/// Name of the journal while the rehearsal goes on.
const UNFINISHED: &str = "session.journal.unfinished";

/// Name of the journal of a rehearsal that has come to its end.
const JOURNAL: &str = "session.journal";

/// The journal of a rehearsal. Files of an earlier one are replaced only when that was asked for,
/// when the rehearsal has come to its end; they stay when it does not.
fn fresh_journal(folder: &Path, replace: bool) -> Result<JournalFile, FrontEndError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| FrontEndError::file("create", folder, &error))?;
    let paths = std::iter::once(JOURNAL).chain(files::FILES).map(|file| folder.join(file));
    let existing = if replace { ExistingFiles::Replace } else { ExistingFiles::Keep };
    files::check_free(paths, existing, "session")?;
    let path = folder.join(UNFINISHED);
    if path.exists() {
        std::fs::remove_file(&path)
            .map_err(|error| FrontEndError::file("replace", &path, &error))?;
    }
    JournalFile::create(&path, Durability::AtClose)
}

fn unknown(name: &str) -> FrontEndError {
    let names: Vec<&str> = operator::NAMES.iter().map(|&(name, _)| name).collect();
    FrontEndError::Wrong(format!(
        "there is no operator `{name}`: take one of {}, or several joined by +",
        names.join(", ")
    ))
}
