//! The rig: one file for each instrument, grouped in modules, and their assembly.
//!
//! | module | what it contains |
//! |---|---|
//! | [`flow`] | the path of the air: calibrator, filter, mounting, orifices, fan, motor, blower, flow |
//! | [`manometer`] | the U-tube with its water, valves, menisci and tubing |
//! | [`recorder`] | the flow recorder and its chart |
//! | [`power`] | cords and switches, timer, flow controller |
//! | [`station`] | weather and mains, barometer, thermometer |
//!
//! [`assembly`] joins them to the [`Rig`]; [`parts`] names the parts that hands can move.

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
