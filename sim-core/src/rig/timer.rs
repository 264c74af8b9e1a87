//! The timer.
