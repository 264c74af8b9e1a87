//! The rig: one file for each instrument, in rooms, and what joins them.
//!
//! | room | what stands in it |
//! |---|---|
//! | [`flow`] | the way of the air: calibrator, filter, mounting, orifices, fan, motor, blower, flow |
//! | [`manometer`] | the U-tube with its water, valves, menisci and tube |
//! | [`recorder`] | the flow recorder and its chart |
//! | [`power`] | cords and switches, timer, flow controller |
//! | [`station`] | weather and mains, barometer, thermometer |
//!
//! [`assembly`] joins them to the [`Rig`]; [`parts`] names what hands can take hold of.

pub mod assembly;
pub mod flow;
pub mod manometer;
mod parameters;
pub mod parts;
pub mod power;
pub mod recorder;
pub mod station;

pub use assembly::Rig;
pub use parameters::RigParameters;
