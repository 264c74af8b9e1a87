//! What you can do to each thing on the roof in its present state. Nothing here knows a window.
//!
//! [`offers`] lists what can be done to a thing now, the likeliest first, in the words of the
//! trade; [`turn`] is what a wheel, a drag or an arrow key does to it. Pointer, keyboard and screen
//! reader all use these two.

mod air;
mod away;
mod carried;
mod flow;
mod grain;
mod manometer;
mod mounting;
mod offer;
mod offers;
mod power;
mod recorder;
mod run;
mod run_state;
mod sight;
mod spot;
mod state;
mod steps;
#[cfg(test)]
mod tests;
mod turning;

pub use away::{day, day_and_time, is_away};
pub use carried::{allowed, part_name, part_of, spot_of_place};
pub use grain::Grain;
pub use offer::Offer;
pub use offers::offers;
pub use sight::sight_of;
pub use spot::Spot;
pub use state::{seen_from_afar, state_of};
pub use steps::{How, Step, in_hands, spot_of, step_by_hand};
pub use turning::turn;
