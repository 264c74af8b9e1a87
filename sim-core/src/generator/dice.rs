//! Draws by name: each has a random stream of its own, so that a new draw shifts no other.

use super::level::Level;
use crate::noise::Stream;

/// The dice of one rig.
#[derive(Debug, Clone, Copy)]
pub(super) struct Dice {
    level: Level,
    seed: u64,
}

impl Dice {
    /// The dice of a level and a seed.
    pub const fn new(level: Level, seed: u64) -> Self {
        Self { level, seed }
    }

    /// A number from 0 to 1, without 1.
    pub fn unit(self, name: &str) -> f64 {
        let name = format!("drawn rig of level {}: {name}", self.level.number());
        Stream::new(self.seed, &name).unit()
    }

    /// A number between two others.
    pub fn between(self, name: &str, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit(name)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn whole(self, name: &str, low: u32, high: u32) -> u32 {
        let count = f64::from(high - low + 1);
        low + (self.unit(name) * count) as u32
    }

    /// One of these.
    pub fn one_of<T: Copy>(self, name: &str, all: &[T]) -> Option<T> {
        let at = (self.unit(name) * all.len() as f64) as usize;
        all.get(at).copied()
    }
}
