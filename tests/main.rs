//! Every check of the project, in one program.
#![allow(clippy::unwrap_used)]

mod advised;
mod bench;
mod cli;
mod documents;
mod drills;
mod faults;
mod generated;
mod lessons;
mod qualification;
mod reference;
mod report;
mod scenario;
mod sessions;
mod structure;
