//! Checking a scenario: every problem found, with its place and how to fix it.

use crate::scenario::reading::WhatIsRead;
use crate::scenario::rules::{self, KnownRules};
use crate::scenario::text_places::{TextPlace, TextPlaces};
use crate::scenario::{FORMAT, Scenario, ScenarioProblem, reading};

pub use crate::scenario::problem::READABLE;

/// The largest text that is read, bytes.
pub const LARGEST_TEXT: usize = 4 * 1024 * 1024;

/// Checks a scenario's text.
///
/// If a text cannot be read (syntax, an unknown or missing field, a value of the wrong kind), only
/// the first such place is reported, because nothing after it can be trusted. A text that can be
/// read is checked against every rule, and all problems are reported in the order of their places.
///
/// # Errors
///
/// Every problem found; at least one.
pub fn check(text: &str, known_rules: KnownRules<'_>) -> Result<Scenario, Vec<ScenarioProblem>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    guard(text, WhatIsRead::SCENARIO).map_err(|problem| vec![problem])?;
    let places = TextPlaces::of(text);
    not_too_deep(&places, WhatIsRead::SCENARIO).map_err(|problem| vec![problem])?;
    check_format(&places, FORMAT, WhatIsRead::SCENARIO).map_err(|problem| vec![problem])?;
    let scenario: Scenario =
        reading::read(text, WhatIsRead::SCENARIO).map_err(|problem| vec![problem])?;
    let mut problems: Vec<ScenarioProblem> = rules::findings(&scenario, known_rules)
        .into_iter()
        .map(|found| {
            ScenarioProblem::new(places.find(&found.path), found.rule, found.what, found.mend)
        })
        .collect();
    if problems.is_empty() {
        return Ok(scenario);
    }
    problems.sort_by_key(|problem| (problem.line, problem.column));
    Err(problems)
}

/// Refuses a text whose brackets are nested too deep for whatever reads it afterwards.
pub(crate) fn not_too_deep(places: &TextPlaces, read: WhatIsRead) -> Result<(), ScenarioProblem> {
    let Some(place) = places.too_deep() else { return Ok(()) };
    let WhatIsRead { name, levels, .. } = read;
    Err(ScenarioProblem::unreadable(
        place,
        "brackets are nested more than 64 deep here",
        &format!("look for a bracket that was never closed; a {name} needs only {levels} levels"),
    ))
}

/// Refuses what cannot be the text of a scenario or a plan, before anything else reads it.
pub(crate) fn guard(text: &str, read: WhatIsRead) -> Result<(), ScenarioProblem> {
    let WhatIsRead { name, model, .. } = read;
    let refuse =
        |place, what: &str, mend: &str| Err(ScenarioProblem::unreadable(place, what, mend));
    if text.len() > LARGEST_TEXT {
        return refuse(
            TextPlace::START,
            "the text is larger than 4 MiB",
            &format!("give the right file: a {name} is a few kilobytes long"),
        );
    }
    if let Some(at) = text.find(|c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
        let before = text.get(..at).unwrap_or("");
        let line = 1 + before.matches('\n').count();
        let column = 1 + before.chars().rev().take_while(|&c| c != '\n').count();
        return refuse(
            TextPlace { line, column },
            "there is a control character here",
            &format!("give the right file, or remove the character: a {name} is plain text"),
        );
    }
    if text.trim().is_empty() {
        return refuse(TextPlace::START, "the text is empty", &format!("start from {model}"));
    }
    Ok(())
}

/// Checks the format number before anything else: the fields of another format are unknown.
pub(crate) fn check_format(
    places: &TextPlaces,
    format: u32,
    read: WhatIsRead,
) -> Result<(), ScenarioProblem> {
    let (place, name) = (places.find("format"), read.name);
    match places.word("format") {
        Some(word) if word.parse() == Ok(format) => Ok(()),
        Some(word) => Err(ScenarioProblem::unreadable(
            place,
            &format!("format {word} is unknown"),
            &format!("write `format: {format}`, or use the program that wrote this {name}"),
        )),
        None => Err(ScenarioProblem::unreadable(
            place,
            &format!("the {name} does not state its format"),
            &format!("begin with `(format: {format},`"),
        )),
    }
}
