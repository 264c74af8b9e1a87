//! The thermal flow controller.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct FlowControllerParameters {}
