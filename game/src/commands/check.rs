//! `check PATH…`: checks scenarios and says everything that is wrong with them.

use std::io::Write;
use std::path::{Path, PathBuf};

use sessions::{FrontEndError, Outcome, read_text};
use sim_core::procedure::RULES;
use sim_core::scenario::{KnownRules, check};

/// Checks scenarios: every problem with its place, what is wrong and how to mend it.
///
/// One problem a line, `file:line:column: what; how to mend it`. Exit status 0: nothing was found.
/// 1: something was. 2: a path could not be read.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  steady-draw check scenarios/")]
pub struct CheckArguments {
    /// Scenarios, or folders of them (every *.ron in the folder)
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
}

/// Checks every scenario: one line for each problem, then one that sums up. Each line begins with
/// `file:line:column`, as editors expect it.
///
/// # Errors
///
/// When a path could not be read, or a folder has no scenarios. All other paths are checked first.
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

/// The scenarios that a path stands for: itself, or those in the folder, sorted by name.
pub(crate) fn files_at(path: &Path) -> Result<Vec<PathBuf>, FrontEndError> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let wrong = |error: &std::io::Error| FrontEndError::file("read", path, error);
    let mut files = Vec::new();
    for entry in std::fs::read_dir(path).map_err(|error| wrong(&error))? {
        let file = entry.map_err(|error| wrong(&error))?.path();
        if file.extension().is_some_and(|ending| ending == "ron") && !file.is_dir() {
            files.push(file);
        }
    }
    if files.is_empty() {
        return Err(FrontEndError::File {
            doing: "read",
            path: path.to_owned(),
            reason: "the folder has no *.ron file: name a scenario or its folder".to_owned(),
        });
    }
    files.sort();
    Ok(files)
}

/// What was found so far.
#[derive(Default)]
struct Tally {
    checked: usize,
    broken: usize,
    problems: usize,
}

impl Tally {
    fn add(&mut self, file: &Path, text: &str, out: &mut dyn Write) -> Result<(), FrontEndError> {
        self.checked += 1;
        let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
        if let Err(problems) = check(text, KnownRules::These(&rules)) {
            self.broken += 1;
            self.problems += problems.len();
            for problem in problems {
                writeln!(out, "{}:{problem}", file.display())?;
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
