//! Checking a lesson plan: every problem found, with its place and how to fix it.

use super::files::FilesAtHand;
use super::rules;
use super::written::{LessonPlan, PLAN_FORMAT};
use crate::scenario::reading::{self, WhatIsRead};
use crate::scenario::text_places::TextPlaces;
use crate::scenario::{ScenarioProblem, check as scenario_check};

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
