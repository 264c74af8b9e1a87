//! The plan of a trial: scenarios with their operators, in blocks of seeds.

use std::ops::Range;
use std::path::{Path, PathBuf};

use report::trial::TrialEntry;
use sessions::{FrontEndError, printable, printable_path, read_text};
use sim_core::digest::sha256_hex;
use sim_core::operator::{Habits, NAMES, OperatorNameError};
use sim_core::procedure::RULES;
use sim_core::scenario::{KnownRules, check};
use sim_core::trial::verdict::CAREFUL;

use crate::commands::scenario_files::files_at;

/// Seeds in a block: a few tenths of a second of work.
pub const BLOCK: u64 = 50;

/// What a trial has to do.
#[derive(Debug)]
pub struct Plan {
    /// The scenarios in the order in which they were named.
    pub scenarios: Vec<TrialEntry>,
    /// The seeds of every operator in every scenario.
    pub seeds: Range<u64>,
}

/// One piece of work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// Place of the scenario in the plan.
    pub scenario: usize,
    /// Place of the operator in the scenario's list.
    pub operator: usize,
    /// The seeds.
    pub seeds: Range<u64>,
}

impl Plan {
    /// Every piece of work.
    pub fn jobs(&self) -> Vec<Job> {
        let mut jobs = Vec::new();
        for (scenario, entry) in self.scenarios.iter().enumerate() {
            for operator in 0..entry.operators.len() {
                let starts = self.seeds.clone().step_by(BLOCK as usize);
                jobs.extend(starts.map(|first| Job {
                    scenario,
                    operator,
                    seeds: first..self.seeds.end.min(first + BLOCK),
                }));
            }
        }
        jobs
    }
}

/// Reads the scenarios (files, or folders of them) and makes the plan.
///
/// # Errors
///
/// Everything that is wrong with scenarios and operators.
pub fn plan(
    paths: &[PathBuf],
    operators: &[String],
    seeds: Range<u64>,
) -> Result<Plan, FrontEndError> {
    check_names(operators)?;
    let mut scenarios: Vec<TrialEntry> = Vec::new();
    let mut problems: Vec<String> = Vec::new();
    for path in paths {
        for file in files_at(path)? {
            match entry(&file, operators)? {
                Ok(entry) if scenarios.iter().any(|known| known.sha256 == entry.sha256) => {
                    problems
                        .push(format!("{}: this scenario is given twice: remove one", entry.file));
                }
                Ok(entry) => scenarios.push(entry),
                Err(more) => problems.extend(more),
            }
        }
    }
    if !problems.is_empty() {
        return Err(FrontEndError::Wrong(problems.join("\n")));
    }
    Ok(Plan { scenarios, seeds })
}

/// Whether every operator exists.
fn check_names(names: &[String]) -> Result<(), FrontEndError> {
    let mut unknown: Vec<String> = Vec::new();
    for name in names.iter().filter(|name| *name != ALL) {
        match Habits::by_name(name) {
            Ok(_) => {}
            Err(OperatorNameError::Unknown(name)) => {
                unknown.push(format!("`{}`", printable(&name)))
            }
            Err(error) => return Err(FrontEndError::Wrong(error.to_string())),
        }
    }
    if unknown.is_empty() {
        return Ok(());
    }
    let known: Vec<&str> = NAMES.iter().map(|&(name, _)| name).collect();
    Err(FrontEndError::Wrong(format!(
        "there is no operator {}: choose {ALL} or any of {}; several can be joined with +",
        unknown.join(", "),
        known.join(", ")
    )))
}

/// Means every operator.
const ALL: &str = "all";

/// Reads one scenario; the inner error is its problems.
fn entry(file: &Path, names: &[String]) -> Result<Result<TrialEntry, Vec<String>>, FrontEndError> {
    let text = read_text(file)?;
    let shown = printable_path(file);
    let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    Ok(match check(&text, KnownRules::These(&rules)) {
        Ok(scenario) => Ok(TrialEntry {
            operators: who_sits(names, &scenario.about),
            file: shown,
            sha256: sha256_hex(text.as_bytes()),
            title: scenario.title,
            about: scenario.about,
            faults: scenario.faults.iter().map(|entry| entry.fault).collect(),
            text,
        }),
        Err(problems) => Err(problems.iter().map(|problem| format!("{shown}:{problem}")).collect()),
    })
}

/// The operators of a scenario, each once.
fn who_sits(names: &[String], about: &[String]) -> Vec<String> {
    let mut wanted: Vec<String> = Vec::new();
    let mut add = |name: &str| {
        if !wanted.iter().any(|known| known == name) {
            wanted.push(name.to_owned());
        }
    };
    let usual = || std::iter::once(CAREFUL).chain(about.iter().map(String::as_str));
    if names.is_empty() {
        usual().for_each(&mut add);
    }
    for name in names {
        if name == ALL {
            NAMES.iter().map(|&(name, _)| name).chain(usual()).for_each(&mut add);
        } else {
            add(name);
        }
    }
    wanted
}
