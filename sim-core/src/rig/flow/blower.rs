//! The blower: a series motor and a two-stage fan on one shaft, and how it warms up.

use super::fan::FanParameters;
use super::flow_solution::FlowSolution;
use super::motor::MotorParameters;
use super::warmth::{Warmth, cooled};
use crate::air::within;
use crate::digest::digest_fields;
use crate::math;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct BlowerParameters {
    /// The fan.
    pub fan: FanParameters,
    /// The motor.
    pub motor: MotorParameters,
    /// Moment of inertia of rotor and fan, kg m2 (CHOSEN: 99 % of the speed after 6.6 s).
    pub inertia_kg_m2: f64,
    /// Time constant of the winding while the air cools it, s (CHOSEN).
    pub winding_tau_s: f64,
    /// Time constant of the winding when the blower is off, s (CHOSEN).
    pub winding_rest_tau_s: f64,
    /// Time constant of the bearings' friction while running, s (CHOSEN).
    pub bearing_tau_s: f64,
    /// Time constant of the bearings' friction when the blower is off, s (CHOSEN).
    pub bearing_rest_tau_s: f64,
    /// Mass flow below which the air no longer cools the winding well, kg/s (CHOSEN: about
    /// 0.25 m3/min).
    pub cooling_flow_kg_s: f64,
    /// Heating of the winding by the work that the fan does on air that cannot leave, K/J (CHOSEN:
    /// a warm blower is at the edge of harm after 30 s with its inlet covered).
    pub blocked_heating_k_j: f64,
    /// Winding temperature from which it smells hot, K (CHOSEN: 125 degrees Celsius).
    pub hot_smell_k: f64,
    /// Winding temperature above which its insulation is harmed, K (CHOSEN: the 155 degrees Celsius
    /// of thermal class F, MEMORY).
    pub harm_k: f64,
    /// Torque of the brushes on the slowly coasting rotor, N m (CHOSEN: it comes to rest).
    pub standstill_n_m: f64,
}

digest_fields!(BlowerParameters {
    fan,
    motor,
    inertia_kg_m2,
    winding_tau_s,
    winding_rest_tau_s,
    bearing_tau_s,
    bearing_rest_tau_s,
    cooling_flow_kg_s,
    blocked_heating_k_j,
    hot_smell_k,
    harm_k,
    standstill_n_m
});

impl Default for BlowerParameters {
    fn default() -> Self {
        Self {
            fan: FanParameters::default(),
            motor: MotorParameters::default(),
            inertia_kg_m2: 7e-4,
            winding_tau_s: 240.0,
            winding_rest_tau_s: 600.0,
            bearing_tau_s: 420.0,
            bearing_rest_tau_s: 900.0,
            cooling_flow_kg_s: 0.005,
            blocked_heating_k_j: 0.0067,
            hot_smell_k: 398.15,
            harm_k: 428.15,
            standstill_n_m: 0.002,
        }
    }
}

/// Relative change of speed per second above which the rotor is settling. Below it, the error of a
/// step of a whole second is less than 1e-5 of the speed.
pub const SETTLING_PER_S: f64 = 1e-3;
/// Below this change per second, steps of a quarter of a second have that error at most.
pub const SETTLING_SLOWLY_PER_S: f64 = 4e-3;
/// Highest winding temperature that is calculated, K: by then the fuse has blown.
const HOTTEST_K: f64 = 550.0;
/// Speed ratio below which the brushes brake a coasting rotor.
const STANDSTILL_RATIO: f64 = 0.1;

/// What heats and cools the windings during a step.
#[derive(Debug, Clone, Copy)]
pub(in crate::rig) struct WindingLoad<'a> {
    /// The flow that cools them.
    pub flow: &'a FlowSolution,
    /// Power that turns into heat in them, W.
    pub made_w: f64,
}

/// The blower's state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blower {
    /// Speed of the rotor, rad/s.
    pub speed_rad_s: f64,
    /// How warm it is.
    pub warmth: Warmth,
    /// Highest temperature that the winding has reached, K.
    pub hottest_winding_k: f64,
    /// Current in the last step, A.
    pub current_a: f64,
    /// Relative change of speed per second during the last step.
    pub settling_per_s: f64,
}

digest_fields!(Blower { speed_rad_s, warmth, hottest_winding_k, current_a, settling_per_s });

