//! The rig: one file for each instrument, and the flow path that joins them.

pub mod barometer;
pub mod blower;
pub mod calibrator;
pub mod chart;
mod complex;
pub mod filter;
pub mod flow_controller;
pub mod flow_path;
pub mod manometer;
mod manometer_handling;
mod manometer_load;
mod manometer_parameters;
pub mod meniscus;
pub mod mounting;
pub mod parts;
pub mod power;
pub mod recorder;
pub mod station;
pub mod thermometer;
pub mod timer;
pub mod trapped_air;
pub mod tube;
pub mod valve;
pub mod water_column;
pub mod womersley;

use blower::BlowerParameters;
use calibrator::CalibratorParameters;
use filter::FilterParameters;
use flow_controller::FlowControllerParameters;
use flow_path::FlowPathParameters;
use manometer::ManometerParameters;
use recorder::RecorderParameters;

/// Every instrument's parameters. The defaults are the bench's own design.
#[derive(Debug, Clone, Default)]
pub struct RigParameters {
    /// Serial number on the calibrator's plate.
    pub calibrator_serial: String,
    /// The blower.
    pub blower: BlowerParameters,
    /// The calibrator.
    pub calibrator: CalibratorParameters,
    /// The filter.
    pub filter: FilterParameters,
    /// The flow controller.
    pub flow_controller: FlowControllerParameters,
    /// Inlet cone and exit orifice.
    pub flow_path: FlowPathParameters,
    /// The manometer.
    pub manometer: ManometerParameters,
    /// The recorder.
    pub recorder: RecorderParameters,
}
