//! `progress`: the sessions of one person in order, and what to practise next.

use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;
use rayon::ThreadPool;
use rayon::iter::{IntoParallelRefIterator as _, ParallelIterator as _};
use report::files::{ExistingFiles, check_free};
use report::progress::{LeftOut, Progress, ScenarioLesson, SessionSummary, page, terminal};
use report::{html, pdf};
use sessions::{
    DRILL_EXTENSION, FrontEndError, Outcome, PersonName, data_folder, printable_path, read_journal,
    read_text, replace_files, wall_clock_s,
};
use sim_core::marking;
use sim_core::plan::spacing::DAY_S;
use sim_core::scenario::{KnownRules, check};
use sim_core::session::ending::Ending;
use sim_core::session::journal::NullSink;
use sim_core::session::replay;
use sim_core::time::Date;

mod practised;

use super::json::{not_json, print_object};
use super::paper::PaperArgument;
use super::scenario_files::files_at;
use super::threads;

/// Summarises the sessions and drills of one person: the next step, where they stand in the lesson plan,
/// what is due again, marks by part, rules broken repeatedly, reading errors in divisions, how well they
/// judge their own work, and what to practise next, with the reason.
///
/// Without a path, the journals of this machine are read: those of the person that --name names, or those
/// that nobody put a name on. Each journal is replayed and marked. A journal that is damaged, not ended, or written by another
/// version is left out, and the reason is given. With --out the command writes progress.html,
/// progress.pdf and progress.json to a folder.
///
/// Exit status 0: done. 1: no journal could be used. 2: a path or a scenario could not be read, or the
/// output could not be written.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  steady-draw progress journals/\n  steady-draw progress --name Ann\n  steady-draw progress monday.journal tuesday.journal --out progress"
)]
pub struct ProgressArguments {
    /// Journals, or folders of journals (every *.journal and *.drill file in the folder and its
    /// subfolders).
    #[arg(value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The person whose journals are read, where several people share this machine. The name is the one
    /// that was given to `drive`.
    #[arg(long, conflicts_with = "paths")]
    pub name: Option<PersonName>,
    /// The lesson plan to follow. The default is the one that came with the program.
    #[arg(long, value_name = "FILE")]
    pub plan: Option<PathBuf>,
    /// The day (UTC) for which it is said what is due again, as in 2026-03-17. The default is today.
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub on: Option<Date>,
    /// The scenarios to recommend from: a file or a folder. The default is the folder `scenarios` in the
    /// current folder or beside the program.
    #[arg(long, value_name = "PATH")]
    pub scenarios: Option<PathBuf>,
    /// Write the result to this folder, which is created if it does not exist.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Replace an earlier result in that folder.
    #[arg(long, requires = "out")]
    pub replace: bool,
    /// Paper size of progress.pdf.
    #[command(flatten)]
    pub paper: PaperArgument,
    /// Print one JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
}

/// The files of a result.
const FILES: [&str; 3] = ["progress.html", "progress.pdf", "progress.json"];

/// Runs the command.
///
/// # Errors
///
/// When a path or a scenario cannot be read, threads cannot be started, or a file cannot be written.
pub fn run(arguments: &ProgressArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let mut journals = Vec::new();
    for path in &paths(arguments)? {
        collect(path, DEEPEST, &mut journals)?;
    }
    let mut seen = BTreeSet::new();
    journals.retain(|path| seen.insert(path.canonicalize().unwrap_or_else(|_| path.clone())));
    let (drills, journals): (Vec<PathBuf>, Vec<PathBuf>) =
        journals.into_iter().partition(|path| has_ending(path, DRILL_EXTENSION));
    let threads = threads::start(None)?;
    let counted: Vec<Result<SessionSummary, LeftOut>> =
        threads.install(|| journals.par_iter().map(|path| summary(path)).collect());
    let (mut sessions, mut left_out) = (Vec::new(), Vec::new());
    let mut results = Vec::new();
    for path in &drills {
        match practised::drill_results(path) {
            Ok(more) => results.extend(more),
            Err(left) => left_out.push(left),
        }
    }
    for one in counted {
        match one {
            Ok(session) => sessions.push(session),
            Err(left) => left_out.push(left),
        }
    }
    let lessons = lessons(arguments.scenarios.as_deref(), &threads)?;
    let mut progress = Progress::of(sessions, left_out, &lessons);
    progress.name = arguments.name.as_ref().map(ToString::to_string);
    let scenarios = arguments.scenarios.clone().filter(|path| path.is_dir()).or_else(beside);
    let plan = practised::plan_for(arguments.plan.as_deref(), scenarios.as_deref())?;
    practised::add(&mut progress, &results, plan.as_ref(), moment(arguments.on));
    if let Some(folder) = &arguments.out {
        write_files(folder, arguments, &progress)?;
    }
    if arguments.json {
        print_object(out, &progress)?;
    } else {
        terminal::write(out, &progress)?;
        if let Some(folder) = &arguments.out {
            writeln!(out, "\n{} are in {}.", FILES.join(", "), printable_path(folder))?;
        }
    }
    let is_empty = progress.sessions.is_empty() && progress.drills.is_empty();
    Ok(if is_empty { Outcome::Negative } else { Outcome::Done })
}

/// The ending of a session's journal.
const JOURNAL: &str = "journal";

fn has_ending(path: &Path, ending: &str) -> bool {
    path.extension().is_some_and(|kind| kind == ending)
}

