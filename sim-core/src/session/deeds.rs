//! What was done in a session, as one hash: no action can be removed, added or changed without
//! changing every checksum after it, not even one that leaves the bench as it was.

use sha2::{Digest as _, Sha256};

use crate::digest::{Digest, Digestible};

/// A hash of every action so far, with its tick.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Deeds([u8; 32]);

impl Deeds {
    /// Adds an action, as its line stands in the journal.
    pub fn add(&mut self, line: &str) {
        let mut hash = Sha256::new();
        hash.update(self.0);
        hash.update(line.as_bytes());
        self.0 = hash.finalize().into();
    }
}

impl Digestible for Deeds {
    fn digest(&self, digest: &mut Digest) {
        let Self(hash) = self;
        digest.bytes(hash);
    }
}
