//! The program, as a library for its tests.