/// What is read: the paths that were given, or the usual folder.
fn paths(arguments: &ProgressArguments) -> Result<Vec<PathBuf>, FrontEndError> {
    if !arguments.paths.is_empty() {
        return Ok(arguments.paths.clone());
    }
    let (folder, whose) = match &arguments.name {
        Some(name) => (Some(name.folder()?), format!(" of {name}")),
        None => (data_folder(), String::new()),
    };
    match folder.filter(|folder| folder.is_dir()) {
        // Below the usual folder lie those of the people who gave a name.
        Some(folder) if arguments.name.is_none() => Ok(journals_in(&folder)),
        Some(folder) => Ok(vec![folder]),
        None => Err(FrontEndError::Wrong(format!(
            "no journals{whose} are kept on this machine yet: work a session first, or give a journal or a folder of \
             journals"
        ))),
    }
}

/// The journals in a folder itself.
fn journals_in(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut journals: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| {
            path.is_file() && (has_ending(path, JOURNAL) || has_ending(path, DRILL_EXTENSION))
        })
        .collect();
    journals.sort();
    journals
}

/// A day of the calendar.
fn date(text: &str) -> Result<Date, String> {
    Date::try_from(text.to_owned()).map_err(|error| error.to_string())
}

/// The end of a day, or now.
fn moment(on: Option<Date>) -> u64 {
    let Some(day) = on else { return wall_clock_s() };
    let first = Date::new(1970, 1, 1).map_or(0, Date::day_number);
    let days = u64::try_from(day.day_number() - first).unwrap_or(0);
    days.saturating_mul(DAY_S).saturating_add(DAY_S - 1)
}

/// Levels of subfolders that are searched.
const DEEPEST: u8 = 4;

/// Every journal at a path, folder by folder, sorted by name.
fn collect(path: &Path, deeper: u8, journals: &mut Vec<PathBuf>) -> Result<(), FrontEndError> {
    let wrong = |error: &std::io::Error| FrontEndError::file("read", path, error);
    let about = std::fs::metadata(path).map_err(|error| wrong(&error))?;
    if !about.is_dir() {
        journals.push(path.to_owned());
        return Ok(());
    }
    let entries = std::fs::read_dir(path).map_err(|error| wrong(&error))?;
    let mut inside: Vec<PathBuf> = entries
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<_, _>>()
        .map_err(|error| wrong(&error))?;
    inside.sort();
    for one in inside {
        // A link could lead back to a folder above it.
        let is_folder = one.is_dir() && !one.is_symlink();
        if is_folder && deeper > 0 {
            collect(&one, deeper - 1, journals)?;
        } else if one.is_file() && (has_ending(&one, JOURNAL) || has_ending(&one, DRILL_EXTENSION))
        {
            journals.push(one);
        }
    }
    Ok(())
}

/// The session of a journal, or why it is left out.
fn summary(path: &Path) -> Result<SessionSummary, LeftOut> {
    let file = printable_path(path);
    let left = |why: String| LeftOut { file: file.clone(), why };
    let text = read_journal(path).map_err(|error| left(without_name(&error.to_string(), &file)))?;
    let replayed =
        replay::replay(&text, Box::new(NullSink)).map_err(|error| left(error.to_string()))?;
    let ended = replayed.session.open().map_err(|_| {
        left("the session has not ended: continue it with drive --resume".to_owned())
    })?;
    if ended.ended == Ending::Broken {
        return Err(left(
            "a value of the simulation became infinite or undefined: the session has no mark"
                .to_owned(),
        ));
    }
    let marks = marking::mark(&ended.evidence());
    // A session could not have begun with a scenario that cannot be read.
    let title = check(&ended.source.text, KnownRules::Any).map(|scenario| scenario.title);
    Ok(SessionSummary::of(file.clone(), title.unwrap_or_default(), &ended, &marks))
}

/// A message without the file's name, which is printed before it.
fn without_name(message: &str, file: &str) -> String {
    message.strip_prefix(&format!("{file}: ")).unwrap_or(message).to_owned()
}

/// What the available scenarios teach. Without any, no scenario is recommended.
fn lessons(
    named: Option<&Path>,
    threads: &ThreadPool,
) -> Result<Vec<ScenarioLesson>, FrontEndError> {
    let files = match named {
        Some(path) => files_at(path)?,
        None => beside().map_or_else(Vec::new, |folder| files_at(&folder).unwrap_or_default()),
    };
    let lesson = |file: &PathBuf| Ok(ScenarioLesson::of(printable_path(file), &read_text(file)?));
    threads.install(|| files.par_iter().filter_map(|file| lesson(file).transpose()).collect())
}

/// The folder of the scenarios that came with the program.
fn beside() -> Option<PathBuf> {
    let program = std::env::current_exe().ok();
    let near = |place: &str| Some(program.as_ref()?.parent()?.join(place));
    let places = [
        Some(PathBuf::from("scenarios")),
        near("scenarios"),
        near("../share/steady-draw/scenarios"),
        near("../../scenarios"),
    ];
    places.into_iter().flatten().find(|folder| folder.is_dir())
}

fn write_files(
    folder: &Path,
    arguments: &ProgressArguments,
    progress: &Progress,
) -> Result<(), FrontEndError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| FrontEndError::file("create", folder, &error))?;
    let paths = FILES.map(|file| folder.join(file));
    let existing = if arguments.replace { ExistingFiles::Replace } else { ExistingFiles::Keep };
    check_free(paths.clone(), existing, "result")?;
    let document = page::document(progress);
    let contents: [Vec<u8>; 3] = [
        html::page(&document).map_err(FrontEndError::Wrong)?.into_bytes(),
        pdf::file(&document, arguments.paper.paper).map_err(FrontEndError::Wrong)?,
        (serde_json::to_string(progress).map_err(|error| not_json(&error))? + "\n").into_bytes(),
    ];
    replace_files(&paths.into_iter().zip(contents).collect::<Vec<_>>())
}
