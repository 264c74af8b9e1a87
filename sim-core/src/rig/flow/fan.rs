//! The fan: two centrifugal stages on the motor's shaft.

use super::dual::Dual;
use crate::digest::digest_fields;

/// Density at which the fan's numbers are stated, kg/m3.
const STATED_DENSITY_KG_M3: f64 = 1.20;

/// Parameters (all CHOSEN: a sealed suction near 20 kPa and 1.7 m3/min through an open calibrator).
#[derive(Debug, Clone, PartialEq)]
pub struct FanParameters {
    /// Speed at which the numbers are stated, rad/s (18 000 rpm).
    pub reference_speed_rad_s: f64,
    /// Rise without flow, A, Pa.
    pub rise_pa: f64,
    /// Loss of rise with flow times speed, B, Pa s/m3.
    pub rise_loss_pa_s_m3: f64,
    /// Loss of rise with flow squared, C, Pa s2/m6.
    pub rise_loss_pa_s2_m6: f64,
    /// Torque without flow, N m.
    pub torque_n_m: f64,
    /// Torque gained with flow times speed, N m s/m3.
    pub torque_n_m_s_m3: f64,
}

digest_fields!(FanParameters {
    reference_speed_rad_s,
    rise_pa,
    rise_loss_pa_s_m3,
    rise_loss_pa_s2_m6,
    torque_n_m,
    torque_n_m_s_m3
});

impl Default for FanParameters {
    fn default() -> Self {
        Self {
            reference_speed_rad_s: 1885.0,
            rise_pa: 13_200.0,
            rise_loss_pa_s_m3: 30_000.0,
            rise_loss_pa_s2_m6: 5.71e6,
            torque_n_m: 0.096,
            torque_n_m_s_m3: 7.4,
        }
    }
}

impl FanParameters {
    /// Pressure rise, Pa.
    ///
    /// dP = rho/1.20 (A s^2 - B Q s - C Q^2): rho density in kg/m3 and Q volume flow in m3/s at the
    /// inlet, s speed over the reference speed. A quadratic that obeys the fan laws (MEMORY).
    pub fn rise_pa(&self, speed_ratio: f64, density_kg_m3: f64, flow_m3_s: f64) -> f64 {
        self.rise(speed_ratio, Dual::constant(density_kg_m3), Dual::constant(flow_m3_s)).value
    }

    /// Torque of the air on the shaft, N m.
    ///
    /// T = rho/1.20 (T0 s^2 + T1 Q s), symbols as for [`Self::rise_pa`] (form MEMORY).
    pub fn torque_n_m(&self, speed_ratio: f64, density_kg_m3: f64, flow_m3_s: f64) -> f64 {
        self.torque(speed_ratio, Dual::constant(density_kg_m3), Dual::constant(flow_m3_s)).value
    }

    pub(super) fn rise(&self, s: f64, density: Dual, flow: Dual) -> Dual {
        let still = Dual::constant(self.rise_pa * s * s);
        let loss =
            (flow * self.rise_loss_pa_s2_m6 + Dual::constant(self.rise_loss_pa_s_m3 * s)) * flow;
        density * (1.0 / STATED_DENSITY_KG_M3) * (still - loss)
    }

    pub(super) fn torque(&self, s: f64, density: Dual, flow: Dual) -> Dual {
        let still = Dual::constant(self.torque_n_m * s * s);
        density * (1.0 / STATED_DENSITY_KG_M3) * (still + flow * (self.torque_n_m_s_m3 * s))
    }
}