impl Blower {
    /// A cold blower at rest.
    pub const fn at_rest(ambient_k: f64) -> Self {
        Self {
            speed_rad_s: 0.0,
            warmth: Warmth::cold(ambient_k),
            hottest_winding_k: ambient_k,
            current_a: 0.0,
            settling_per_s: 0.0,
        }
    }

    /// Advances the blower by `dt_s`, 0.05 to 1 s, with `volts` at the motor (0 without power) and
    /// the flow that [`crate::rig::flow::flow_path::solve`] finds at the present speed.
    ///
    /// Speed: J dw/dt = k I^2 - Tair - Tfriction, taken as an exponential step
    /// w += f (e^(L dt) - 1) / L with L = df/dw. It is exact near the steady speed and stays
    /// there with any step length; while [`Self::is_settling`], steps of one tick follow the run-up
    /// within 0.1 %.
    pub fn step(
        &mut self,
        parameters: &BlowerParameters,
        dt_s: f64,
        volts: f64,
        flow: &FlowSolution,
        ambient_k: f64,
    ) {
        let volts = within(volts, 0.0, 1000.0);
        let before = self.speed_rad_s;
        let resistance = parameters.motor.resistance_ohm(self.warmth.winding_k);
        self.current_a = parameters.motor.current_a(volts, before, resistance);
        let made_before_w = self.made_w(parameters);
        self.turn(parameters, dt_s, volts, flow);
        self.settling_per_s = if self.speed_rad_s > 0.0 {
            (self.speed_rad_s - before).abs() / (self.speed_rad_s * dt_s)
        } else {
            0.0
        };
        let made_w = 0.5 * (made_before_w + self.made_w(parameters));
        self.warm(parameters, dt_s, volts, WindingLoad { flow, made_w }, ambient_k);
    }

    /// Electrical power, W: what turns into heat in brushes and winding, and what drives the shaft.
    ///
    /// P = I^2 R + k I^2 w.
    pub fn electrical_w(&self, parameters: &BlowerParameters) -> f64 {
        let motor = &parameters.motor;
        let squared = self.current_a * self.current_a;
        let resistance = motor.resistance_ohm(self.warmth.winding_k);
        squared * (resistance + motor.torque_n_m_a2 * self.speed_rad_s)
    }

    /// Power that turns into heat in brushes, winding and bearings, W: I^2 R + Tf w.
    pub(in crate::rig) fn made_w(&self, parameters: &BlowerParameters) -> f64 {
        let motor = &parameters.motor;
        let resistance = motor.resistance_ohm(self.warmth.winding_k);
        let friction =
            motor.friction_n_m_per_ratio(self.warmth.bearing_cold) * self.speed_ratio(parameters);
        self.current_a * self.current_a * resistance + friction * self.speed_rad_s
    }

    /// Heat that is stored in the windings, J.
    pub fn stored_j(&self, parameters: &BlowerParameters) -> f64 {
        parameters.winding_tau_s * self.warmth.heat_w(self.made_w(parameters))
    }

    /// Whether the rotor's speed changes so fast that steps of one tick are needed. Small steps are
    /// also needed when something is changed by hand at the inlet or the supply.
    pub fn is_settling(&self) -> bool {
        self.settling_per_s > SETTLING_PER_S
    }

    /// Whether it is settling so slowly that a quarter of a second can be taken at once.
    pub fn is_settling_slowly(&self) -> bool {
        self.settling_per_s <= SETTLING_SLOWLY_PER_S
    }

    /// Speed divided by the fan's reference speed.
    pub fn speed_ratio(&self, parameters: &BlowerParameters) -> f64 {
        self.speed_rad_s / parameters.fan.reference_speed_rad_s
    }

    /// Whether it smells of hot varnish now.
    pub fn smells_hot(&self, parameters: &BlowerParameters) -> bool {
        self.warmth.winding_k > parameters.hot_smell_k
    }

    /// Whether the winding has ever been hot enough to be harmed.
    pub fn is_harmed(&self, parameters: &BlowerParameters) -> bool {
        self.hottest_winding_k > parameters.harm_k
    }

    /// Sets the steady speed at which the rotor has settled, and its current.
    pub(in crate::rig) const fn rest(&mut self, speed_rad_s: f64, current_a: f64) {
        self.speed_rad_s = speed_rad_s;
        self.current_a = current_a;
        self.settling_per_s = 0.0;
    }

