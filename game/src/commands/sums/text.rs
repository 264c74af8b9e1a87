//! Reading the text of a file, and saying in the words of this program why it cannot be read.

use ron::error::{Error, SpannedError};
use ron::extensions::Extensions;

use super::sections::Sections;

/// Deepest nesting that is read; the form needs four levels.
const DEEPEST: usize = 32;

/// The longest piece of a file that a message repeats, characters.
const LONGEST_QUOTED: usize = 60;

/// The sections of a text.
///
/// # Errors
///
/// Where reading stopped (line and column) and why.
pub fn sections(text: &str) -> Result<Sections, String> {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .with_recursion_limit(DEEPEST)
        .from_str(text)
        .map_err(|error: SpannedError| {
            let start = error.span.start;
            format!("{}:{}: {}", start.line, start.col, words(&error.code))
        })
}

/// The problem in the words of this program.
fn words(error: &Error) -> String {
    let list = |names: &[&str]| names.join(", ");
    let of = |link: &str, outer: &Option<String>| {
        outer.as_deref().map_or(String::new(), |outer| format!(" {link} `{outer}`"))
    };
    match error {
        Error::Message(message) => message.clone(),
        Error::NoSuchStructField { expected, found, outer } => {
            let (found, place) = (short(found), of("in", outer));
            format!("there is no `{found}`{place}: use one of {}", list(expected))
        }
        Error::MissingStructField { field, outer } => {
            format!("`{field}` is missing{}: add it", of("from", outer))
        }
        Error::DuplicateStructField { field, outer } => {
            format!("`{field}` is given twice{}: keep one of them", of("in", outer))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            format!("there is no `{}`: use one of {}", short(found), list(expected))
        }
        Error::ExceededRecursionLimit => {
            "the brackets are nested too deeply: see `steady-draw sums --help` for the form"
                .to_owned()
        }
        Error::Eof => "the file ends too soon: close every bracket".to_owned(),
        Error::ExpectedComma => "a comma or a closing bracket is missing here: add it".to_owned(),
        Error::ExpectedFloat => {
            "a number is expected here: write it in digits, such as 3.1".to_owned()
        }
        Error::ExpectedMapColon => {
            "a colon and a value are expected here: give each value after its name, such as \
             `chart: 45`"
                .to_owned()
        }
        Error::InvalidIdentifier(found) | Error::SuggestRawIdentifier(found) => format!(
            "a name is expected here, not `{}`: give each value after its name, such as \
             `chart: 32.5`, with a decimal point",
            short(found)
        ),
        Error::ExpectedIdentifier => {
            "a name is expected here, without quotation marks: see `steady-draw sums --help` for \
             the form"
                .to_owned()
        }
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
    let mut cut: String = text.chars().take(LONGEST_QUOTED).collect();
    if text.chars().nth(LONGEST_QUOTED).is_some() {
        cut.push('…');
    }
    cut
}
