//! The tests.
