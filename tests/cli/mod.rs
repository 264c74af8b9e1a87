//! The command line as a user meets it.

mod check;
mod sums;
mod trial;
