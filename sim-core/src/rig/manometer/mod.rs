//! The water manometer, its valves and its tubing; and the electronic manometer that may take its
//! place.

mod blow_response;
mod cold;
mod complex;
pub mod electronic;
mod filling;
#[cfg(test)]
mod filling_tests;
mod handling;
mod load;
pub mod meniscus;
mod parameters;
pub mod trapped_air;
pub mod tube;
mod u_tube;
pub mod valve;
pub mod water_column;
pub mod womersley;

pub use blow_response::BlowResponse;
pub use cold::{ColdColumn, ColdExposure, FREEZES_K_MIN, IceLook};
pub use filling::Filling;
pub use parameters::{ManometerParameters, ScaleSlide};
pub use u_tube::{Manometer, ManometerInputs, SeenMeniscus};
