//! The wandering that a fault brings.

use crate::digest::{Digest, Digestible};
use crate::noise::GaussMarkov;

/// The wandering of a fault, in place of the usual one while it lasts.
#[derive(Debug, Clone, Default)]
pub(super) struct NoiseOverride {
    wander: Option<GaussMarkov>,
    pub(super) lasts: bool,
}

impl NoiseOverride {
    /// Begins or goes on with a wandering of its own stream.
    pub(super) fn begin(&mut self, wander: impl FnOnce() -> GaussMarkov) {
        self.wander.get_or_insert_with(wander);
        self.lasts = true;
    }

    pub(super) fn step(&mut self) {
        if let Some(wander) = &mut self.wander {
            wander.step();
        }
    }

    /// Its value while it lasts, the usual one otherwise.
    pub(super) fn over(&self, usual: &GaussMarkov) -> f64 {
        self.wander.as_ref().filter(|_| self.lasts).unwrap_or(usual).value()
    }
}

impl Digestible for NoiseOverride {
    fn digest(&self, digest: &mut Digest) {
        digest.flag(self.lasts);
        if let Some(wander) = &self.wander {
            wander.digest(digest);
        }
    }
}
