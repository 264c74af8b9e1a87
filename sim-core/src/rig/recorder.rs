//! The flow recorder.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct RecorderParameters {}
