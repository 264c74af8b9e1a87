//! `check PATH…`: checks scenarios and reports everything that is wrong with them.

use std::io::Write;
use std::path::{Path, PathBuf};

use sessions::{FrontEndError, Outcome, printable, printable_path, read_text};
use sim_core::plan::StepKind;
use sim_core::plan::check::is_plan;
use sim_core::procedure::RULES;
use sim_core::scenario::{KnownRules, ScenarioProblem, check};
use sim_core::trial::plan_time;

use super::plan_files::{self, PlanAtHand};
use super::scenario_files::files_at;

/// Checks scenarios and lesson plans and reports every problem: where it is, what is wrong, and how to
/// correct it. Of a sound plan, it also prints the steps and about how long each takes.
///
/// Each problem is one line, `file:line:column: what is wrong; how to correct it`.
///
/// Exit status 0: no problem was found. 1: a problem was found. 2: a path could not be read, or the
/// output could not be written.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  steady-draw check scenarios/")]
pub struct CheckArguments {
    /// Scenarios, lesson plans, or folders of them (every *.ron file in the folder)
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
}

/// Checks every scenario: one line for each problem, then a summary. Each line begins with
/// `file:line:column`, as editors expect it.
///
/// # Errors
///
/// When a path could not be read, or a folder holds no scenario. All other paths are checked first.
pub fn run(arguments: &CheckArguments, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
    let mut unread = Vec::new();
    let mut tally = Tally::default();
    for path in &arguments.paths {
        let files = match files_at(path) {
            Ok(files) => files,
            Err(error) => {
                unread.push(error);
                continue;
            }
        };
        for file in files {
            match read_text(&file) {
                Ok(text) => tally.add(&file, &text, out)?,
                Err(error) => unread.push(error),
            }
        }
    }
    let words = tally.words();
    match unread.len() {
        0 if tally.plans == 1 && tally.checked == 0 && tally.broken == 0 => {
            writeln!(out, "{words}")?
        }
        // Who checks one scenario sees what its trainee will see before the work.
        0 if tally.checked == 1 && tally.plans == 0 && tally.broken == 0 => {
            writeln!(out, "{words}\nIts card says: {}", tally.card)?;
        }
        0 => writeln!(out, "{words}")?,
        count => writeln!(out, "{words}; {} could not be read:", counted(count, "path"))?,
    }
    match unread.len() {
        0 if tally.broken == 0 => Ok(Outcome::Done),
        0 => Ok(Outcome::Negative),
        1 => Err(unread.remove(0)),
        _ => {
            let lines: Vec<String> = unread.iter().map(ToString::to_string).collect();
            Err(FrontEndError::Wrong(lines.join("\n")))
        }
    }
}

/// What was found so far.
#[derive(Default)]
struct Tally {
    checked: usize,
    plans: usize,
    broken: usize,
    problems: usize,
    /// What the card of the last sound scenario says.
    card: String,
}

impl Tally {
    fn add(&mut self, file: &Path, text: &str, out: &mut dyn Write) -> Result<(), FrontEndError> {
        if is_plan(text) {
            return self.add_plan(file, text, out);
        }
        self.checked += 1;
        let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
        match check(text, KnownRules::These(&rules)) {
            Ok(scenario) => {
                let situation = scenario.situation.unwrap_or_default();
                self.card = printable(&format!("{}. {situation}", scenario.title)).into_owned();
            }
            Err(problems) => self.refuse(file, &problems, out)?,
        }
        Ok(())
    }

    /// Checks a lesson plan, and prints its steps with their times if it is sound.
    fn add_plan(
        &mut self,
        file: &Path,
        text: &str,
        out: &mut dyn Write,
    ) -> Result<(), FrontEndError> {
        self.plans += 1;
        match plan_files::checked(file, text) {
            Ok(plan) => plan_times(&plan, out),
            Err(problems) => self.refuse(file, &problems, out),
        }
    }

    /// Counts the problems of a file, and prints them.
    fn refuse(
        &mut self,
        file: &Path,
        problems: &[ScenarioProblem],
        out: &mut dyn Write,
    ) -> Result<(), FrontEndError> {
        self.broken += 1;
        self.problems += problems.len();
        for problem in problems {
            let problem = problem.to_string();
            writeln!(out, "{}:{}", printable_path(file), printable(&problem))?;
        }
        Ok(())
    }

    fn words(&self) -> String {
        let checked = match (self.checked, self.plans) {
            (_, 0) => counted(self.checked, "scenario"),
            (0, plans) => counted(plans, "lesson plan"),
            (_, plans) => {
                format!(
                    "{} and {}",
                    counted(self.checked, "scenario"),
                    counted(plans, "lesson plan")
                )
            }
        };
        if self.checked + self.plans == 0 {
            "no scenario checked".to_owned()
        } else if self.broken == 0 {
            format!("{checked} checked, no problem found")
        } else {
            let problems = counted(self.problems, "problem");
            format!("{checked} checked, {problems} in {}", self.broken)
        }
    }
}

/// Prints the steps of a plan with about how long each takes.
fn plan_times(plan: &PlanAtHand, out: &mut dyn Write) -> Result<(), FrontEndError> {
    let text_of = |file: &str| plan.text_of(file);
    let minutes = plan_time::step_minutes(&plan.plan, &text_of);
    writeln!(out, "{}. {}", printable(&plan.plan.title), printable(&plan.plan.for_whom))?;
    for (index, (step, minutes)) in plan.plan.steps.iter().zip(&minutes).enumerate() {
        let scenario = step.step.file().and_then(|file| plan.scenarios.get(file));
        let what = match &step.step {
            StepKind::Drill(kind) => kind.title().to_owned(),
            StepKind::Drawn(level) => format!("level {level}"),
            other => scenario.map_or_else(
                || other.file().unwrap_or_default().to_owned(),
                |scenario| scenario.title.clone(),
            ),
        };
        let minutes = minutes.map_or_else(|| "–".to_owned(), |minutes| format!("{minutes:.0}"));
        writeln!(
            out,
            "{:>4}  {:<9} {:<32} {minutes:>4} min  {}",
            index + 1,
            step.step.word(),
            printable(&what),
            step.until_words()
        )?;
    }
    let steps = plan.plan.steps.iter().zip(&minutes);
    let is_sitting = |kind: &StepKind| matches!(kind, StepKind::Sitting(_));
    let counted = steps.filter(|(step, _)| !is_sitting(&step.step));
    let total: f64 = counted.filter_map(|(_, minutes)| *minutes).sum();
    let [hours, rest] = [(total / 60.0).floor(), (total % 60.0).floor()];
    let sitting = match plan.plan.steps.iter().any(|step| is_sitting(&step.step)) {
        true => ", sittings not counted",
        false => "",
    };
    writeln!(out, "      in all {hours:.0} h {rest:.0} min{sitting}. {}", plan_time::source())?;
    Ok(())
}

fn counted(count: usize, of: &str) -> String {
    if count == 1 { format!("1 {of}") } else { format!("{count} {of}s") }
}
