//! `trial`: many sessions of scenarios by scripted operators, in parallel, and what they prove.

mod blocks;
mod csv;
mod drawn;
mod learner;
mod people;
mod plan;
mod words;
mod work;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::Instant;

use clap::Args;
use report::trial::{Figures, figures};
use sessions::{FrontEndError, Outcome, printable_path};
use sim_core::generator::Level;
use sim_core::trial::TrialVerdict;

use super::json::{not_json, print_object};

/// Runs many sessions of scenarios by scripted operators, and reports whether each scenario is fair.
///
/// Exit status 0: every scenario is proven, or the drawn rigs are. 1: at least one is not. With --people, 1:
/// of those who pass, 1 % or more have volumes that are off by more than 5 %. With --learner, 1: the marks
/// do not rise with the plan, or rise without it. 2: the sessions could not be run, or the output
/// could not be written.
#[derive(Debug, Args)]
#[command(after_help = include_str!("trial/help.txt"))]
pub struct TrialArguments {
    /// Scenarios, or folders of scenarios (every *.ron file in the folder).
    /// Not needed with --drawn and --learner.
    #[arg(required_unless_present_any = ["drawn", "learner"], value_name = "SCENARIO")]
    pub scenarios: Vec<PathBuf>,
    /// Try drawn rigs of these levels (1, 2, 3, separated by commas) instead of scenarios: each rig by the
    /// careful operator and by the habit that each of its faults is about. --runs is the number of rigs of
    /// each level.
    #[arg(
        long,
        value_name = "LEVELS",
        value_delimiter = ',',
        value_parser = super::drawn::level,
        conflicts_with_all = ["scenarios", "operators", "people", "out"]
    )]
    pub drawn: Vec<Level>,
    /// The number of seeds for each operator in each scenario.
    #[arg(long, default_value_t = 200, value_parser = clap::value_parser!(u64).range(1..=100_000))]
    pub runs: u64,
    /// The operators, separated by commas; join several habits with +. `all` means every operator. The
    /// default is careful and the habits that each scenario is about.
    #[arg(long, value_delimiter = ',')]
    pub operators: Vec<String>,
    /// The first seed; the others follow in order. With --people, the seed of the population.
    #[arg(long, visible_alias = "seed", default_value_t = 1, value_parser = clap::value_parser!(u64).range(..=1 << 52))]
    pub first_seed: u64,
    /// The number of sessions run at the same time. The default is the number of processors.
    #[arg(long, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub jobs: Option<u16>,
    /// Write the results to this folder, which is created if it does not exist; results of an interrupted
    /// trial in it are used.
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Print one JSON object and nothing else.
    #[arg(long)]
    pub json: bool,
    /// Use this many people with different abilities instead of scripted operators; each sits every
    /// scenario twice.
    #[arg(
        long,
        conflicts_with_all = ["runs", "operators"],
        value_name = "N",
        value_parser = clap::value_parser!(u64).range(2..=100_000)
    )]
    pub people: Option<u64>,
    /// Let simulated learners go through this lesson plan, and report how their marks change: with the whole
    /// plan, with nothing done again, and with its jobs alone. It shows what the plan does under the stated
    /// rules, and nothing about people.
    #[arg(long, value_name = "PLAN", conflicts_with_all = ["scenarios", "drawn", "people", "operators", "runs", "out"])]
    pub learner: Option<PathBuf>,
    /// The number of learners.
    #[arg(long, default_value_t = 50, requires = "learner", value_parser = clap::value_parser!(u64).range(1..=10_000))]
    pub learners: u64,
    /// What to assume of the people.
    #[command(flatten)]
    pub assumed: people::PeopleArguments,
}

/// Runs the command.
///
/// # Errors
///
/// When a scenario has problems, an operator does not exist, or a file cannot be read or written.
pub fn run(arguments: &TrialArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    if let Some(path) = &arguments.learner {
        let seeds = arguments.first_seed..arguments.first_seed.saturating_add(arguments.learners);
        return learner::run(path, seeds, arguments.jobs, arguments.json, out);
    }
    let began = Instant::now();
    let seeds = arguments.first_seed..arguments.first_seed.saturating_add(arguments.runs);
    if !arguments.drawn.is_empty() {
        return drawn::run(&arguments.drawn, seeds, arguments.jobs, arguments.json, out);
    }
    let plan = plan::plan(&arguments.scenarios, &arguments.operators, seeds)?;
    if let Some(count) = arguments.people {
        let request = people::PeopleRequest {
            people: count,
            seed: arguments.first_seed,
            jobs: arguments.jobs,
            folder: arguments.out.as_deref(),
            json: arguments.json,
        };
        return people::run(&request, &arguments.assumed, &plan, out);
    }
    let store = match &arguments.out {
        Some(folder) => blocks::Store::open(folder)?,
        None => blocks::Store::nowhere(),
    };
    let done = work::work(&plan, &store, arguments.jobs)?;
    let figures = figures(&plan.scenarios, &plan.seeds, &done.tallies);
    if let Some(folder) = &arguments.out {
        write_results(folder, &figures)?;
    }
    if arguments.json {
        print_object(out, &figures)?;
    } else {
        words::write(out, &figures)?;
        words::write_pace(out, &done, began.elapsed())?;
        if let Some(folder) = &arguments.out {
            let folder = printable_path(folder);
            writeln!(out, "trial.json, trial.csv and trial.html are in {folder}.")?;
        }
    }
    let proven = figures.scenarios.iter().all(|one| one.judged.verdict == TrialVerdict::Proven);
    Ok(if proven { Outcome::Done } else { Outcome::Negative })
}

/// Writes the three files of the result.
fn write_results(folder: &Path, figures: &Figures) -> Result<(), FrontEndError> {
    let json = serde_json::to_string_pretty(figures).map_err(|error| not_json(&error))?;
    let page = report::trial::page(figures).map_err(FrontEndError::Wrong)?;
    let files =
        [("trial.json", json + "\n"), ("trial.csv", csv::table(figures)), ("trial.html", page)];
    let files = files.map(|(name, text)| (folder.join(name), text.into_bytes()));
    sessions::replace_files(&files)
}
