//! The command line as a user meets it.

mod by_words;
mod check;
mod desk;
mod drill;
mod drive;
mod json;
mod judging;
mod output;
mod people;
mod plans;
mod printed;
mod progress;
mod rehearse;
mod replay;
mod sums;
mod trial;
mod whole;
