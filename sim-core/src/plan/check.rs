//! Checking a lesson plan: every problem found, with its place and how to fix it.

use super::rules;
use super::written::{LessonPlan, PLAN_FORMAT};
use crate::scenario::reading::{self, WhatIsRead};
use crate::scenario::text_places::TextPlaces;
use crate::scenario::{ScenarioProblem, check as scenario_check};

/// What is known of the files that a plan can name.
#[derive(Debug, Clone, Copy)]
pub enum FilesAtHand<'a> {
    /// Nothing: any file may be named.
    Unknown,
    /// Those that are at hand, each with what is wrong with it for a plan, if anything is.
    These(&'a [NamedFile]),
}

/// A file that is at hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedFile {
    /// Its name, as a plan gives it.
    pub name: String,
    /// Whether it can be used.
    pub state: FileState,
}

/// Whether a plan can use a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileState {
    /// It is a sound scenario with help.
    Practice,
    /// It is a sound scenario against the clock and without help.
    Timed,
    /// It has problems.
    Broken,
}

/// Checks a plan's text.
///
/// If it cannot be read, only the first such place is reported, because nothing after it can be
/// trusted. A text that can be read is held against every rule.
///
/// # Errors
///
/// Every problem found, in the order of their places; at least one.
pub fn check(text: &str, files: FilesAtHand<'_>) -> Result<LessonPlan, Vec<ScenarioProblem>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    scenario_check::guard(text, WhatIsRead::PLAN).map_err(|problem| vec![problem])?;
    let places = TextPlaces::of(text);
    scenario_check::not_too_deep(&places, WhatIsRead::PLAN).map_err(|problem| vec![problem])?;
    scenario_check::check_format(&places, PLAN_FORMAT, WhatIsRead::PLAN)
        .map_err(|problem| vec![problem])?;
    let plan: LessonPlan =
        reading::read(text, WhatIsRead::PLAN).map_err(|problem| vec![problem])?;
    let mut problems: Vec<ScenarioProblem> = rules::findings(&plan, files)
        .into_iter()
        .map(|found| {
            ScenarioProblem::new(places.find(&found.path), found.rule, found.what, found.mend)
        })
        .collect();
    if problems.is_empty() {
        return Ok(plan);
    }
    problems.sort_by_key(|problem| (problem.line, problem.column));
    Err(problems)
}

/// Whether a text is that of a plan and not of a scenario: a plan has steps at its top, and a scenario
/// none. Any text may be asked about.
pub fn is_plan(text: &str) -> bool {
    let places = TextPlaces::of(text);
    let has = |field: &str| places.has(field);
    has("steps") && !has("station")
}
