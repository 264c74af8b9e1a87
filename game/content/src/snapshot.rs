//! One moment of a session as rows of values.

/// The name of a value, and the value in words.
pub type NamedValue = (&'static str, String);
