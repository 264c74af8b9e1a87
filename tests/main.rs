//! Every check of the project, in one program.
#![allow(clippy::unwrap_used)]

mod cli;
mod documents;
