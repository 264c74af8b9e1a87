//! A moment of a session, and what it is about.

use super::altered::Alteration;
use crate::time::Tick;

/// A moment of a session, what it is about, and what to change.
#[derive(Debug)]
pub(super) struct Told {
    /// When.
    pub tick: Tick,
    /// The rule, the fault or the part of the marks that it is about.
    pub about: String,
    /// What happened.
    pub what: String,
    /// What the operator saw, if that is not simply its last thought.
    pub saw: Option<String>,
    /// What to change.
    pub change: Alteration,
}
