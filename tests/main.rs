//! Every check of the project, in one program.

mod cli;
mod reference;
mod scenario;
mod sessions;
