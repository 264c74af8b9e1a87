//! The U-tube water manometer.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct ManometerParameters {}
