//! The trainee's record: what was written, where and when, as typed. It computes nothing.

mod decision;
mod field;
mod label;

use std::sync::Arc;

use crate::digest::{digest_fields, digest_names};
use crate::text::printable;
use crate::time::Tick;

pub use decision::{Decision, Struck};
pub use field::{Field, PointNumber};

digest_names!(Field, PointNumber, Decision);

/// One entry, which is never erased.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BookEntry {
    /// When it was written.
    pub tick: Tick,
    /// Where it was written.
    pub field: Field,
    /// What was written, as typed; nothing where the entry only strikes out the ones before.
    pub text: String,
    /// What is decided by it, if it is a decision.
    pub decision: Option<Decision>,
    /// Whether it only strikes out the entries before it.
    pub strikes_out: bool,
}

digest_fields!(BookEntry { tick, field, text, decision, strikes_out });

/// The whole record in the order of writing. A later entry in a field strikes out the earlier ones.
///
/// Copies share their entries until one of them is written to, because a state is copied at every
/// action.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FieldBook {
    entries: Arc<Vec<BookEntry>>,
}

// An entry is struck out by a later one in its field, so the row of entries tells that as well.
digest_fields!(FieldBook { entries });

impl FieldBook {
    /// Writes an entry.
    pub fn write(&mut self, tick: Tick, field: Field, text: &str) {
        let text = text.to_owned();
        self.add(BookEntry { tick, field, text, decision: None, strikes_out: false });
    }

    /// Writes a decision with its reason.
    pub fn decide(&mut self, tick: Tick, decision: Decision, reason: &str) {
        let (field, text) = (decision.field(), decision.entry(reason));
        self.add(BookEntry { tick, field, text, decision: Some(decision), strikes_out: false });
    }

    /// Strikes out what stands in a field. It stays legible.
    pub fn strike(&mut self, tick: Tick, field: Field) {
        let text = String::new();
        self.add(BookEntry { tick, field, text, decision: None, strikes_out: true });
    }

    fn add(&mut self, entry: BookEntry) {
        Arc::make_mut(&mut self.entries).push(entry);
    }

    /// Every entry, struck out or not, in the order of writing.
    pub fn entries(&self) -> &[BookEntry] {
        &self.entries
    }

    /// The current entry in a field.
    pub fn entry(&self, field: Field) -> Option<&BookEntry> {
        self.entries.iter().rev().find(|entry| entry.field == field)
    }

    /// The current text in a field; an empty entry counts as absent.
    pub fn text(&self, field: Field) -> Option<&str> {
        self.entry(field).map(|entry| entry.text.trim()).filter(|text| !text.is_empty())
    }

    /// The decision that stands in a field.
    pub fn decision(&self, field: Field) -> Option<Decision> {
        self.entry(field).and_then(|entry| entry.decision)
    }

    /// The current number in a field, if the entry is a number.
    pub fn number(&self, field: Field) -> Option<f64> {
        self.text(field).and_then(|text| number_as_written(text).ok())
    }

    /// The points for which a leg, a sum of legs or a chart reading is written.
    pub fn points(&self) -> Vec<PointNumber> {
        PointNumber::all()
            .filter(|&point| {
                [Field::Up(point), Field::Down(point), Field::DeltaH(point), Field::Chart(point)]
                    .iter()
                    .any(|&field| self.text(field).is_some())
            })
            .collect()
    }
}

/// The largest value that the field book accepts as a number: far beyond any gauge and unit, and
/// small enough that no calculation with it overflows.
pub const LARGEST_NUMBER: f64 = 1e9;

/// The text is not a number.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a number: write it in digits, such as 3.1, 56 1/2 or 56½", printable(.0))]
pub struct NotANumber(String);

/// Reads a number as people write it: `3.1`, `3,1`, `-0.02`, `56½`, `56 1/2`, with or without
/// spaces around it.
///
/// # Errors
///
/// When the text is not a number, or the number is larger than [`LARGEST_NUMBER`].
pub fn number_as_written(text: &str) -> Result<f64, NotANumber> {
    let wrong = || NotANumber(text.chars().take(40).collect());
    let tidy = text.trim().replace(',', ".").replace('\u{2212}', "-");
    let tidy = tidy.replace('½', " 1/2").replace('¼', " 1/4").replace('¾', " 3/4");
    let mut words = tidy.split_whitespace();
    let first = words.next().ok_or_else(wrong)?;
    let value = match (first.split_once('/'), words.next(), words.next()) {
        (None, None, _) => plain(first).ok_or_else(wrong)?,
        (Some(_), None, _) => fraction(first).ok_or_else(wrong)?,
        (None, Some(second), None) => {
            let whole = plain(first).ok_or_else(wrong)?;
            let part = fraction(second).ok_or_else(wrong)?;
            if first.starts_with('-') { whole - part } else { whole + part }
        }
        _ => return Err(wrong()),
    };
    if value.abs() <= LARGEST_NUMBER { Ok(value) } else { Err(wrong()) }
}

/// A decimal number; neither `inf` nor `nan`.
fn plain(text: &str) -> Option<f64> {
    let decimal =
        text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | 'e' | 'E'));
    if decimal { text.parse().ok() } else { None }
}

/// A fraction such as `1/2`.
fn fraction(text: &str) -> Option<f64> {
    let (above, below) = text.split_once('/')?;
    let (above, below) = (plain(above)?, plain(below)?);
    if below > 0.0 { Some(above / below) } else { None }
}
