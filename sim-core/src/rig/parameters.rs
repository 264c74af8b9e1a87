//! The parameters of the instruments of a rig.

use crate::digest::digest_fields;
use crate::rig::flow::blower::BlowerParameters;
use crate::rig::flow::calibrator::CalibratorParameters;
use crate::rig::flow::filter::FilterParameters;
use crate::rig::flow::flow_path::FlowPathParameters;
use crate::rig::flow::mounting::MountingParameters;
use crate::rig::manometer::ManometerParameters;
use crate::rig::manometer::electronic::{ElectronicParameters, ManometerKind};
use crate::rig::power::flow_controller::FlowControllerParameters;
use crate::rig::recorder::RecorderParameters;

/// Every instrument's parameters. The defaults are the bench's own design.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RigParameters {
    /// Serial number on the calibrator's plate.
    pub calibrator_serial: String,
    /// Elevation of the station, m: a barometer set to sea level allows for it.
    pub elevation_m: f64,
    /// By how much a thermometer in the sun reads too high, K.
    pub sun_k: f64,
    /// Tilt at which the manometer hangs on its hook, degrees.
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
    /// Inlet cone and exhaust orifice.
    pub flow_path: FlowPathParameters,
    /// The manometer.
    pub manometer: ManometerParameters,
    /// The kind of manometer.
    pub manometer_kind: ManometerKind,
    /// The electronic manometer, where it takes the place of the other one.
    pub electronic: ElectronicParameters,
    /// Nuts, gaskets and plates.
    pub mounting: MountingParameters,
    /// The recorder.
    pub recorder: RecorderParameters,
}

digest_fields!(RigParameters {
    calibrator_serial,
    elevation_m,
    sun_k,
    hook_tilt_deg,
    blower,
    calibrator,
    filter,
    flow_controller,
    found_set_point_std_m3_min,
    flow_path,
    manometer,
    manometer_kind,
    electronic,
    mounting,
    recorder
});
