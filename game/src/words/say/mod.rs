//! From what can be seen to sentences, at the resolution of a sharp eye and never finer.

mod action;
mod air;
mod calibrator;
mod look;
mod manometer;
mod mounting;
mod notice;
mod papers;
pub(super) mod power;
mod recorder;
mod run;
mod scale;
mod station;
#[cfg(test)]
mod tests;

pub use action::say_action;
pub use look::{listen, look, paper, refused};
pub use notice::notice;
pub use run::weekday;
