//! The noise that a fault substitutes for the usual one.

use crate::digest::digest_fields;
use crate::noise::GaussMarkov;

/// The noise of a fault, which replaces the usual noise while the fault lasts.
#[derive(Debug, Clone, Default)]
pub(super) struct NoiseOverride {
    wander: Option<GaussMarkov>,
    pub(super) lasts: bool,
}

digest_fields!(NoiseOverride { wander, lasts });

impl NoiseOverride {
    /// Begins or continues noise from its own stream.
    pub(super) fn begin(&mut self, wander: impl FnOnce() -> GaussMarkov) {
        self.wander.get_or_insert_with(wander);
        self.lasts = true;
    }

    /// Advances by several seconds, with `usual_mean` the mean of the usual noise over them, and
    /// returns the mean that is in force.
    pub(super) fn advance(&mut self, seconds: u64, usual_mean: f64) -> f64 {
        let mean = self.wander.as_mut().map(|wander| wander.advance(seconds));
        mean.filter(|_| self.lasts).unwrap_or(usual_mean)
    }

    pub(super) fn step(&mut self) {
        if let Some(wander) = &mut self.wander {
            wander.step();
        }
    }

    /// The value of the fault's noise while it lasts, otherwise that of the usual noise.
    pub(super) fn over(&self, usual: &GaussMarkov) -> f64 {
        self.wander.as_ref().filter(|_| self.lasts).unwrap_or(usual).value()
    }
}
