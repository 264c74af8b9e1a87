//! What the declaration of a fault holds.

use super::sheet::Sheet;
use super::size::Size;
use crate::rig::Rig;
use crate::rig::station::Station;

/// A fault: what is known about it, and what it does. One type for each, with the fields of the fault,
/// in the file of its family.
pub(super) trait Declared: Sized {
    /// The fault in its usual size.
    const USUAL: Self;

    /// What is known about it, whatever its size.
    const SHEET: Sheet;

    /// The size that the trainer sets and the range in which it must lie; none for a fault that is
    /// there or not. All ranges are CHOSEN: from what can just be noticed to what ends the work.
    fn size(&self) -> Option<Size> {
        None
    }

    /// Which valve or nut it is at, where there are several.
    fn at(&self) -> Option<String> {
        None
    }

    /// What it does to rig, weather and mains when it begins.
    fn begin(&self, site: &mut Site<'_>);

    /// How it is taken away again. Asked only of a fault that comes and goes.
    fn end(&self, _site: &mut Site<'_>) {}
}

/// What a fault can act on.
#[derive(Debug)]
pub(crate) struct Site<'a> {
    /// The rig.
    pub rig: &'a mut Rig,
    /// Weather and mains.
    pub station: &'a mut Station,
    /// The session's seed, for what wanders.
    pub seed: u64,
}
