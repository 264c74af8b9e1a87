//! The thermal flow controller: a heated probe in the throat, and a regulator of the motor's
//! voltage.
//!
//! The probe senses mass flow, so the controller holds the flow at standard conditions constant.

use crate::air::{STANDARD_DRY_DENSITY_KG_M3, within};
use crate::digest::digest_fields;
use crate::math;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowControllerParameters {
    /// Heat loss of the probe in still air, A, W/K (CHOSEN).
    pub probe_still_w_k: f64,
    /// Added heat loss with flow, B, W/K for 1 kg/(s m2) (CHOSEN).
    pub probe_flow_w_k: f64,
    /// Exponent of the flow, n (CHOSEN; King's own is 0.5).
    pub probe_exponent: f64,
    /// How much hotter than the air the probe is kept, K (CHOSEN).
    pub overheat_k: f64,
    /// Diameter of the throat in which it sits, m (CHOSEN: 3 inches).
    pub throat_m: f64,
    /// By how much its ambient sensor reads the air temperature too high, K; a fault sets it. It
    /// makes the probe too hot, and the flow seem too large.
    pub ambient_sensor_error_k: f64,
    /// By how much that error grows each hour, K; a fault sets it.
    pub sensor_drift_k_h: f64,
    /// By how much the highest voltage of its power stage stays below the mains, V; a fault sets
    /// it.
    pub lost_v: f64,
    /// Fraction by which dirt on the probe reduces B, 0 to 0.9; a fault sets it.
    pub fouling: f64,
    /// Time constant of the sensor, s (CHOSEN).
    pub sensor_tau_s: f64,
    /// Proportional gain, V for 1 m3/min at standard conditions (CHOSEN).
    pub gain_v_min_m3: f64,
    /// Integral time, s (CHOSEN).
    pub integral_s: f64,
    /// Set point with the trim screw fully out, m3/min at standard conditions (CHOSEN).
    pub lowest_std_m3_min: f64,
    /// Set point with it fully in, m3/min at standard conditions (CHOSEN).
    pub highest_std_m3_min: f64,
    /// Turns of the screw from end to end (CHOSEN).
    pub trim_turns: f64,
}

digest_fields!(FlowControllerParameters {
    probe_still_w_k,
    probe_flow_w_k,
    probe_exponent,
    overheat_k,
    throat_m,
    ambient_sensor_error_k,
    sensor_drift_k_h,
    lost_v,
    fouling,
    sensor_tau_s,
    gain_v_min_m3,
    integral_s,
    lowest_std_m3_min,
    highest_std_m3_min,
    trim_turns
});

impl Default for FlowControllerParameters {
    fn default() -> Self {
        Self {
            probe_still_w_k: 1.2e-3,
            probe_flow_w_k: 1.6e-3,
            probe_exponent: 0.45,
            overheat_k: 50.0,
            throat_m: 0.0762,
            ambient_sensor_error_k: 0.0,
            sensor_drift_k_h: 0.0,
            lost_v: 0.0,
            fouling: 0.0,
            sensor_tau_s: 0.5,
            gain_v_min_m3: 100.0,
            integral_s: 3.0,
            lowest_std_m3_min: 0.8,
            highest_std_m3_min: 1.8,
            trim_turns: 20.0,
        }
    }
}

/// Error at which the loop counts as settled, as a fraction of the set point: less than what eddies
/// at the probe do in a minute.
const AT_REST: f64 = 0.002;

impl FlowControllerParameters {
    /// The flow that the probe indicates for a mass flow, m3/min of dry air at standard conditions.
    ///
    /// King's law W = (A + B G^n)(Tw - Tg), with W the heat loss in W, G the mass flow per area of
    /// the throat in kg/(s m2), Tw and Tg the temperatures of probe and air (form READ in
    /// abstracts, numbers CHOSEN). The probe is kept hotter than the reading of the ambient sensor
    /// by the overheat, so with an error e of the sensor
    /// G' = (((A + B (1 - fouling) G^n)(1 + e/overheat) - A) / B)^(1/n), zero if negative.
    pub fn sensed_std_m3_min(&self, mass_flow_kg_s: f64) -> f64 {
        let mass_flow = within(mass_flow_kg_s, 0.0, 10.0);
        let to_std = 60.0 / STANDARD_DRY_DENSITY_KG_M3;
        if self.ambient_sensor_error_k == 0.0 && self.fouling == 0.0 {
            // King's law and its inverse cancel.
            return mass_flow * to_std;
        }
        let area = 0.25 * math::PI * self.throat_m * self.throat_m;
        let exponent = self.probe_exponent;
        let carried = self.probe_flow_w_k
            * (1.0 - within(self.fouling, 0.0, 0.9))
            * math::pow(mass_flow / area, exponent);
        let hotter = 1.0 + within(self.ambient_sensor_error_k / self.overheat_k, -0.9, 10.0);
        let seeming = ((self.probe_still_w_k + carried) * hotter - self.probe_still_w_k)
            / self.probe_flow_w_k;
        within(area * math::pow(seeming.max(0.0), 1.0 / exponent) * to_std, 0.0, 1000.0)
    }
}

