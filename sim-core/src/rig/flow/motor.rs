//! The motor: a series-wound machine on alternating current, with brushes.

use crate::digest::digest_fields;
use crate::math;

/// Resistance that new brushes add at first, ohm (CHOSEN).
const NEW_BRUSHES_OHM: f64 = 1.2;
/// Time constants with which new brushes bed in, s: at a reduced voltage the faces wear to shape without
/// sparks, within the hour for which they are run in; at full voltage sparks pit them, and it takes
/// longer (both CHOSEN; the hour is common practice, without a source).
const BEDS_GENTLY_S: f64 = 900.0;
const BEDS_S: f64 = 2400.0;
/// Voltage below which brushes bed in without sparks, V (CHOSEN: two thirds of the mains).
const GENTLE_V: f64 = 80.0;
/// Added resistance above which new brushes are heard to spark, ohm (CHOSEN).
const SPARKS_OHM: f64 = 0.15;

/// Parameters (all CHOSEN: 18 000 rpm and 6.3 A at 120 V with the calibrator open).
#[derive(Debug, Clone, PartialEq)]
pub struct MotorParameters {
    /// Resistance of brushes and commutation, ohm. Worn brushes have more.
    pub brush_ohm: f64,
    /// Resistance that worn brushes add, ohm; a fault sets it.
    pub brush_ohm_added: f64,
    /// Resistance that new brushes add until their faces have bedded in, ohm.
    pub bedding_ohm: f64,
    /// Resistance of the winding at its running temperature, ohm.
    pub winding_ohm: f64,
    /// Running temperature of the winding, K (90 degrees Celsius).
    pub running_k: f64,
    /// Temperature coefficient of the winding's resistance at 20 degrees Celsius, 1/K (copper,
    /// MEMORY).
    pub copper_per_k: f64,
    /// Reactance, ohm.
    pub reactance_ohm: f64,
    /// Torque divided by current squared, N m/A2; the same number is the induced voltage divided by
    /// speed and current, V s/A.
    pub torque_n_m_a2: f64,
    /// Friction of bearings and brushes when warm, at the fan's reference speed, N m.
    pub friction_n_m: f64,
    /// Friction divided by the usual friction; a fault sets it.
    pub friction_factor: f64,
    /// Fraction by which friction is larger when cold.
    pub cold_friction: f64,
}

digest_fields!(MotorParameters {
    brush_ohm,
    brush_ohm_added,
    bedding_ohm,
    winding_ohm,
    running_k,
    copper_per_k,
    reactance_ohm,
    torque_n_m_a2,
    friction_n_m,
    friction_factor,
    cold_friction
});

impl Default for MotorParameters {
    fn default() -> Self {
        Self {
            brush_ohm: 1.475,
            brush_ohm_added: 0.0,
            bedding_ohm: 0.0,
            winding_ohm: 2.425,
            running_k: 363.15,
            copper_per_k: 0.00393,
            reactance_ohm: 6.6,
            torque_n_m_a2: 6.9e-3,
            friction_n_m: 0.0214,
            friction_factor: 1.0,
            cold_friction: 0.35,
        }
    }
}

impl MotorParameters {
    /// Resistance of brushes and winding, ohm.
    ///
    /// R = Rb + Rw (1 + a (T - 293.15)) / (1 + a (Tr - 293.15)), with T the temperature of the
    /// winding in K, Tr its running temperature and a the temperature coefficient of copper
    /// (MEMORY).
    pub fn resistance_ohm(&self, winding_k: f64) -> f64 {
        let warm = |kelvin: f64| 1.0 + self.copper_per_k * (kelvin - 293.15);
        self.brush_ohm
            + self.brush_ohm_added
            + self.bedding_ohm
            + self.winding_ohm * warm(winding_k) / warm(self.running_k)
    }

    /// Fits new brushes, whose square ends touch the round commutator in a line only.
    pub const fn renew_brushes(&mut self) {
        self.brush_ohm_added = 0.0;
        self.bedding_ohm = NEW_BRUSHES_OHM;
    }

    /// Beds new brushes in for `dt_s` (s) of running at a voltage, V.
    pub fn bed_brushes(&mut self, dt_s: f64, volts: f64) {
        if self.bedding_ohm > 0.0 && dt_s.is_finite() && volts > 0.0 {
            let lasts_s = if volts < GENTLE_V { BEDS_GENTLY_S } else { BEDS_S };
            self.bedding_ohm *= math::exp(-dt_s.max(0.0) / lasts_s);
        }
    }

    /// Whether sparks at the brushes are heard as a wavering sound.
    pub fn sparks(&self) -> bool {
        self.brush_ohm_added > 0.0 || self.bedding_ohm > SPARKS_OHM
    }

    /// Current, A.
    ///
    /// I = V / sqrt((R + k w)^2 + X^2): V voltage, R resistance, X reactance in ohm, k torque
    /// constant, w speed in rad/s. An unsaturated series machine (READ: E = k I w, T = k I^2).
    pub fn current_a(&self, volts: f64, speed_rad_s: f64, resistance_ohm: f64) -> f64 {
        let in_phase = resistance_ohm + self.torque_n_m_a2 * speed_rad_s;
        volts / (in_phase * in_phase + self.reactance_ohm * self.reactance_ohm).sqrt()
    }

    /// Torque T = k I^2, N m, and its derivative with respect to speed, N m s.
    pub(super) fn torque_and_slope(
        &self,
        volts: f64,
        speed_rad_s: f64,
        resistance_ohm: f64,
    ) -> (f64, f64) {
        let in_phase = resistance_ohm + self.torque_n_m_a2 * speed_rad_s;
        let squared = in_phase * in_phase + self.reactance_ohm * self.reactance_ohm;
        let torque = self.torque_n_m_a2 * volts * volts / squared;
        (torque, -2.0 * torque * in_phase * self.torque_n_m_a2 / squared)
    }

    /// Friction divided by speed ratio, N m: T = Tf (1 + c b) s with b from 1 cold to 0 warm.
    pub(super) fn friction_n_m_per_ratio(&self, bearing_cold: f64) -> f64 {
        self.friction_n_m * self.friction_factor * (1.0 + self.cold_friction * bearing_cold)
    }
}
