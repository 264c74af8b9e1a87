//! The blower: a series motor and a two-stage fan.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct BlowerParameters {}
