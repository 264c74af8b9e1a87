//! How warm the blower is: its winding, its bearings, and the heat that the windings give to the
//! sampled air.
//!
//! No energy is lost. The air passes the windings behind the fan (READ, NILU technical note, April
//! 1981, section 1), so at rest all electrical power ends in it, less what the casing gives off. On
//! the way to that state the windings store heat: H' = (P - c H) / tau, with P the power that turns
//! into heat in them (I^2 R and friction), H what they give to the air that cools them, c the share
//! of the cooling that the flow provides, tau 240 s (CHOSEN). tau H is the stored heat.

use super::dual::Dual;
use super::motor::MotorParameters;
use crate::air::within;
use crate::digest::{Digest, Digestible, digest_fields};
use crate::math;

/// What the windings give to the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WindingHeat {
    /// All that is turned into heat in them: the blower has run for long under this load.
    AtRest,
    /// A stated heat where the air cools them fully, W.
    Given(f64),
}

impl Digestible for WindingHeat {
    fn digest(&self, digest: &mut Digest) {
        match self {
            Self::AtRest => digest.flag(false),
            Self::Given(watts) => {
                digest.flag(true);
                digest.number(*watts);
            }
        }
    }
}

/// How warm winding and bearings are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warmth {
    /// Temperature of the winding, K; its resistance follows.
    pub winding_k: f64,
    /// The part of the bearings' cold friction that remains: 1 cold, 0 warm.
    pub bearing_cold: f64,
    /// What the windings give to the air.
    pub heat: WindingHeat,
}

digest_fields!(Warmth { winding_k, bearing_cold, heat });

impl Warmth {
    /// A blower as cold as the ambient air.
    pub const fn cold(ambient_k: f64) -> Self {
        Self { winding_k: ambient_k, bearing_cold: 1.0, heat: WindingHeat::Given(0.0) }
    }

    /// A blower after a long run under the present load.
    pub const fn warm(motor: &MotorParameters) -> Self {
        Self { winding_k: motor.running_k, bearing_cold: 0.0, heat: WindingHeat::AtRest }
    }

    /// The heat that the windings give to fully cooling air, W: `made_w` at rest.
    pub const fn heat_w(&self, made_w: f64) -> f64 {
        match self.heat {
            WindingHeat::AtRest => made_w,
            WindingHeat::Given(watts) => watts,
        }
    }

    /// Lets `made_w` (W) turn into heat in the windings for `dt_s`, with the air providing `cooled`
    /// of its cooling, 0 to 1. `rest_s` is the time in which heat is lost to the casing, if the
    /// blower is off. Exact for constant values.
    pub(super) fn store(
        &mut self,
        dt_s: f64,
        made_w: f64,
        cooled: f64,
        tau_s: f64,
        rest_s: Option<f64>,
    ) {
        let before = self.heat_w(made_w);
        let rate = cooled / tau_s + rest_s.map_or(0.0, |rest| 1.0 / rest);
        let gained = if rate > 0.0 { -math::exp_m1(-rate * dt_s) / rate } else { dt_s };
        self.heat = WindingHeat::Given(before + (made_w / tau_s - rate * before) * gained);
    }
}

/// The share of their cooling that the windings have from a mass flow, 0 to 1.
pub(super) fn cooled(mass_flow_kg_s: f64, cooling_flow_kg_s: f64) -> f64 {
    within(mass_flow_kg_s / cooling_flow_kg_s, 0.0, 1.0)
}

/// Power that ends in the air behind the fan, W, as a function of the torque of the air and its
/// flow.
#[derive(Debug, Clone, Copy)]
pub(super) enum AirHeat {
    /// (T + Tf)(w + R/k): with I^2 = (T + Tf)/k this is all electrical power.
    AtRest {
        /// w + R/k, rad/s.
        power_per_torque: f64,
        /// Torque of friction, N m.
        friction_n_m: f64,
    },
    /// T w + c H.
    Lagging {
        /// Speed w, rad/s.
        speed_rad_s: f64,
        /// Heat of fully cooled windings, W.
        heat_w: f64,
        /// Mass flow from which on they are fully cooled, kg/s.
        cooling_flow_kg_s: f64,
    },
}

impl AirHeat {
    pub(super) fn power_w(&self, torque: Dual, mass_flow: Dual) -> Dual {
        match *self {
            Self::AtRest { power_per_torque, friction_n_m } => {
                (torque + Dual::constant(friction_n_m)) * power_per_torque
            }
            Self::Lagging { speed_rad_s, heat_w, cooling_flow_kg_s } => {
                let windings = if mass_flow.value < cooling_flow_kg_s {
                    mass_flow * (heat_w / cooling_flow_kg_s)
                } else {
                    Dual::constant(heat_w)
                };
                torque * speed_rad_s + windings
            }
        }
    }
}
