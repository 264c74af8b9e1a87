//! An entry of a file of readings that is wrong.

use sim_core::scenario::text_places::{TextPlace, TextPlaces};

/// What is wrong with an entry, and which one it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrongEntry {
    /// The entry, such as `points[2].chart`; empty for the whole file.
    pub path: String,
    /// What is wrong, and what to do.
    pub what: String,
}

impl WrongEntry {
    /// What is wrong with the entry at a path.
    pub fn at(path: impl Into<String>, what: impl Into<String>) -> Self {
        Self { path: path.into(), what: what.into() }
    }

    /// Where the entry is written. One that was left out has the place of its section.
    pub fn place(&self, places: &TextPlaces) -> TextPlace {
        places.find(&self.path)
    }
}
