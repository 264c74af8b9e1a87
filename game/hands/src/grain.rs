//! How large a step a turn or a slide makes.

/// How large a step a turn or a slide makes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// The usual step.
    Coarse,
    /// A small step, with the Shift key held.
    Fine,
}
