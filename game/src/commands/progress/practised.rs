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
        .map(|(step, minutes)| {
            let scenario = step.step.file().and_then(|file| at_hand.scenarios.get(file));
            StepFacts {
                title: scenario.map(|scenario| scenario.title.clone()),
                command: command(&step.step, scenario.map(|scenario| scenario.path.as_path())),
                minutes,
            }
        })
        .collect();
    let file = printable_path(&at_hand.path);
    let rows = PlanProgress::of(file, &at_hand.plan, &standing, &facts);
    progress.next_step = rows.next(&standing).or_else(|| advised(progress));
    progress.plan = Some(rows);
}

/// What to type for a step.
fn command(step: &StepKind, path: Option<&Path>) -> Option<String> {
    match step {
        StepKind::Drill(kind) => Some(format!("steady-draw drill {}", kind.name())),
        StepKind::Drawn(level) => Some(format!("steady-draw drive --drawn {level} --words")),
        StepKind::Lesson(_) | StepKind::Job(_) | StepKind::Sitting(_) => Some(drive(path?)),
    }
}

fn drive(path: &Path) -> String {
    format!("steady-draw drive {} --words", quoted(&printable_path(path)))
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
        command: first.scenario.as_ref().map(|scenario| drive(Path::new(&scenario.file))),
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
