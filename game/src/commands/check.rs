//! `check PATH…`: checks scenarios and reports everything that is wrong with them.

use std::io::Write;
use std::path::{Path, PathBuf};

use sessions::{FrontEndError, Outcome, printable, printable_path, read_text};
use sim_core::procedure::RULES;
use sim_core::scenario::{KnownRules, check};

use super::scenario_files::files_at;

/// Checks scenarios and reports every problem: where it is, what is wrong, and how to correct it.
///
/// Each problem is one line, `file:line:column: what is wrong; how to correct it`.
///
/// Exit status 0: no problem was found. 1: a problem was found. 2: a path could not be read, or the
/// output could not be written.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  steady-draw check scenarios/")]
pub struct CheckArguments {
    /// Scenarios, or folders of scenarios (every *.ron file in the folder)
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
        // Who checks one scenario sees what its trainee will see before the work.
        0 if tally.checked == 1 && tally.broken == 0 => {
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
    broken: usize,
    problems: usize,
    /// What the card of the last sound scenario says.
    card: String,
}

impl Tally {
    fn add(&mut self, file: &Path, text: &str, out: &mut dyn Write) -> Result<(), FrontEndError> {
        self.checked += 1;
        let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
        match check(text, KnownRules::These(&rules)) {
            Ok(scenario) => {
                let situation = scenario.situation.unwrap_or_default();
                self.card = printable(&format!("{}. {situation}", scenario.title)).into_owned();
            }
            Err(problems) => {
                self.broken += 1;
                self.problems += problems.len();
                for problem in problems {
                    let problem = problem.to_string();
                    writeln!(out, "{}:{}", printable_path(file), printable(&problem))?;
                }
            }
        }
        Ok(())
    }

    fn words(&self) -> String {
        let checked = counted(self.checked, "scenario");
        if self.checked == 0 {
            "no scenario checked".to_owned()
        } else if self.broken == 0 {
            format!("{checked} checked, no problem found")
        } else {
            let problems = counted(self.problems, "problem");
            format!("{checked} checked, {problems} in {}", self.broken)
        }
    }
}

fn counted(count: usize, of: &str) -> String {
    if count == 1 { format!("1 {of}") } else { format!("{count} {of}s") }
}
