//! Every check of the project, in one program.
#![allow(clippy::unwrap_used)]

mod bench;
mod cli;
mod reference;
mod scenario;
mod sessions;
