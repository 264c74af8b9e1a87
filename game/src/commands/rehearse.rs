//! `rehearse`: a complete session by a scripted operator or a script of actions, marked.

mod explained;

use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;
use report::debrief::write_debrief;
use report::files::{self, ExistingFiles};
use report::paper::PaperSize;
use report::session::SessionReport;
use sessions::{
    Durability, FrontEndError, JournalFile, LiveSession, MarkedSession, Outcome, begin, begin_text,
    mark_ended, printable, printable_path, read_text,
};
use sim_core::operator::{self, OperatorNameError};
use sim_core::session::journal::{JournalSink, NullSink};
use sim_core::session::{ActError, Session};
use words::script;

use explained::Explained;

use super::drawn::{self, DrawnArguments};
use super::json::print_object;
use super::paper::PaperArgument;

/// Runs a complete session, performed by a scripted operator or from a script of actions, and marks it.
///
/// A script has one action per line: a plain sentence, as for `drive --words`, or an action as JSON.
/// Empty lines and lines that begin with # are skipped. With --out the command writes session.journal,
/// report.html, report.pdf, readings.csv, marks.json and debrief.txt to a folder.
///
/// With --explain the command prints, before the debrief, each decision of the operator: what the operator
/// saw, the limit that applies, and the conclusion.
///
/// Exit status 0: passed. 1: not passed. 2: the session could not be completed, or the output could not
/// be written.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  steady-draw rehearse scenarios/01_first_calibration.ron --out out/01\n  steady-draw rehearse scenarios/01_first_calibration.ron --operator one-leg --seed 7 --json\n  steady-draw rehearse scenarios/03_a_new_blower.ron --explain\n  steady-draw rehearse --drawn 2 --seed 7 --keep rig.ron"
)]
pub struct RehearseArguments {
    /// The scenario. Not needed with --drawn.
    #[arg(required_unless_present = "drawn")]
    pub scenario: Option<PathBuf>,
    /// A drawn rig in its place.
    #[command(flatten)]
    pub drawn: DrawnArguments,
    /// The seed: another seed draws another rig, another day and other reading errors.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    /// The operator: careful, or one with a bad habit. Join several habits with +.
    #[arg(long, default_value = "careful", conflicts_with = "script")]
    pub operator: String,
    /// Perform this script of actions instead of using an operator.
    #[arg(long)]
    pub script: Option<PathBuf>,
    /// Print what the operator saw at each decision, and the reason for the decision. With --json this is
    /// the array `explained`.
    #[arg(long)]
    pub explain: bool,
    /// Write the journal and the report to this folder, which is created if it does not exist.
    #[arg(long)]
    pub out: Option<PathBuf>,
    /// Replace the session that an earlier rehearsal wrote to that folder.
    #[arg(long, requires = "out")]
    pub replace: bool,
    /// Paper size of the report.
    #[command(flatten)]
    pub paper: PaperArgument,
    /// Print one JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
}

/// Runs the command.
///
/// # Errors
///
/// When the scenario or the script has problems, or a file cannot be read or written.
pub fn run(arguments: RehearseArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let RehearseArguments { scenario, seed, operator, script, out: folder, replace, .. } =
        arguments;
    let RehearseArguments { explain, paper, json, drawn: arguments_drawn, .. } = arguments;
    if explain && script.is_some() {
        return Err(FrontEndError::Wrong(
            "--explain tells what a scripted operator thinks, and a script of actions does not say why: leave out \
             --explain, or use --operator instead of --script"
                .to_owned(),
        ));
    }
    // Names and files are checked before any file is created.
    let (who, hands) = match script {
        Some(path) => ("script".to_owned(), Hands::Script { text: read_text(&path)?, path }),
        None => {
            operator::Habits::by_name(&operator).map_err(|error| no_operator(&error))?;
            (operator.clone(), Hands::Operator(operator))
        }
    };
    let ink = || -> Result<Box<dyn JournalSink>, FrontEndError> {
        match &folder {
            Some(folder) => Ok(Box::new(fresh_journal(folder, replace)?)),
            None => Ok(Box::new(NullSink)),
        }
    };
    let session = match (arguments_drawn.rig(seed)?, scenario) {
        (Some(rig), _) => begin_text(drawn::name(), &rig.text, seed, ink)?,
        (None, Some(path)) => begin(&path, seed, ink)?,
        (None, None) => {
            return Err(FrontEndError::Wrong("give a scenario, or --drawn LEVEL".to_owned()));
        }
    };
    let target = folder.as_deref().map(|folder| (folder, paper.paper));
    let (ended, thoughts) = hands.work(session)?;
    finish(&ended, &who, target, explain.then_some(&thoughts), json, out)
}

