//! The simulated bench.
