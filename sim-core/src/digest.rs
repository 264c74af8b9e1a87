//! Hashing the state bit by bit, so that two sessions can be compared exactly.

use sha2::{Digest as _, Sha256};

/// Collects the bits of a state. Order matters; names do not enter.
#[derive(Debug, Clone, Default)]
pub struct Digest(Sha256);

impl Digest {
    /// An empty digest.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a number. Minus zero counts as zero; every NaN counts as the same NaN.
    pub fn number(&mut self, value: f64) {
        let bits = if value == 0.0 {
            0
        } else if value.is_nan() {
            u64::MAX
        } else {
            value.to_bits()
        };
        self.0.update(bits.to_le_bytes());
    }

    /// Adds a whole number.
    pub fn whole(&mut self, value: u64) {
        self.0.update(value.to_le_bytes());
    }

    /// Adds a yes or no.
    pub fn flag(&mut self, value: bool) {
        self.0.update([u8::from(value)]);
    }

    /// Adds a text, with its length.
    pub fn text(&mut self, value: &str) {
        self.whole(value.len() as u64);
        self.0.update(value.as_bytes());
    }

    /// The first 64 bits of the SHA-256, as sixteen hexadecimal digits.
    pub fn finish(self) -> String {
        short_hex(&self.0.finalize())
    }
}

/// A part of the state that can be hashed.
pub trait Digestible {
    /// Adds every bit of state that later ticks depend on.
    fn digest(&self, digest: &mut Digest);
}

/// SHA-256 of some bytes, as sixty-four hexadecimal digits.
pub fn sha256_hex(bytes: &[u8]) -> String {
    let hash = Sha256::digest(bytes);
    hash.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The first 64 bits of a hash, as sixteen hexadecimal digits.
fn short_hex(hash: &[u8]) -> String {
    hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}