/// Who performs the session.
enum Hands {
    /// A scripted operator, by its name.
    Operator(String),
    /// A script.
    Script { path: PathBuf, text: String },
}

impl Hands {
    /// Performs the whole session and marks it. A script has no thoughts.
    fn work(self, mut session: Session) -> Result<(MarkedSession, Explained), FrontEndError> {
        let mut explained = Explained::new();
        match self {
            Self::Operator(name) => {
                let mut hands =
                    operator::in_session(&name, &session).map_err(|error| no_operator(&error))?;
                let mut hears = |tick, thought| explained.push((tick, thought));
                operator::rehearse_explained(&mut session, hands.as_mut(), &mut hears)
                    .map_err(|error| FrontEndError::Wrong(error.to_string()))?;
            }
            Self::Script { path, text } => {
                follow(&mut session, &path, &text)?;
            }
        }
        Ok((mark_ended(session)?, explained))
    }
}

/// Writes the files and reports the result, with the thoughts of the operator if they are wanted.
fn finish(
    ended: &MarkedSession,
    who: &str,
    target: Option<(&Path, PaperSize)>,
    thoughts: Option<&Explained>,
    as_json: bool,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let report = SessionReport::of(ended, Some(who));
    let mut object = files::object(&report);
    if let Some((folder, paper)) = target {
        // The journal comes last: where the report cannot be written, both stay as they were.
        files::write(folder, &report, &object, paper)?;
        let (unfinished, journal) = (folder.join(UNFINISHED), folder.join(JOURNAL));
        std::fs::rename(unfinished, &journal)
            .map_err(|error| FrontEndError::file("replace", &journal, &error))?;
    }
    if as_json {
        if let (Some(thoughts), Some(object)) = (thoughts, object.as_object_mut()) {
            object.insert("explained".to_owned(), explained::object(thoughts));
        }
        print_object(out, &object)?;
    } else {
        if let Some(thoughts) = thoughts {
            explained::write(out, thoughts, ended.session.setup.station.start)?;
        }
        write_debrief(out, ended)?;
        if let Some((folder, _)) = target {
            writeln!(out, "\nThe journal and the report are in {}.", printable_path(folder))?;
        }
    }
    Ok(if ended.marks.passed { Outcome::Done } else { Outcome::Negative })
}

/// Performs the lines of a script in order. The last one ends the session.
fn follow(session: &mut dyn LiveSession, path: &Path, text: &str) -> Result<(), FrontEndError> {
    for (index, line) in text.lines().enumerate() {
        let wrong = |what: String| {
            FrontEndError::Wrong(format!("{}:{}: {what}", printable_path(path), index + 1))
        };
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if session.ended().is_some() {
            return Err(wrong("the session has already ended: remove this line".to_owned()));
        }
        let steps = script::steps(session, line).map_err(wrong)?;
        for step in steps {
            match step.take(session) {
                Ok(()) => {}
                Err(ActError::Refused(refusal)) => {
                    return Err(wrong(format!("`{}` cannot be done: {refusal}", printable(line))));
                }
                Err(error) => return Err(wrong(error.to_string())),
            }
        }
    }
    if session.ended().is_none() {
        return Err(FrontEndError::Wrong(format!(
            "{}: the session was not signed: end the script with `sign`",
            printable_path(path)
        )));
    }
    Ok(())
}

/// Name of the journal during the rehearsal.
const UNFINISHED: &str = "session.journal.unfinished";

/// Name of the journal of a completed rehearsal.
const JOURNAL: &str = "session.journal";

/// The journal of a rehearsal. Files of an earlier one are replaced only with `--replace`, and only once
/// the new rehearsal is complete.
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

fn no_operator(error: &OperatorNameError) -> FrontEndError {
    FrontEndError::Wrong(match error {
        OperatorNameError::Unknown(name) => {
            let names: Vec<&str> = operator::NAMES.iter().map(|&(name, _)| name).collect();
            format!(
                "there is no operator `{}`: choose from {}; several can be joined with +",
                printable(name),
                names.join(", ")
            )
        }
        OperatorNameError::Repeated(_) | OperatorNameError::TooLong { .. } => error.to_string(),
    })
}
