//! The variable orifice calibrator.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct CalibratorParameters {}
