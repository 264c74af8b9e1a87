//! The numbers drawn for one bench, by name. They go into the journal, and a replay builds the bench
//! from them alone, so that changing a distribution later does not change old sessions.

use serde::{Deserialize, Serialize};

use crate::scenario::Scenario;
use crate::scenario::weather::THUNDER;

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

impl Scenario {
    /// Draws every number of the bench with this seed.
    pub fn draw(&self, seed: u64) -> Drawn {
        let mut drawn = Drawn::default();
        for (parameter, written) in self.weather.written() {
            if parameter.name != THUNDER || written.is_some() {
                drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
            }
        }
        for (parameter, written) in self.instruments.written() {
            drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
        }
        for (parameter, written) in self.run.iter().flat_map(|run| run.written()) {
            drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
        }
        for paper in &self.certificates {
            paper.draw(&self.work_order.calibrator_serial, seed, &mut drawn);
        }
        drawn
    }
}