/// The controller's state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowController {
    /// Turns of the trim screw, clockwise from its lower end.
    pub turns: f64,
    /// The flow as sensed, m3/min at standard conditions.
    pub sensed_std_m3_min: f64,
    /// The integral part of the voltage, V.
    pub integral_v: f64,
    /// The flow at the probe in the last step, m3/min at standard conditions.
    passed_std_m3_min: f64,
}

digest_fields!(FlowController { turns, sensed_std_m3_min, integral_v, passed_std_m3_min });

impl FlowController {
    /// A controller without power, with its screw at these turns.
    pub const fn new(turns: f64) -> Self {
        Self { turns, sensed_std_m3_min: 0.0, integral_v: 0.0, passed_std_m3_min: 0.0 }
    }

    /// The set point, m3/min at standard conditions: linear in the turns of the screw (CHOSEN).
    pub fn set_point_std_m3_min(&self, parameters: &FlowControllerParameters) -> f64 {
        let share = within(self.turns / parameters.trim_turns, 0.0, 1.0);
        parameters.lowest_std_m3_min
            + (parameters.highest_std_m3_min - parameters.lowest_std_m3_min) * share
    }

    /// The turns that give a set point, limited to the ends of the screw.
    pub fn turns_for(parameters: &FlowControllerParameters, set_point_std_m3_min: f64) -> f64 {
        let span = parameters.highest_std_m3_min - parameters.lowest_std_m3_min;
        let share = (set_point_std_m3_min - parameters.lowest_std_m3_min) / span;
        parameters.trim_turns * within(share, 0.0, 1.0)
    }

    /// Turns the screw, clockwise positive; it stops at its ends.
    pub fn turn(&mut self, parameters: &FlowControllerParameters, turns: f64) {
        self.turns = within(self.turns + turns, 0.0, parameters.trim_turns);
    }

    /// Advances the controller by `dt_s` and returns the voltage for the motor, from 0 to `line_v`
    /// minus the loss of its power stage.
    ///
    /// V = Kp e + (Kp / Ti) int e dt, with e the set point minus the sensed flow; the sensed flow
    /// follows the true one, the mean of the flows at both ends of the step, with the sensor's lag.
    /// The integral is
    /// frozen while the voltage is at a limit and e would push it further. The loop through the
    /// rotor (about 1.6 s) is closed once per step: while the controller drives, steps must be
    /// ticks of 0.05 s.
    pub fn step(
        &mut self,
        parameters: &FlowControllerParameters,
        dt_s: f64,
        mass_flow_kg_s: f64,
        line_v: f64,
    ) -> f64 {
        let line_v = within(line_v - parameters.lost_v, 0.0, 1000.0);
        let now = parameters.sensed_std_m3_min(mass_flow_kg_s);
        let flow = 0.5 * (self.passed_std_m3_min + now);
        self.passed_std_m3_min = now;
        self.sensed_std_m3_min -=
            (flow - self.sensed_std_m3_min) * math::exp_m1(-dt_s / parameters.sensor_tau_s);
        let error = self.set_point_std_m3_min(parameters) - self.sensed_std_m3_min;
        let proportional = parameters.gain_v_min_m3 * error;
        let integral = self.integral_v + proportional * dt_s / parameters.integral_s;
        let wanted = proportional + integral;
        let pushes_further = (wanted > line_v && error > 0.0) || (wanted < 0.0 && error < 0.0);
        if !pushes_further {
            self.integral_v = integral;
        }
        within(proportional + self.integral_v, 0.0, line_v)
    }

    /// Whether the loop has nothing left to do: it feels its set point, or gives all the voltage that
    /// it has and still feels less.
    pub fn is_at_rest(&self, parameters: &FlowControllerParameters, line_v: f64) -> bool {
        let set_point = self.set_point_std_m3_min(parameters);
        let error = set_point - self.sensed_std_m3_min;
        let wanted = parameters.gain_v_min_m3 * error + self.integral_v;
        error.abs() < AT_REST * set_point || (error > 0.0 && wanted >= line_v - parameters.lost_v)
    }

    /// Sets the steady state of the loop: the sensed flow, and the voltage that holds it.
    pub const fn rest(&mut self, sensed_std_m3_min: f64, volts: f64) {
        self.sensed_std_m3_min = sensed_std_m3_min;
        self.passed_std_m3_min = sensed_std_m3_min;
        self.integral_v = volts;
    }

    /// Cuts the power: the regulator loses its state; the screw keeps its setting.
    pub const fn power_off(&mut self) {
        self.sensed_std_m3_min = 0.0;
        self.passed_std_m3_min = 0.0;
        self.integral_v = 0.0;
    }
}
