//! What somebody answers.

use sim_core::drill::{Answer, DrillMove, Question};
use sim_core::session::action::BarometerReference;

use crate::printable::printable;
use crate::prose::list;

/// What was said.
#[derive(Debug, Clone, PartialEq)]
pub enum DrillRequest {
    /// An answer.
    Answer(Answer),
    /// Something is done to see better.
    Move(DrillMove),
    /// What is seen is to be said again.
    Again,
    /// What can be said.
    Help,
    /// The end.
    Quit,
}

/// What somebody says to a question.
///
/// # Errors
///
/// When it is not understood: what can be said instead.
pub fn heard(text: &str, question: &Question) -> Result<DrillRequest, String> {
    let said = text.trim().trim_end_matches(['.', '!', '?']).to_lowercase();
    let words: Vec<&str> = said.split_whitespace().collect();
    match words.as_slice() {
        ["quit" | "exit" | "stop" | "end"] => return Ok(DrillRequest::Quit),
        ["help" | "?"] => return Ok(DrillRequest::Help),
        ["again" | "look"] | ["look", "again"] => return Ok(DrillRequest::Again),
        ["in", "words"] | ["read", "in", "words"] | ["read", "it", "in", "words"] => {
            return Ok(DrillRequest::Move(DrillMove::ReadInWords));
        }
        ["eye", "level"] | ["eye", "level", "with", ..] => {
            return Ok(DrillRequest::Move(DrillMove::Eye { eye_mm: 0.0 }));
        }
        ["eye", height] | ["eye", height, "mm"] | ["eye", height, "mm", "above"] => {
            return eye(height, 1.0);
        }
        ["eye", height, "mm", "below"] => return eye(height, -1.0),
        ["set", "station"]
        | ["set", "to", "station"]
        | ["set", "barometer", "to", "station"]
        | ["set", "station", "pressure"] => return Ok(set(BarometerReference::Station)),
        ["set", "sea", "level"]
        | ["set", "to", "sea", "level"]
        | ["set", "barometer", "to", "sea", "level"] => {
            return Ok(set(BarometerReference::SeaLevel));
        }
        _ => {}
    }
    let choices = question.choices();
    if choices.is_empty() { number(&said) } else { choice(&said, &choices) }
}

fn set(to: BarometerReference) -> DrillRequest {
    DrillRequest::Move(DrillMove::SetBarometer { to })
}

/// A height of the eye.
fn eye(height: &str, sign: f64) -> Result<DrillRequest, String> {
    match height.parse::<f64>() {
        Ok(height) if height.is_finite() => {
            Ok(DrillRequest::Move(DrillMove::Eye { eye_mm: sign * height }))
        }
        _ => Err(format!(
            "`{}` is not a height: say `eye level`, or `eye 40` for 40 mm above",
            printable(height)
        )),
    }
}

/// A number, with or without its unit.
fn number(said: &str) -> Result<DrillRequest, String> {
    let plain = said.replace('\u{2212}', "-").replace("minus ", "-");
    let first = plain.split_whitespace().next().unwrap_or_default();
    match first.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(DrillRequest::Answer(Answer::Number(number))),
        _ => Err(format!(
            "`{}` is not a number: answer with a number such as 3.15, or say `help`",
            printable(said)
        )),
    }
}

/// One of the choices: its name, or as much of it as tells it from the others.
fn choice(said: &str, choices: &[&str]) -> Result<DrillRequest, String> {
    let plain = |text: &str| text.to_lowercase().replace(['-', '\''], " ").replace("the ", "");
    let wanted = plain(said);
    let answer = |name: &str| Ok(DrillRequest::Answer(Answer::Choice(name.to_owned())));
    if let Some(name) = choices.iter().find(|name| plain(name) == wanted) {
        return answer(name);
    }
    let near: Vec<&&str> = choices
        .iter()
        .filter(|name| {
            let words = plain(name);
            !wanted.is_empty() && words.split_whitespace().any(|word| word == wanted)
                || wanted.len() > 3 && words.contains(&wanted)
        })
        .collect();
    match near.as_slice() {
        [only] => answer(only),
        [] => {
            let names: Vec<String> = choices.iter().map(|name| name.replace('-', " ")).collect();
            let said = printable(said);
            Err(format!("`{said}` is none of the answers: answer with one of {}", list(&names)))
        }
        several => {
            let names: Vec<String> = several.iter().map(|name| name.replace('-', " ")).collect();
            Err(format!("`{}` may be {}: say which", printable(said), list(&names)))
        }
    }
}
