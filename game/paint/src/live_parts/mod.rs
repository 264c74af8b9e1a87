//! What the program draws into the scene from the view, in scene units: water, trace, column, tube,
//! cords, air, and the rotor that turns.

mod air;
mod cords_and_tube;
mod display;
mod fluids_and_trace;
mod plate;
mod positions;
mod upkeep;

pub use air::{air, rotor};
pub use cords_and_tube::{blower_cord, sampler_cord, tube};
pub use display::display;
pub use fluids_and_trace::{column, trace, water};
pub use plate::plate;
pub use positions::{
    blower_plug, calibrator_at, manometer_at, manometer_piece, moved, sampler_plug,
};
pub use upkeep::{
    cut_in_the_cord, in_the_exhaust, in_the_inlet, recorder_line, reset_button, stopper,
};
