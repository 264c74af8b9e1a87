//! An entry of a file of readings that is wrong.

use sim_core::scenario::text_places::TextPlaces;

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

    /// The message, after the line and the column of the entry. An entry that was left out has the
    /// place of the section that it belongs to.
    pub fn placed(&self, places: &TextPlaces) -> String {
        let place = places.find(&self.path);
        format!("{}:{}: {}", place.line, place.column, self.what)
    }
}
