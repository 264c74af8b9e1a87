//! Drills: questions over many draws, slips that are recognised, and journals that replay.

mod asked_again;
mod drawn;
mod journal;
mod slips;
