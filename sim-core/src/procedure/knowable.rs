//! Whether a fault could be known when something was said about it.

use super::evidence::{At, Evidence};
use super::inspection::looked_before;
use crate::fault::Fault;
use crate::session::signs::{FirstSign, Witness};

/// Whether a fault had shown to the trainee before a moment: something that was looked at, heard or
/// handled before it could be told from a sound rig.
///
/// Whoever names a fault before that has guessed, even if the guess is right: nobody can act on it, and
/// the next guess may take a sound instrument out of service.
pub(crate) fn shown_before(evidence: &Evidence<'_>, fault: &Fault, at: At<'_>) -> bool {
    match evidence.signs.first(fault, Witness::Trainee) {
        Some(sign) => sign.is_some_and(|sign| sign.before <= at.index),
        None => looked_before(evidence, fault.place(), at),
    }
}

/// When a fault could first be told by anybody on the roof; nothing if it never could, or if that is
/// not known.
pub(crate) fn first_shown(evidence: &Evidence<'_>, fault: &Fault) -> Option<FirstSign> {
    evidence.signs.first(fault, Witness::Anybody).flatten()
}

/// Whether a fault could not be told from a sound rig by anybody, at any time.
pub(crate) fn never_showed(evidence: &Evidence<'_>, fault: &Fault) -> bool {
    matches!(evidence.signs.first(fault, Witness::Anybody), Some(None))
}
