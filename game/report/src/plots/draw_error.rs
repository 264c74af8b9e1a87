//! Why a plot could not be drawn.

/// Why a plot could not be drawn: whatever its backend says.
pub type DrawError = Box<dyn std::error::Error>;
