//! The rig: one file for each instrument, the flow path that joins them, and their assembly.

pub mod assembly;
pub mod barometer;
pub mod blower;
pub mod calibrator;
pub mod chart;
mod coarse_step;
mod complex;
mod dual;
pub mod fan;
pub mod filter;
pub mod flow_controller;
pub mod flow_path;
pub mod manometer;
mod manometer_handling;
mod manometer_load;
mod manometer_parameters;
pub mod meniscus;
pub mod motor;
pub mod mounting;
pub mod operating_point;
pub mod orifice;
pub mod parts;
pub mod power;
pub mod recorder;
pub mod run_weather;
pub mod sample;
pub mod station;
pub mod thermometer;
pub mod timer;
pub mod trapped_air;
pub mod tube;
pub mod valve;
pub mod water_column;
pub mod womersley;

pub use assembly::Rig;

use blower::BlowerParameters;
use calibrator::CalibratorParameters;
use filter::FilterParameters;
use flow_controller::FlowControllerParameters;
use flow_path::FlowPathParameters;
use manometer::ManometerParameters;
use mounting::MountingParameters;
use recorder::RecorderParameters;

/// Every instrument's parameters. The defaults are the bench's own design.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RigParameters {
    /// Serial number on the calibrator's plate.
    pub calibrator_serial: String,
    /// Height of the station, m: what a barometer set to sea level allows for.
    pub elevation_m: f64,
    /// Excess of a thermometer in the sun, K.
    pub sun_k: f64,
    /// Tilt at which the manometer comes to hang on its hook, degrees.
    pub hook_tilt_deg: f64,
    /// The blower.
    pub blower: BlowerParameters,
    /// The calibrator.
    pub calibrator: CalibratorParameters,
    /// The filter.
    pub filter: FilterParameters,
    /// The flow controller.
    pub flow_controller: FlowControllerParameters,
    /// Set point at which the controller's screw is found, m3/min at standard conditions.
    pub found_set_point_std_m3_min: f64,
    /// Inlet cone and exit orifice.
    pub flow_path: FlowPathParameters,
    /// The manometer.
    pub manometer: ManometerParameters,
    /// Nuts, gaskets and plates.
    pub mounting: MountingParameters,
    /// The recorder.
    pub recorder: RecorderParameters,
}
