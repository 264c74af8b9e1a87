//! The steady state of the rig: where motor, fan and flow path come to rest together.

use super::RigParameters;
use super::blower::{Blower, Warmth};
use super::calibrator::CalibratorPassage;
use super::flow_controller::{FlowController, FlowControllerParameters};
use super::flow_path::{FlowSolution, Inlet, Machine, solve};
use crate::air::{Ambient, within};

/// What the blower works in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// The air around.
    pub ambient: Ambient,
    /// What stands at the inlet.
    pub inlet: Inlet,
    /// Voltage at the motor, V.
    pub volts: f64,
    /// How warm the blower is; [`Warmth::warm`] for the true steady state.
    pub warmth: Warmth,
}

/// A steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperatingPoint {
    /// Flow and pressures, with the rotor's speed.
    pub flow: FlowSolution,
    /// Voltage at the motor, V.
    pub volts: f64,
    /// Current, A.
    pub current_a: f64,
}

impl OperatingPoint {
    /// Speed of the rotor, revolutions a minute.
    pub fn speed_rpm(&self) -> f64 {
        self.flow.speed_rad_s * 60.0 / crate::math::TAU
    }
}

/// Nominal line voltage, V.
const NOMINAL_V: f64 = 120.0;
/// Relative change of speed at which the search ends.
const TOLERANCE: f64 = 1e-13;
/// Most steps of a search.
const MOST_STEPS: u32 = 100;

/// The steady state: the speed at which the motor's torque is that of air and friction.
///
/// Newton's steps kept within a bracket that shrinks; the torque's excess falls as speed rises.
pub fn steady(machine: Machine<'_>, conditions: &Conditions) -> OperatingPoint {
    let blower = machine.blower;
    let reference = blower.fan.reference_speed_rad_s;
    let volts = within(conditions.volts, 0.0, 1000.0);
    let (mut low, mut high) = (0.0, 2.5 * reference);
    let mut rotor = Blower::at_rest(conditions.ambient.temperature_k);
    rotor.warmth = conditions.warmth;
    rotor.speed_rad_s =
        if volts > 0.0 { reference.min(reference * volts / NOMINAL_V) } else { 0.0 };
    let solved = |speed: f64, near: Option<&FlowSolution>| {
        solve(machine, &conditions.ambient, &conditions.inlet, speed, near)
    };
    let mut flow = solved(rotor.speed_rad_s, None);
    for _ in 0..MOST_STEPS {
        if volts <= 0.0 {
            break;
        }
        let speed = rotor.speed_rad_s;
        let (net, slope) = rotor.net_torque(blower, volts, &flow);
        if net > 0.0 {
            low = speed;
        } else {
            high = speed;
        }
        let newton = speed - net / slope;
        if (newton - speed).abs() <= TOLERANCE * speed {
            break;
        }
        let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        rotor.speed_rad_s = next;
        flow = solved(next, Some(&flow));
    }
    let resistance = blower.motor.resistance_ohm(conditions.warmth.winding_k);
    let current_a = blower.motor.current_a(volts, rotor.speed_rad_s, resistance);
    OperatingPoint { flow, volts, current_a }
}

/// What flows while a rig is calibrated as it should be: warm, on the nominal line, nothing leaking,
/// no filter, and at the inlet the calibrator or nothing.
pub fn calibrating(
    parameters: &RigParameters,
    ambient: Ambient,
    calibrator: Option<CalibratorPassage>,
) -> FlowSolution {
    let machine = Machine { blower: &parameters.blower, path: &parameters.flow_path };
    let inlet = Inlet { calibrator, filter_pa_s_m3: None, leak_cda_m2: 0.0 };
    let warmth = Warmth::warm(&parameters.blower);
    steady(machine, &Conditions { ambient, inlet, volts: NOMINAL_V, warmth }).flow
}

/// The steady state with the flow controller driving the motor: the voltage between 0 and
/// `conditions.volts`, that of the line, at which the sensed flow is the set point; the line's
/// whole voltage where even that is too little.
pub fn steady_controlled(
    machine: Machine<'_>,
    conditions: &Conditions,
    parameters: &FlowControllerParameters,
    controller: &FlowController,
) -> OperatingPoint {
    let set_point = controller.set_point_std_m3_min(parameters);
    let excess = |volts: f64| {
        let point = steady(machine, &Conditions { volts, ..*conditions });
        let sensed = parameters.sensed_std_m3_min(point.flow.mass_flow_kg_s);
        (sensed - set_point, point)
    };
    let (mut high, mut low) = (within(conditions.volts, 0.0, 1000.0), 0.0);
    let (mut above, mut found) = excess(high);
    if above <= 0.0 {
        return found;
    }
    let mut below = -set_point;
    // The rule of Illinois: false position that halves a stale end.
    for _ in 0..MOST_STEPS {
        let volts = high - above * (high - low) / (above - below);
        let (error, point) = excess(volts);
        found = point;
        if error.abs() < 1e-11 || high - low < 1e-10 {
            break;
        }
        if error > 0.0 {
            (high, above, below) = (volts, error, 0.5 * below);
        } else {
            (low, below, above) = (volts, error, 0.5 * above);
        }
    }
    found
}
