//! `trial --people`: people with different abilities instead of scripted operators.

mod sittings;
mod tables;
mod words;

use std::io::Write;
use std::path::Path;
use std::time::Instant;

use clap::Args;
use rayon::ThreadPool;
use rayon::iter::{IntoParallelIterator, ParallelIterator};
use report::people::{PeopleScenario, PeopleSettings, PeopleTrial};
use report::trial::TrialEntry;
use sessions::{FrontEndError, Outcome, printable_path};
use sim_core::trial::people::{DecisionCosts, Population, Seated, people_figures};

use super::plan::Plan;
use super::work::bar;
use crate::commands::json::{not_json, print_object};
use crate::commands::threads;

/// What is assumed of people, and of what wrong decisions cost.
#[derive(Debug, Args)]
pub struct PeopleArguments {
    /// The share of people who are careless, 0 to 1.
    #[arg(long, default_value_t = 0.0, requires = "people", value_parser = share, value_name = "SHARE")]
    pub careless: f64,
    /// The cost of passing somebody whose volumes are off by more than 5 %.
    #[arg(long, default_value_t = 10.0, requires = "people", value_parser = cost, value_name = "COST")]
    pub cost_false_pass: f64,
    /// The cost of failing somebody whose volumes are not.
    #[arg(long, default_value_t = 1.0, requires = "people", value_parser = cost, value_name = "COST")]
    pub cost_false_fail: f64,
}

/// A share from 0 to 1.
fn share(text: &str) -> Result<f64, String> {
    let value: f64 = text.parse().map_err(|_| "write a number from 0 to 1".to_owned())?;
    if (0.0..=1.0).contains(&value) {
        Ok(value)
    } else {
        Err("write a number from 0 to 1".to_owned())
    }
}

/// A cost that is not negative and not beyond reason.
fn cost(text: &str) -> Result<f64, String> {
    let wrong = || "write a number from 0 to 1000000".to_owned();
    let value: f64 = text.parse().map_err(|_| wrong())?;
    if (0.0..=1e6).contains(&value) { Ok(value) } else { Err(wrong()) }
}

/// What is asked for, apart from what is assumed.
#[derive(Debug)]
pub struct PeopleRequest<'a> {
    /// Number of people in each scenario.
    pub people: u64,
    /// Seed of the population.
    pub seed: u64,
    /// How many sit at the same time; left out for as many as there are processors.
    pub jobs: Option<u16>,
    /// Where the results are written, if anywhere.
    pub folder: Option<&'a Path>,
    /// Whether one JSON object is printed instead of words.
    pub json: bool,
}

/// Lets people sit every scenario of the plan, and tells what came of it.
///
/// The people of one scenario are in memory at a time.
///
/// # Errors
///
/// When a scenario does not begin with some seed, or the output cannot be written.
pub fn run(
    request: &PeopleRequest<'_>,
    assumed: &PeopleArguments,
    plan: &Plan,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let began = Instant::now();
    let settings = PeopleSettings {
        seed: request.seed,
        people: request.people,
        careless: assumed.careless,
        costs: DecisionCosts {
            false_pass: assumed.cost_false_pass,
            false_fail: assumed.cost_false_fail,
        },
    };
    let pool = threads::start(request.jobs)?;
    let mut table = match request.folder {
        Some(folder) => sittings::SittingsTable::create(folder)?,
        None => sittings::SittingsTable::nowhere(),
    };
    let bar = bar(2 * request.people * plan.scenarios.len() as u64);
    let mut scenarios = Vec::new();
    for entry in &plan.scenarios {
        let seated = seated(entry, &settings, &pool, &|| bar.inc(2))?;
        table.add(entry, &seated)?;
        scenarios.push(PeopleScenario {
            file: entry.file.clone(),
            title: entry.title.clone(),
            sha256: entry.sha256.clone(),
            figures: pool.install(|| people_figures(&seated, settings.costs, settings.seed)),
        });
    }
    bar.finish_and_clear();
    let trial = PeopleTrial::new(settings, scenarios);
    if let Some(folder) = request.folder {
        table.finish()?;
        write_results(folder, &trial)?;
    }
    if request.json {
        print_object(out, &trial)?;
    } else {
        words::write(out, &trial)?;
        let jobs = pool.current_num_threads();
        words::write_pace(out, &trial, began.elapsed(), jobs)?;
        if let Some(folder) = request.folder {
            let folder = printable_path(folder);
            let names = "people.json, people.html and three tables (people*.csv)";
            writeln!(out, "{names} are in {folder}.")?;
        }
    }
    Ok(outcome(&trial))
}

/// The share of those who pass whose volumes may be off by more than 5 percent.
const MOST_FALSE_PASSES: f64 = 0.01;

/// Whether a pass says something about volumes.
fn outcome(trial: &PeopleTrial) -> Outcome {
    let off = trial.passed_off().filter(|off| off.of > 0);
    match off {
        Some(off) if off.interval.share >= MOST_FALSE_PASSES => Outcome::Negative,
        Some(_) | None => Outcome::Done,
    }
}

/// All people of a scenario, in their order.
fn seated(
    entry: &TrialEntry,
    settings: &PeopleSettings,
    pool: &ThreadPool,
    done: &(dyn Fn() + Sync),
) -> Result<Vec<Seated>, FrontEndError> {
    let population = Population {
        seed: settings.seed,
        scenario: entry.sha256.clone(),
        careless: settings.careless,
    };
    let sits = |number: u64| {
        let seated = Seated::sits(&entry.text, &population, number);
        done();
        seated.map_err(|error| FrontEndError::Wrong(error.to_string()))
    };
    pool.install(|| (0..settings.people).into_par_iter().map(sits).collect())
}

/// Writes everything but the table of sittings.
fn write_results(folder: &Path, trial: &PeopleTrial) -> Result<(), FrontEndError> {
    let json = serde_json::to_string_pretty(trial).map_err(|error| not_json(&error))?;
    let page = report::people::page(trial).map_err(FrontEndError::Wrong)?;
    let files = [
        ("people.html", page),
        ("people.json", json + "\n"),
        ("people-rules.csv", tables::rules(trial)),
        ("people-curve.csv", tables::curve(trial)),
    ];
    let files = files.map(|(name, text)| (folder.join(name), text.into_bytes()));
    sessions::replace_files(&files)
}
