//! Hashing the state bit by bit, so that two sessions can be compared exactly.
//!
//! Nothing may be forgotten: `digest_fields!` takes a struct apart field by field, and a new field
//! does not compile until it stands in one of its two lists.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

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

    /// Adds bytes whose number is always the same.
    pub fn bytes(&mut self, bytes: &[u8]) {
        self.0.update(bytes);
    }

    /// Adds a text, with its length.
    pub fn text(&mut self, value: &str) {
        self.whole(value.len() as u64);
        self.0.update(value.as_bytes());
    }

    /// Adds a value that has no numbers with fractions in it, such as a place or a part.
    pub fn name(&mut self, value: &impl Hash) {
        value.hash(&mut Portable(self));
    }

    /// The first 64 bits of the SHA-256, as sixteen hexadecimal digits.
    pub fn finish(self) -> String {
        short_hex(&self.0.finalize())
    }
}

/// A hasher that adds what it is given to a digest, in the same bytes on every machine.
struct Portable<'a>(&'a mut Digest);

impl Hasher for Portable<'_> {
    fn write(&mut self, bytes: &[u8]) {
        self.0.0.update(bytes);
    }

    fn write_u16(&mut self, value: u16) {
        self.0.whole(value.into());
    }

    fn write_u32(&mut self, value: u32) {
        self.0.whole(value.into());
    }

    fn write_u64(&mut self, value: u64) {
        self.0.whole(value);
    }

    fn write_usize(&mut self, value: usize) {
        self.0.whole(value as u64);
    }

    fn write_isize(&mut self, value: isize) {
        self.0.whole(value as i64 as u64);
    }

    /// Nobody asks for it: the digest is finished by itself.
    fn finish(&self) -> u64 {
        0
    }
}

/// A part of the state that can be hashed.
pub trait Digestible {
    /// Adds every bit of state that later ticks depend on.
    fn digest(&self, digest: &mut Digest);
}

impl Digestible for f64 {
    fn digest(&self, digest: &mut Digest) {
        digest.number(*self);
    }
}

impl Digestible for bool {
    fn digest(&self, digest: &mut Digest) {
        digest.flag(*self);
    }
}

impl Digestible for u8 {
    fn digest(&self, digest: &mut Digest) {
        digest.whole((*self).into());
    }
}

impl Digestible for u32 {
    fn digest(&self, digest: &mut Digest) {
        digest.whole((*self).into());
    }
}

impl Digestible for u64 {
    fn digest(&self, digest: &mut Digest) {
        digest.whole(*self);
    }
}

impl Digestible for String {
    fn digest(&self, digest: &mut Digest) {
        digest.text(self);
    }
}

impl<T: Digestible> Digestible for Option<T> {
    fn digest(&self, digest: &mut Digest) {
        digest.flag(self.is_some());
        if let Some(value) = self {
            value.digest(digest);
        }
    }
}

impl<T: Digestible> Digestible for [T] {
    fn digest(&self, digest: &mut Digest) {
        digest.whole(self.len() as u64);
        for value in self {
            value.digest(digest);
        }
    }
}

impl<T: Digestible, const N: usize> Digestible for [T; N] {
    fn digest(&self, digest: &mut Digest) {
        for value in self {
            value.digest(digest);
        }
    }
}

impl<T: Digestible> Digestible for Vec<T> {
    fn digest(&self, digest: &mut Digest) {
        self.as_slice().digest(digest);
    }
}

impl<T: Digestible + ?Sized> Digestible for Arc<T> {
    fn digest(&self, digest: &mut Digest) {
        self.as_ref().digest(digest);
    }
}

impl<A: Digestible, B: Digestible> Digestible for (A, B) {
    fn digest(&self, digest: &mut Digest) {
        let (a, b) = self;
        a.digest(digest);
        b.digest(digest);
    }
}

/// A running number that stands for everything that was added to it, in order (FNV-1a, 64 bits,
/// MEMORY). It is no proof against somebody who wants two rows to have one number; for what grows
/// long, it spares hashing all of it again and again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rolling(u64);

impl Default for Rolling {
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

impl Rolling {
    /// Adds some bits.
    pub fn add(&mut self, bits: u64) {
        for byte in bits.to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
}

impl Digestible for Rolling {
    fn digest(&self, digest: &mut Digest) {
        let Self(value) = self;
        digest.whole(*value);
    }
}

/// Digests a struct field by field: `digest_fields!(Type { a, b } without { c })`.
///
/// What stands behind `without` is no state of its own: it follows from the rest, or no later tick
/// depends on it.
macro_rules! digest_fields {
    ($type:ty { $($field:ident),+ $(,)? } $(without { $($left:ident),+ $(,)? })?) => {
        impl $crate::digest::Digestible for $type {
            fn digest(&self, digest: &mut $crate::digest::Digest) {
                let Self { $($field,)+ $($($left: _,)+)? } = self;
                $($crate::digest::Digestible::digest($field, digest);)+
            }
        }
    };
}

/// Digests values that are names only, without a number with a fraction: `digest_names!(One, Other)`.
macro_rules! digest_names {
    ($($type:ty),+ $(,)?) => {
        $(impl $crate::digest::Digestible for $type {
            fn digest(&self, digest: &mut $crate::digest::Digest) {
                digest.name(self);
            }
        })+
    };
}

pub(crate) use {digest_fields, digest_names};

/// SHA-256 of some bytes, as sixty-four hexadecimal digits.
pub fn sha256_hex(bytes: &[u8]) -> String {
    let hash = Sha256::digest(bytes);
    hash.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The first 64 bits of a hash, as sixteen hexadecimal digits.
fn short_hex(hash: &[u8]) -> String {
    hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(value: &impl Digestible) -> String {
        let mut digest = Digest::new();
        value.digest(&mut digest);
        digest.finish()
    }

    struct Pair {
        one: f64,
        other: Option<u8>,
        _left: u32,
    }
    digest_fields!(Pair { one, other } without { _left });

    #[test]
    fn every_field_counts_and_what_is_left_out_does_not() {
        let pair = |one, other, _left| of(&Pair { one, other, _left });
        assert_ne!(pair(1.0, None, 0), pair(2.0, None, 0));
        assert_ne!(pair(1.0, None, 0), pair(1.0, Some(0), 0));
        assert_eq!(pair(0.0, None, 0), pair(-0.0, None, 7));
    }

    #[test]
    fn names_have_the_same_bytes_on_every_machine() {
        let mut name = Digest::new();
        name.name(&Some(crate::rig::parts::Leg::Right));
        let mut bytes = Digest::new();
        bytes.whole(1);
        bytes.whole(1);
        assert_eq!(name.finish(), bytes.finish());
    }
}
