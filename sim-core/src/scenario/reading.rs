//! Reading the text of a scenario, and explaining in plain words why it cannot be read.

use ron::error::{Error, SpannedError};
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

use crate::scenario::problem::{READABLE, ScenarioProblem};
use crate::scenario::suggest::{near, suggest};
use crate::scenario::text_places::TextPlace;

/// Added to what stopped the reading, because there may be more problems after it.
const THEN: &str = "(reading stopped here: check again afterwards)";

/// What a text is read as, for the messages.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WhatIsRead {
    /// What it is called.
    pub name: &'static str,
    /// How many levels of brackets it needs, in words.
    pub levels: &'static str,
    /// What to start from.
    pub model: &'static str,
}

impl WhatIsRead {
    /// A scenario.
    pub(crate) const SCENARIO: Self = Self {
        name: "scenario",
        levels: "six",
        model: "one of the scenarios that come with the program",
    };
    /// A lesson plan.
    pub(crate) const PLAN: Self = Self {
        name: "lesson plan",
        levels: "four",
        model: "the lesson plan that comes with the program",
    };
}

/// Reads a text. Entries that may be left out need no `Some`.
pub(crate) fn read<T: DeserializeOwned>(
    text: &str,
    what: WhatIsRead,
) -> Result<T, ScenarioProblem> {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .from_str(text)
        .map_err(|error| explain(&error, text, what))
}

fn explain(error: &SpannedError, text: &str, read: WhatIsRead) -> ScenarioProblem {
    let place = TextPlace { line: error.span.start.line, column: error.span.start.col };
    let (what, mend) =
        of_a_number(&error.code, text, place).unwrap_or_else(|| words(&error.code, read));
    ScenarioProblem::new(place, READABLE, what, format!("{mend} {THEN}"))
}

/// What is wrong with a number that the reader took apart: it reads a fraction up to its point
/// where a whole number is expected, and takes decimals after a comma for another entry.
fn of_a_number(error: &Error, text: &str, place: TextPlace) -> Option<(String, String)> {
    let line = text.lines().nth(place.line.checked_sub(1)?)?;
    let at = line.char_indices().nth(place.column.checked_sub(1)?)?.0;
    let (before, here) = (line.get(..at)?, line.get(at..)?);
    let is_digit = |c: char| c.is_ascii_digit();
    match error {
        Error::ExpectedComma => {
            let decimals = here.strip_prefix('.').filter(|rest| rest.starts_with(is_digit))?;
            let whole = trailing_digits(before);
            let all = leading_digits(decimals);
            (!whole.is_empty()).then(|| {
                let mend = format!("write it without decimals, such as {whole}");
                (format!("a whole number is expected, not {whole}.{all}"), mend)
            })
        }
        Error::InvalidIdentifier(_) | Error::SuggestRawIdentifier(_) => {
            let decimals = leading_digits(here);
            let whole = trailing_digits(before.strip_suffix(',')?);
            (!whole.is_empty() && !decimals.is_empty()).then(|| {
                let mend = format!("write {whole}.{decimals}, with a point before the decimals");
                (format!("`{whole},{decimals}` is not a number"), mend)
            })
        }
        _ => None,
    }
}

/// The digits that a text begins with.
fn leading_digits(text: &str) -> &str {
    text.find(|c: char| !c.is_ascii_digit()).and_then(|end| text.get(..end)).unwrap_or(text)
}

/// The digits that a text ends with.
fn trailing_digits(text: &str) -> &str {
    let before = text.trim_end_matches(|c: char| c.is_ascii_digit());
    text.get(before.len()..).unwrap_or_default()
}

/// What is wrong, and how to fix it.
fn words(error: &Error, read: WhatIsRead) -> (String, String) {
    match error {
        Error::NoSuchStructField { expected, found, .. } => (
            format!("there is no field `{found}` here"),
            match near(found, expected) {
                Some(name) => format!("write `{name}`"),
                None => format!(
                    "use one of {}, or close the bracket of the section above",
                    expected.join(", ")
                ),
            },
        ),
        Error::NoSuchEnumVariant { expected, found, .. } => {
            (format!("`{found}` is unknown here"), suggest(found, expected))
        }
        Error::MissingStructField { field, .. } => (
            format!("the field `{field}` is missing from the section that ends here"),
            format!("add `{field}: …`"),
        ),
        Error::DuplicateStructField { field, .. } => {
            (format!("the field `{field}` is written twice"), "keep one of them".to_owned())
        }
        Error::InvalidValueForType { expected, found } => {
            (format!("{found} is not valid here"), format!("write {expected}"))
        }
        Error::ExpectedFloat | Error::ExpectedInteger => {
            ("a number is expected here".to_owned(), "write it in digits, such as 12.5".to_owned())
        }
        Error::Eof | Error::ExpectedStringEnd => (
            "the text ends too early".to_owned(),
            "close every bracket and every quotation mark".to_owned(),
        ),
        Error::TrailingCharacters => (
            format!("there is something after the end of the {}", read.name),
            "remove it, or look for a bracket that was closed too early".to_owned(),
        ),
        Error::ExpectedComma => (
            "a comma is expected here".to_owned(),
            "put a comma between the two entries, or close the quotation mark before this place"
                .to_owned(),
        ),
        Error::IntegerOutOfBounds => (
            "this number is too large, or below zero".to_owned(),
            "write a whole number in its range".to_owned(),
        ),
        Error::InvalidIdentifier(found) | Error::SuggestRawIdentifier(found) => (
            format!("`{found}` is not a name"),
            if found.parse::<f64>().is_ok() {
                format!("if the number may be spread, write `Fixed({found})`")
            } else {
                "write a name that scenarios/README.md lists".to_owned()
            },
        ),
        Error::ExpectedString => {
            ("a text is expected here".to_owned(), "put it in quotation marks".to_owned())
        }
        other => (lower(&other.to_string()), "write it as scenarios/README.md shows".to_owned()),
    }
}

fn lower(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_lowercase().chain(chars).collect())
}
