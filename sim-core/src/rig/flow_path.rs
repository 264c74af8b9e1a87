//! The flow path from the inlet to the exit orifice.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct FlowPathParameters {}
