//! Random numbers of a question: each has a stream of its own, named after kind, seed and number.

use super::kind::DrillKind;
use crate::noise::Stream;

/// The numbers from which a question is drawn.
pub(super) struct Draw(Stream);

impl Draw {
    /// Those of one question.
    pub(super) fn of(kind: DrillKind, seed: u64, number: u32) -> Self {
        Self(Stream::new(seed, &format!("drill {kind}, question {number}")))
    }

    /// A number between two others.
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.unit()
    }

    /// A number between two others, to so many decimals, as it is written down.
    pub(super) fn written(&mut self, low: f64, high: f64, decimals: i32) -> f64 {
        let tens = if decimals > 0 { 10.0 } else { 1.0 };
        let steps = (1..decimals).fold(tens, |steps, _| steps * 10.0);
        (self.between(low, high) * steps).round() / steps
    }

    /// A whole number below another, which is not zero.
    pub(super) fn below(&mut self, count: u64) -> u64 {
        ((self.0.unit() * count as f64) as u64).min(count.saturating_sub(1))
    }

    /// One of several.
    pub(super) fn one_of<T: Copy, const N: usize>(&mut self, from: [T; N]) -> T {
        from[self.below(N as u64) as usize]
    }

    /// Whether something happens that does in this share of cases.
    pub(super) fn happens(&mut self, share: f64) -> bool {
        self.0.unit() < share
    }

    /// Minus or plus one.
    pub(super) fn side(&mut self) -> f64 {
        if self.happens(0.5) { -1.0 } else { 1.0 }
    }

    /// A draw from the standard normal distribution.
    pub(super) fn normal(&mut self) -> f64 {
        self.0.normal()
    }

    /// A seed for a session.
    pub(super) fn seed(&mut self) -> u64 {
        self.below(1 << 53)
    }

    /// Puts things into another order.
    pub(super) fn shuffle<T>(&mut self, things: &mut [T]) {
        for at in (1..things.len()).rev() {
            let other = self.below(at as u64 + 1) as usize;
            things.swap(at, other);
        }
    }
}
