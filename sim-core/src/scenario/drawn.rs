//! The numbers drawn for one bench, by name. They go into the journal, and a replay builds the
//! bench from them alone, so that changing a distribution later does not change old sessions.

use serde::{Deserialize, Serialize};

/// Names and values in the order in which they were drawn.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Drawn(Vec<(String, f64)>);

impl Drawn {
    /// The value of this name.
    pub fn get(&self, name: &str) -> Option<f64> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, value)| *value)
    }

    /// Names and values in the order in which they were drawn.
    pub fn iter(&self) -> impl Iterator<Item = (&str, f64)> {
        self.0.iter().map(|(name, value)| (name.as_str(), *value))
    }

    /// Names and values taken from a journal.
    pub const fn from_journal(values: Vec<(String, f64)>) -> Self {
        Self(values)
    }

    /// Names and values, for a journal.
    pub fn to_journal(&self) -> Vec<(String, f64)> {
        self.0.clone()
    }

    /// Adds a value.
    pub(crate) fn push(&mut self, name: String, value: f64) {
        self.0.push((name, value));
    }
}