    /// Net torque on the shaft, N m, and its derivative with respect to speed, N m s.
    ///
    /// For a given inlet, the torque of the air grows as the square of the speed.
    pub(in crate::rig) fn net_torque(
        &self,
        parameters: &BlowerParameters,
        volts: f64,
        flow: &FlowSolution,
    ) -> (f64, f64) {
        let motor = &parameters.motor;
        let resistance = motor.resistance_ohm(self.warmth.winding_k);
        let (drive, drive_slope) = motor.torque_and_slope(volts, self.speed_rad_s, resistance);
        let drag = motor.friction_n_m_per_ratio(self.warmth.bearing_cold)
            / parameters.fan.reference_speed_rad_s;
        let air_slope =
            if self.speed_rad_s > 0.0 { 2.0 * flow.torque_n_m / self.speed_rad_s } else { 0.0 };
        let net = drive - flow.torque_n_m - drag * self.speed_rad_s;
        (net, drive_slope - air_slope - drag)
    }

    /// The exponential step of the speed.
    fn turn(&mut self, parameters: &BlowerParameters, dt_s: f64, volts: f64, flow: &FlowSolution) {
        if self.speed_rad_s <= 0.0 && volts <= 0.0 {
            self.speed_rad_s = 0.0;
            self.current_a = 0.0;
            return;
        }
        let motor = &parameters.motor;
        let (mut net, slope) = self.net_torque(parameters, volts, flow);
        if volts <= 0.0 && self.speed_ratio(parameters) < STANDSTILL_RATIO {
            net -= parameters.standstill_n_m;
        }
        let rate = slope / parameters.inertia_kg_m2;
        let gain = if rate < -1e-9 { math::exp_m1(rate * dt_s) / rate } else { dt_s };
        let fastest = 2.5 * parameters.fan.reference_speed_rad_s;
        let speed = self.speed_rad_s + net / parameters.inertia_kg_m2 * gain;
        self.speed_rad_s = within(speed, 0.0, fastest);
        let resistance = motor.resistance_ohm(self.warmth.winding_k);
        self.current_a = motor.current_a(volts, self.speed_rad_s, resistance);
    }

    /// Warms or cools winding and bearings, by the exact solution of their linear laws.
    ///
    /// The winding's resistance follows its own temperature. Running:
    /// dT/dt = c (Tr - T) / tau + (1 - c) q P, with c the fraction of the cooling that the
    /// flow provides, from 0 without flow to 1 from the cooling flow on; Tr the running
    /// temperature, P the power of the fan on the air in W, q its heating. Off: dT/dt = (Ta - T) /
    /// tau_rest. That Tr depends neither on the weather nor on the load is a simplification
    /// (CHOSEN). In a step that does not resolve the rotor's motion, this is the only thing that
    /// changes.
    pub(in crate::rig) fn warm(
        &mut self,
        parameters: &BlowerParameters,
        dt_s: f64,
        volts: f64,
        load: WindingLoad<'_>,
        ambient_k: f64,
    ) {
        let WindingLoad { flow, made_w } = load;
        let cooled = cooled(flow.mass_flow_kg_s, parameters.cooling_flow_kg_s);
        let rest_s = if volts > 0.0 { None } else { Some(parameters.winding_rest_tau_s) };
        self.warmth.store(dt_s, made_w, cooled, parameters.winding_tau_s, rest_s);
        let (goal, tau, bearing_goal, bearing_tau);
        let mut heating = 0.0;
        if volts > 0.0 {
            (goal, tau) = (parameters.motor.running_k, parameters.winding_tau_s / cooled);
            let power_w = flow.torque_n_m * self.speed_rad_s;
            heating = (1.0 - cooled) * parameters.blocked_heating_k_j * power_w;
            (bearing_goal, bearing_tau) = (0.0, parameters.bearing_tau_s);
        } else {
            (goal, tau) = (ambient_k, parameters.winding_rest_tau_s);
            (bearing_goal, bearing_tau) = (1.0, parameters.bearing_rest_tau_s);
        }
        let warmth = &mut self.warmth;
        let share = -math::exp_m1(-dt_s / tau);
        // The heating acts for tau (1 - e^(-dt/tau)), which is dt without cooling.
        let heated_for = if tau.is_finite() { tau * share } else { dt_s };
        warmth.winding_k += (goal - warmth.winding_k) * share + heating * heated_for;
        warmth.winding_k = warmth.winding_k.min(HOTTEST_K);
        warmth.bearing_cold -=
            (warmth.bearing_cold - bearing_goal) * -math::exp_m1(-dt_s / bearing_tau);
        self.hottest_winding_k = self.hottest_winding_k.max(warmth.winding_k);
    }
}
