//! The filter and its loading.

/// Parameters.
#[derive(Debug, Clone, Default)]
pub struct FilterParameters {}
