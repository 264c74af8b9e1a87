//! Drills and the lesson plan: what was practised, where the person stands, and the next step.

use std::path::Path;

use report::progress::{DrillRow, LeftOut, NextAction, PlanProgress, Progress, StepFacts};
use sessions::{FrontEndError, printable_path, read_bytes_up_to};
use sim_core::drill::{DrillResult, journal};
use sim_core::plan::{PlanStanding, Practice, StepKind, drill_practice};
use sim_core::trial::plan_time;

use crate::commands::plan_files::PlanAtHand;

/// Largest journal of a drill that is read, bytes: a series of a thousand questions is a few hundred
/// kilobytes.
const LARGEST: u64 = 16 * 1024 * 1024;

/// What came of the questions of a drill's journal, or why it is left out.
pub fn drill_results(path: &Path) -> Result<Vec<DrillResult>, LeftOut> {
    let file = printable_path(path);
    let left = |why: String| LeftOut { file: file.clone(), why };
    let bytes = read_bytes_up_to(path, LARGEST).map_err(|error| left(error.to_string()))?;
    let journal = journal::read(&bytes).map_err(|error| left(error.to_string()))?;
    Ok(journal.results().cloned().collect())
}

/// Adds drills, plan and next step to a person's progress, at a moment.
pub fn add(
    progress: &mut Progress,
    results: &[DrillResult],
    plan: Option<&PlanAtHand>,
    now_unix_s: u64,
) {
    progress.drills = DrillRow::all(results);
    let Some(at_hand) = plan else {
        progress.next_step = advised(progress);
        return;
    };
    let mut practice: Vec<Practice> =
        progress.sessions.iter().map(|session| session.practice()).collect();
    practice.extend(drill_practice(results));
    let sha256_of = |file: &str| at_hand.sha256_of(file);
    let standing = PlanStanding::at(&at_hand.plan, &practice, &sha256_of, now_unix_s);
    let text_of = |file: &str| at_hand.text_of(file);
    let minutes = plan_time::step_minutes(&at_hand.plan, &text_of);
    let facts: Vec<StepFacts> = at_hand
        .plan
        .steps
        .iter()
        .zip(minutes)
        .zip(&standing.steps)
        .map(|((step, minutes), stands)| {
            let scenario = step.step.file().and_then(|file| at_hand.scenarios.get(file));
            StepFacts {
                title: scenario.map(|scenario| scenario.title.clone()),
                command: Typed { name: progress.name.as_deref(), next: stands.tries + 1 }
                    .command(&step.step, scenario.map(|scenario| scenario.path.as_path())),
                minutes,
            }
        })
        .collect();
    let file = printable_path(&at_hand.path);
    let rows = PlanProgress::of(file, &at_hand.plan, &standing, &facts);
    progress.next_step = rows.next(&standing).or_else(|| advised(progress));
    progress.plan = Some(rows);
}

/// What is known for the words to type: whose progress it is, and how many times the step will have been
/// done with the next one. The number makes the name of each journal, and the seed of each drawn rig, a
/// new one.
struct Typed<'a> {
    name: Option<&'a str>,
    next: usize,
}

impl Typed<'_> {
    /// What to type for a step.
    fn command(&self, step: &StepKind, path: Option<&Path>) -> Option<String> {
        match step {
            StepKind::Drill(kind) => {
                let name = kind.name();
                Some(format!("steady-draw drill {name} --journal {name}-{}.drill", self.next))
            }
            StepKind::Drawn(level) => {
                let rig = format!("--drawn {level} --seed {}", self.next);
                Some(self.drive(&rig, "drawn_rig"))
            }
            StepKind::Lesson(_) | StepKind::Job(_) | StepKind::Sitting(_) => {
                Some(self.scenario(path?))
            }
        }
    }

    /// What to type for a scenario.
    fn scenario(&self, path: &Path) -> String {
        let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        self.drive(&quoted(&printable_path(path)), &stem)
    }

    fn drive(&self, what: &str, stem: &str) -> String {
        let kept = match self.name {
            Some(name) => format!("--name {}", quoted(name)),
            None => format!("--journal {}", quoted(&format!("{stem}-{}.journal", self.next))),
        };
        format!("steady-draw drive {what} --words {kept}")
    }
}

/// A path as a shell takes it for one word.
fn quoted(path: &str) -> String {
    let is_plain = |c: char| c.is_alphanumeric() || matches!(c, '/' | '.' | '_' | '-');
    if path.chars().all(is_plain) {
        path.to_owned()
    } else {
        format!("'{}'", path.replace('\'', r"'\''"))
    }
}

/// The most urgent advice as a next step.
fn advised(progress: &Progress) -> Option<NextAction> {
    let first = progress.next.first()?;
    Some(NextAction {
        what: first.what.clone(),
        why: first.why.clone(),
        command: first.scenario.as_ref().map(|scenario| {
            Typed { name: progress.name.as_deref(), next: progress.sessions.len() + 1 }
                .scenario(Path::new(&scenario.file))
        }),
    })
}

/// The plan that is named, or the one that came with the program.
///
/// # Errors
///
/// When the one that is named cannot be read or has problems.
pub fn plan_for(
    named: Option<&Path>,
    scenarios: Option<&Path>,
) -> Result<Option<PlanAtHand>, FrontEndError> {
    match (named, scenarios) {
        (Some(path), _) => PlanAtHand::read(path).map(Some),
        (None, Some(folder)) => PlanAtHand::shipped(folder),
        (None, None) => Ok(None),
    }
}
