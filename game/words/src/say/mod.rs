//! From what can be seen to sentences, at the resolution of a sharp eye and never finer.

mod action;
mod air;
mod calibrator;
mod display;
mod history;
mod look;
mod manometer;
mod mounting;
mod moves;
mod notice;
mod papers;
pub(super) mod power;
mod recorder;
mod run;
mod scale;
mod station;
#[cfg(test)]
mod tests;

pub use action::{say_action, say_field, sight_name};
pub use history::{chart_told, history_page};
pub use look::{listen, look, paper, refused};
pub use moves::say_actions;
pub use notice::notice;
