//! The steady state of the rig, in which motor, fan and flow path balance.

use super::blower::{Blower, BlowerParameters};
use super::calibrator::CalibratorPassage;
use super::flow_path::{Inlet, Machine, Rotor, solve};
use super::flow_solution::FlowSolution;
use super::warmth::{Warmth, WindingHeat};
use crate::air::{Ambient, within};
use crate::rig::RigParameters;
use crate::rig::power::flow_controller::{FlowController, FlowControllerParameters};

/// The conditions in which the blower works.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperatingConditions {
    /// The ambient air.
    pub ambient: Ambient,
    /// What is fitted at the inlet.
    pub inlet: Inlet,
    /// Voltage at the motor, V.
    pub volts: f64,
    /// How warm the blower is; [`Warmth::warm`] for the true steady state.
    pub warmth: Warmth,
    /// What eddies add to the flow that the controller's probe senses, as a fraction of it.
    pub probe: f64,
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
    /// Electrical power, W.
    pub electrical_w: f64,
}

impl OperatingPoint {
    /// How warm the blower is after a long run at this point: its windings give what is turned into
    /// heat in them, also at once after a change of the load.
    pub fn warmth(&self, blower: &BlowerParameters) -> Warmth {
        let made_w = self.electrical_w - self.flow.torque_n_m * self.flow.speed_rad_s;
        Warmth { heat: WindingHeat::Given(made_w), ..Warmth::warm(&blower.motor) }
    }

    /// Speed of the rotor, revolutions per minute.
    pub fn speed_rpm(&self) -> f64 {
        self.flow.speed_rad_s * 60.0 / crate::math::TAU
    }
}

/// A flow near the solution: it only shortens the search.
#[derive(Debug, Clone, Copy)]
pub struct FlowGuess<'a> {
    /// The flow.
    pub flow: &'a FlowSolution,
}

/// Nominal mains voltage, V.
const NOMINAL_V: f64 = 120.0;
/// Relative change of speed at which the search ends.
const TOLERANCE: f64 = 1e-13;
/// The greatest number of steps of a search.
const MOST_STEPS: u32 = 100;

/// The steady state: the speed at which the motor's torque equals that of air and friction.
///
/// Newton's method within a shrinking bracket; the net torque falls as the speed rises.
pub fn steady(machine: Machine<'_>, conditions: &OperatingConditions) -> OperatingPoint {
    let reference = machine.blower.fan.reference_speed_rad_s;
    let volts = within(conditions.volts, 0.0, 1000.0);
    let start = if volts > 0.0 { reference.min(reference * volts / NOMINAL_V) } else { 0.0 };
    steady_from(machine, conditions, start)
}

/// The same steady state, with the search started from a flow near it.
pub fn steady_near(
    machine: Machine<'_>,
    conditions: &OperatingConditions,
    near: FlowGuess<'_>,
) -> OperatingPoint {
    if conditions.volts > 0.0 && near.flow.speed_rad_s > 0.0 {
        steady_from(machine, conditions, near.flow.speed_rad_s)
    } else {
        steady(machine, conditions)
    }
}

