//! Refusals: the checks that an action must pass before it is done.

use crate::rig::parts::Leg;

/// Longest text that can be written, characters.
pub const LONGEST_TEXT: usize = 2000;

/// An action that cannot be done at the moment. The message says why, and what to do first.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Refusal(pub String);

/// Shorthand for a refusal.
pub(in crate::session) fn refuse<T>(why: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal(why.into()))
}

/// Refuses a number that is not finite or out of its range.
pub(super) fn within(
    what: &str,
    value: f64,
    least: f64,
    most: f64,
    unit: &str,
) -> Result<(), Refusal> {
    if value.is_finite() && (least..=most).contains(&value) {
        Ok(())
    } else {
        refuse(format!("{what} must be between {least} and {most} {unit}, not {value}"))
    }
}

/// Refuses a text that cannot be written into a field book.
pub(super) fn check_text(text: &str) -> Result<(), Refusal> {
    if text.chars().count() > LONGEST_TEXT {
        return refuse(format!("the text is too long: write at most {LONGEST_TEXT} characters"));
    }
    if text.chars().any(|c| c.is_control() && c != '\n') {
        return refuse("the text contains control characters: use plain letters and figures");
    }
    Ok(())
}

/// A leg's name in messages.
pub(super) const fn leg_name(leg: Leg) -> &'static str {
    match leg {
        Leg::Left => "left",
        Leg::Right => "right",
    }
}
