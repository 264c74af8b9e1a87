//! What is wrong with the text of a file, where, and how to mend it.

use ron::error::{Error, SpannedError};

/// The longest piece of a file that a message repeats, characters.
const LONGEST_QUOTED: usize = 60;

/// Every problem of a refused file, each beginning with its line and column.
pub fn problems(error: &SpannedError) -> Vec<String> {
    let (line, column) = (error.span.start.line, error.span.start.col);
    // Rules across a whole section say several things at once, one a line.
    words(&error.code).lines().map(|problem| format!("{line}:{column}: {problem}")).collect()
}

/// The problem in the words of this program.
fn words(error: &Error) -> String {
    let list = |names: &[&str]| names.join(", ");
    let inside = |outer: &Option<String>| {
        outer.as_deref().map_or(String::new(), |outer| format!(" in `{outer}`"))
    };
    match error {
        Error::Message(message) => message.clone(),
        Error::NoSuchStructField { expected, found, outer } => {
            let (found, place) = (short(found), inside(outer));
            format!("there is no `{found}`{place}: use one of {}", list(expected))
        }
        Error::MissingStructField { field, outer } => {
            format!("`{field}` is missing{}: add it", inside(outer))
        }
        Error::DuplicateStructField { field, outer } => {
            format!("`{field}` stands twice{}: keep one of them", inside(outer))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            format!("there is no `{}`: use one of {}", short(found), list(expected))
        }
        Error::ExceededRecursionLimit => {
            "the brackets are nested too deeply: see `steady-draw sums --help` for the form"
                .to_owned()
        }
        Error::Eof => "the file ends too early: close every bracket that was opened".to_owned(),
        Error::ExpectedComma => {
            "a comma or a closing bracket is missing before this place: add it".to_owned()
        }
        Error::ExpectedFloat => "here stands a number: write it in digits, such as 3.1".to_owned(),
        Error::TrailingCharacters => {
            "there is text after the last bracket: remove it, or the bracket before it".to_owned()
        }
        other => {
            let said = short(&other.to_string());
            let mut letters = said.chars();
            let first = letters.next().map(|c| c.to_ascii_lowercase()).unwrap_or_default();
            format!("{first}{}: see `steady-draw sums --help` for the form", letters.as_str())
        }
    }
}

/// A piece of the file, or of a message about it, cut to a length that can be read.
fn short(text: &str) -> String {
    let clean = |c: char| if c.is_control() { ' ' } else { c };
    let mut cut: String = text.chars().take(LONGEST_QUOTED).map(clean).collect();
    if text.chars().nth(LONGEST_QUOTED).is_some() {
        cut.push('…');
    }
    cut
}
