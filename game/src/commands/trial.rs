//! `trial`: scenarios × operators × seeds, in parallel, and what that proves.

mod blocks;
mod csv;
mod plan;
mod words;
mod work;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::Instant;

use clap::Args;
use report::trial::{Figures, figures};
use sessions::{FrontEndError, Outcome};
use sim_core::trial::TrialVerdict;

/// Has many sessions of scenarios by scripted operators, and says whether each is fair.
///
/// Exit status 0: every scenario is proven. 1: one is not. 2: it could not be done.
#[derive(Debug, Args)]
#[command(after_help = include_str!("trial/help.txt"))]
pub struct TrialArguments {
    /// Scenarios, or folders of them (every *.ron in the folder).
    #[arg(required = true, value_name = "SCENARIO")]
    pub scenarios: Vec<PathBuf>,
    /// Seeds for each operator in each scenario.
    #[arg(long, default_value_t = 200, value_parser = clap::value_parser!(u64).range(1..=100_000))]
    pub runs: u64,
    /// Operators, separated by commas; habits are joined by +. `all` stands for every one. Left
    /// out: careful, and those that each scenario is about.
    #[arg(long, value_delimiter = ',')]
    pub operators: Vec<String>,
    /// The first seed; the others follow it.
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u64).range(..=1 << 52))]
    pub first_seed: u64,
    /// Sessions had at the same time; left out, as many as there are processors.
    #[arg(long, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub jobs: Option<u16>,
    /// Write the results into this folder, and go on with what is there. It is made if it is not.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// One JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
}

/// Runs the command.
///
/// # Errors
///
/// When a scenario has problems, there is no such operator, or a file cannot be read or written.
pub fn run(arguments: &TrialArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let began = Instant::now();
    let plan = plan::plan(arguments)?;
    let store = match &arguments.out {
        Some(folder) => blocks::Store::open(folder)?,
        None => blocks::Store::nowhere(),
    };
    let jobs = arguments.jobs.map_or(0, usize::from);
    let done = work::work(&plan, &store, jobs)?;
    let figures = figures(&plan.scenarios, &plan.seeds, &done.tallies);
    if let Some(folder) = &arguments.out {
        write_results(folder, &figures)?;
    }
    if arguments.json {
        let object = serde_json::to_string(&figures).map_err(|error| no_json(&error))?;
        writeln!(out, "{object}")?;
    } else {
        words::write(out, &figures)?;
        words::write_pace(out, &done, began.elapsed())?;
        if let Some(folder) = &arguments.out {
            writeln!(out, "trial.json, trial.csv and trial.html are in {}.", folder.display())?;
        }
    }
    let proven = figures.scenarios.iter().all(|one| one.judged.verdict == TrialVerdict::Proven);
    Ok(if proven { Outcome::Done } else { Outcome::Negative })
}

/// Writes the three files of the result.
fn write_results(folder: &Path, figures: &Figures) -> Result<(), FrontEndError> {
    let json = serde_json::to_string_pretty(figures).map_err(|error| no_json(&error))?;
    let page = report::trial::page(figures).map_err(FrontEndError::Wrong)?;
    let files =
        [("trial.json", json + "\n"), ("trial.csv", csv::table(figures)), ("trial.html", page)];
    let files = files.map(|(name, text)| (folder.join(name), text.into_bytes()));
    report::replace_files::replace_files(&files)
}

fn no_json(error: &serde_json::Error) -> FrontEndError {
    FrontEndError::Wrong(format!("the result makes no JSON: {error}"))
}
