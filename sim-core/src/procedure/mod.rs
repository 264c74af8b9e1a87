//! The rules of the work, one file for each phase.