/// The steady state, with the search started from a speed, rad/s.
fn steady_from(
    machine: Machine<'_>,
    conditions: &OperatingConditions,
    start: f64,
) -> OperatingPoint {
    let blower = machine.blower;
    let reference = blower.fan.reference_speed_rad_s;
    let volts = within(conditions.volts, 0.0, 1000.0);
    let (mut low, mut high) = (0.0, 2.5 * reference);
    let mut rotor = Blower::at_rest(conditions.ambient.temperature_k);
    rotor.warmth = conditions.warmth;
    rotor.speed_rad_s = start;
    let solved = |speed: f64, near: Option<&FlowSolution>| {
        let rotor = Rotor { speed_rad_s: speed, warmth: &conditions.warmth };
        solve(machine, &conditions.ambient, &conditions.inlet, rotor, near)
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
    rotor.current_a = blower.motor.current_a(volts, rotor.speed_rad_s, resistance);
    let electrical_w = rotor.electrical_w(blower);
    OperatingPoint { flow, volts, current_a: rotor.current_a, electrical_w }
}

/// The steady state of a proper calibration: warm, on nominal mains, without leaks and without a
/// filter, with the calibrator or nothing at the inlet.
pub fn calibrating(
    parameters: &RigParameters,
    ambient: Ambient,
    calibrator: Option<CalibratorPassage>,
) -> FlowSolution {
    let machine = Machine { blower: &parameters.blower, path: &parameters.flow_path };
    let inlet = Inlet { calibrator, ..Inlet::default() };
    let warmth = Warmth::warm(&parameters.blower.motor);
    let conditions = OperatingConditions { ambient, inlet, volts: NOMINAL_V, warmth, probe: 0.0 };
    steady(machine, &conditions).flow
}

/// The steady state with the flow controller driving the motor: the voltage at which the sensed
/// flow is the set point, between 0 and `conditions.volts`, which is the mains voltage minus the
/// loss of the power stage; the full voltage if even that is too low.
pub fn steady_controlled(
    machine: Machine<'_>,
    conditions: &OperatingConditions,
    parameters: &FlowControllerParameters,
    controller: &FlowController,
) -> OperatingPoint {
    let set_point = controller.set_point_std_m3_min(parameters);
    let excess = |volts: f64| {
        let point = steady(machine, &OperatingConditions { volts, ..*conditions });
        let felt = point.flow.mass_flow_kg_s * (1.0 + conditions.probe);
        let sensed = parameters.sensed_std_m3_min(felt);
        (sensed - set_point, point)
    };
    let (mut high, mut low) = (within(conditions.volts - parameters.lost_v, 0.0, 1000.0), 0.0);
    let (mut above, mut found) = excess(high);
    if above <= 0.0 {
        return found;
    }
    let mut below = -set_point;
    // The Illinois method: false position that halves the weight of a stale end.
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

/// The steady state of [`steady_controlled`], found from the speed at which the sensed flow is the
/// set point, and the voltage that turns the rotor at that speed: T = k I^2 gives I, and V = I
/// sqrt((R + k w)^2 + X^2). If that is more than `conditions.volts`, the steady state at
/// `conditions.volts`. It is needed for every minute of a run, so it is made fast; it agrees with
/// the other within 1e-9.
pub fn steady_held(
    machine: Machine<'_>,
    conditions: &OperatingConditions,
    parameters: &FlowControllerParameters,
    controller: &FlowController,
    near: FlowGuess<'_>,
) -> OperatingPoint {
    let volts = within(conditions.volts - parameters.lost_v, 0.0, 1000.0);
    let conditions = &OperatingConditions { volts, ..*conditions };
    let blower = machine.blower;
    let set_point = controller.set_point_std_m3_min(parameters);
    let fastest = 2.4 * blower.fan.reference_speed_rad_s;
    let start = if near.flow.speed_rad_s > 0.0 {
        near.flow.speed_rad_s
    } else {
        0.9 * blower.fan.reference_speed_rad_s
    };
    let solved = |speed: f64, near: Option<&FlowSolution>| {
        let rotor = Rotor { speed_rad_s: speed, warmth: &conditions.warmth };
        solve(machine, &conditions.ambient, &conditions.inlet, rotor, near)
    };
    let felt = 1.0 + conditions.probe;
    let excess =
        |flow: &FlowSolution| parameters.sensed_std_m3_min(flow.mass_flow_kg_s * felt) - set_point;
    let mut speed = start;
    let mut flow = solved(speed, Some(near.flow));
    let mut above = excess(&flow);
    // The flow is nearly proportional to the speed; the next steps are secants.
    let mut next = speed * set_point / (set_point + above).max(1e-6);
    for _ in 0..MOST_STEPS {
        if above.abs() < 1e-12 * set_point || !(next > 0.0 && next < fastest) {
            break;
        }
        let (speed_before, above_before) = (speed, above);
        speed = next;
        flow = solved(speed, Some(&flow));
        above = excess(&flow);
        let rise = (above - above_before) / (speed - speed_before);
        if !rise.is_finite() || rise <= 0.0 {
            break;
        }
        next = speed - above / rise;
        if (next - speed).abs() <= TOLERANCE * speed {
            break;
        }
    }
    let mut rotor = Blower::at_rest(conditions.ambient.temperature_k);
    rotor.warmth = conditions.warmth;
    rotor.speed_rad_s = speed;
    let motor = &blower.motor;
    let resistance = motor.resistance_ohm(conditions.warmth.winding_k);
    // Without voltage, the net torque is the whole load.
    let (net, _) = rotor.net_torque(blower, 0.0, &flow);
    let current_a = (-net / motor.torque_n_m_a2).max(0.0).sqrt();
    let volts = current_a / motor.current_a(1.0, speed, resistance);
    if above.abs() > 1e-9 || volts.is_nan() || volts > conditions.volts {
        return steady_near(machine, conditions, near);
    }
    rotor.current_a = current_a;
    let electrical_w = rotor.electrical_w(blower);
    OperatingPoint { flow, volts, current_a, electrical_w }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::AirState;

    #[test]
    fn the_quick_search_finds_what_the_slow_one_finds() {
        let rig = RigParameters::default();
        let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
        let air = AirState { pressure_pa: 99_000.0, temperature_k: 283.15, humidity: 0.6 };
        let ambient = Ambient::from(air);
        let mut near = FlowSolution::still(&ambient);
        // With the last ones the mains voltage cannot hold the flow.
        for resistance in [9_000.0, 10_400.0, 13_000.0, 16_000.0, 19_000.0, 30_000.0] {
            for volts in [112.0, 120.0] {
                let inlet = Inlet {
                    filter_pa_s_m3: Some(resistance / rig.filter.exposed_area_m2),
                    ..Inlet::default()
                };
                let warmth = Warmth::warm(&rig.blower.motor);
                let probe = 0.002;
                let conditions = OperatingConditions { ambient, inlet, volts, warmth, probe };
                let turns = FlowController::turns_for(&rig.flow_controller, 1.2);
                let controller = FlowController::new(turns);
                let slow =
                    steady_controlled(machine, &conditions, &rig.flow_controller, &controller);
                let quick = steady_held(
                    machine,
                    &conditions,
                    &rig.flow_controller,
                    &controller,
                    FlowGuess { flow: &near },
                );
                let (one, other) = (slow.flow.flow_std_m3_min(), quick.flow.flow_std_m3_min());
                assert!((one / other - 1.0).abs() < 1e-9, "{resistance} {volts}: {one} {other}");
                assert!((slow.volts - quick.volts).abs() < 1e-5, "{resistance} {volts}");
                near = quick.flow;
            }
        }
    }
}
