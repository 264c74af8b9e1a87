//! How finely the hand works.

/// How finely the hand works.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// As the hand goes.
    Coarse,
    /// With care, the Shift key held.
    Fine,
}
