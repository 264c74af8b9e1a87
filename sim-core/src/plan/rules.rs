//! The rules for lesson plans.

use std::collections::BTreeMap;

use super::files::{FileState, FilesAtHand};
use super::written::{LessonPlan, PlanStep, StepKind};
use crate::generator::Level;
use crate::scenario::suggest::near;
use crate::text::printable;

/// Most characters of a title.
const LONGEST_TITLE: usize = 80;
/// Most characters of the words that say for whom it is.
const LONGEST_FOR_WHOM: usize = 320;
/// Most steps (CHOSEN: a plan of many weeks has fewer).
const MOST_STEPS: usize = 200;
/// Most repetitions of a step (CHOSEN).
const MOST_TIMES: u8 = 20;
/// Longest name of a file, characters.
const LONGEST_FILE: usize = 120;
/// The levels by which a rig can be drawn.
pub(super) const LEVELS: std::ops::RangeInclusive<u8> = 1..=Level::ALL.len() as u8;

/// Something that a rule found.
pub(super) struct PlanFinding {
    pub path: String,
    pub rule: &'static str,
    pub what: String,
    pub mend: String,
}

/// Everything that the rules find.
pub(super) fn findings(plan: &LessonPlan, files: FilesAtHand<'_>) -> Vec<PlanFinding> {
    let mut found = Vec::new();
    text("title", &plan.title, LONGEST_TITLE, &mut found);
    text("for_whom", &plan.for_whom, LONGEST_FOR_WHOM, &mut found);
    let mut add = |rule, path: String, what: String, mend: String| {
        found.push(PlanFinding { path, rule, what, mend });
    };
    if plan.steps.is_empty() {
        let mend = "write at least one, such as `(step: Drill(\"leg\"))`".to_owned();
        add("plan-steps", "steps".to_owned(), "the plan has no step".to_owned(), mend);
    }
    if plan.steps.len() > MOST_STEPS {
        let what = format!("the plan has {} steps", plan.steps.len());
        let mend = format!("write at most {MOST_STEPS}, and a second plan for the rest");
        add("plan-steps", format!("steps[{MOST_STEPS}]"), what, mend);
    }
    let mut first: BTreeMap<&StepKind, usize> = BTreeMap::new();
    for (index, step) in plan.steps.iter().enumerate() {
        let path = format!("steps[{index}]");
        if let Some(earlier) = first.insert(&step.step, index) {
            let what = format!("this is step {} again", earlier + 1);
            let mend =
                "name each thing once; to have it done several times, write `until: (times: 2)`"
                    .to_owned();
            add("plan-once", format!("{path}.step"), what, mend);
        }
        of_step(step, &path, files, &mut add);
    }
    found
}

/// Adds a finding: rule, path, what is wrong, how to fix it.
type Add<'a> = dyn FnMut(&'static str, String, String, String) + 'a;

fn of_step(step: &PlanStep, path: &str, files: FilesAtHand<'_>, add: &mut Add<'_>) {
    let until = &step.until;
    if let Some(marks) = until.marks {
        let is_number = marks.is_finite() && (0.0..=100.0).contains(&marks);
        if !is_number {
            let what = format!("{marks} marks cannot be reached");
            add("plan-until", format!("{path}.until.marks"), what, "write 0 to 100".to_owned());
        }
    }
    if let StepKind::Drill(_) = step.step {
        let mend =
            "leave it out: a drill goes on until it is good enough by its own standard".to_owned();
        if until.marks.is_some() {
            let what = "a drill has no marks".to_owned();
            add("plan-until", format!("{path}.until.marks"), what, mend.clone());
        }
        if until.unaided {
            let what = "there is no help to ask for in a drill".to_owned();
            add("plan-until", format!("{path}.until.unaided"), what, mend);
        }
    }
    if !(1..=MOST_TIMES).contains(&until.times) {
        let what = format!("a step cannot be done {} times", until.times);
        let mend = format!("write 1 to {MOST_TIMES}");
        add("plan-until", format!("{path}.until.times"), what, mend);
    }
    if let StepKind::Drawn(level) = step.step
        && !LEVELS.contains(&level)
    {
        let what = format!("there is no level {level}");
        let mend = format!("write {} to {}", LEVELS.start(), LEVELS.end());
        add("plan-level", format!("{path}.step"), what, mend);
    }
    if let Some(file) = step.step.file() {
        of_file(&step.step, file, format!("{path}.step"), files, add);
    }
}

/// A file is named by its name alone or below the folder, never by a way out of it.
fn of_file(kind: &StepKind, file: &str, path: String, files: FilesAtHand<'_>, add: &mut Add<'_>) {
    let shown = printable(file);
    if let Some(why) = no_file_name(file) {
        let mend = "write its name as it stands in the folder of scenarios, such as `01_first_calibration.ron`";
        add("plan-file", path, format!("`{shown}` {why}"), mend.to_owned());
        return;
    }
    let FilesAtHand::These(files) = files else { return };
    let Some(known) = files.iter().find(|known| known.name == file) else {
        let names: Vec<&str> = files.iter().map(|known| known.name.as_str()).collect();
        let mend = match near(file, &names) {
            Some(name) => format!("write `{}`", printable(name)),
            None => "put it into the folder of scenarios, or correct its name".to_owned(),
        };
        add("plan-file", path, format!("there is no scenario `{shown}`"), mend);
        return;
    };
    let is_sitting = matches!(kind, StepKind::Sitting(_));
    match known.state {
        FileState::Broken => {
            let mend = "check that file, and correct it first".to_owned();
            add("plan-file", path, format!("the scenario `{shown}` has problems"), mend);
        }
        FileState::Practice if is_sitting => {
            let what = format!("`{shown}` has no time limit, or allows help, so it is no sitting");
            let mend = "write `Job(…)`, or name a scenario with `time_limit_min` and `help: false`";
            add("plan-sitting", path, what, mend.to_owned());
        }
        FileState::Practice | FileState::Timed => {}
    }
}

/// Why a text is no name of a scenario file.
fn no_file_name(file: &str) -> Option<&'static str> {
    let is_part =
        |part: &str| !part.is_empty() && !part.starts_with('.') && !part.ends_with([' ', '.']);
    if file.chars().count() > LONGEST_FILE {
        Some("is too long for the name of a file")
    } else if !file.ends_with(".ron") {
        Some("is not the name of a scenario, which ends in .ron")
    } else if file.contains(|c: char| c == '\\' || c == ':' || crate::text::is_unprintable(c)) {
        Some("has a character that no name of a scenario has")
    } else if !file.split('/').all(is_part) {
        Some("leads out of the folder, or names no file")
    } else {
        None
    }
}

/// A text that is not empty, not too long, and plain.
fn text(field: &'static str, text: &str, longest: usize, found: &mut Vec<PlanFinding>) {
    let mut add = |what: String, mend: String| {
        found.push(PlanFinding { path: field.to_owned(), rule: "plan-texts", what, mend });
    };
    let count = text.chars().count();
    if text.trim().is_empty() {
        add(format!("`{field}` is empty"), "write a few words".to_owned());
    } else if count > longest {
        let mend = format!("write at most {longest} characters");
        add(format!("`{field}` has {count} characters"), mend);
    }
    if text.contains(crate::text::is_unprintable) {
        let what = format!("`{field}` has a character that is not printed");
        add(what, "remove it: these words stand on one line".to_owned());
    }
}
