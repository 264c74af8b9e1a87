//! The load on the manometer's column, and where the column would come to rest.

use super::trapped_air::{TrappedAir, falling_root};

/// The forces on the column, as pressures on its cross-section.
#[derive(Debug, Clone, Copy)]
pub(super) struct WaterLoad {
    /// Pa per metre of travel: 2 rho g cos(tilt).
    pub(super) weight_pa_m: f64,
    /// Contribution of tilt, unequal bores and a bubble, Pa.
    pub(super) bias_pa: f64,
    /// Travel of the left and the right meniscus divided by the mean travel; they add up to two.
    pub(super) shares: [f64; 2],
    /// The air above the left and the right leg.
    pub(super) air: [LegAir; 2],
}

/// The air above a leg.
#[derive(Debug, Clone, Copy)]
pub(super) enum LegAir {
    /// Air at this gauge pressure, Pa.
    At(f64),
    /// Trapped air; gauge pressures are relative to this ambient pressure, Pa.
    Trapped(TrappedAir, f64),
}

impl WaterLoad {
    /// The travel at which everything balances, m.
    pub(super) fn rest_m(&self) -> f64 {
        /// No balance lies further out, m: such a column outweighs every pressure that is allowed.
        const FAR_M: f64 = 40.0;
        match self.air {
            [LegAir::At(left), LegAir::At(right)] => {
                (right - left + self.bias_pa) / self.weight_pa_m
            }
            _ => falling_root(-FAR_M, FAR_M, |x| (self.net_pa(x), -self.stiffness_pa_m(x))),
        }
    }

    /// Net pressure at this travel, Pa, positive if it raises the left leg.
    fn net_pa(&self, travel_m: f64) -> f64 {
        let [left_pa, right_pa] = self.pressures_pa(travel_m);
        right_pa - left_pa + self.bias_pa - self.weight_pa_m * travel_m
    }

    /// How steeply the net pressure falls, Pa/m.
    pub(super) fn stiffness_pa_m(&self, travel_m: f64) -> f64 {
        let [left_share, right_share] = self.shares;
        let [left, right] = self.air;
        let spring = |air, share: f64, level_m| match air {
            LegAir::At(_) => 0.0,
            LegAir::Trapped(trapped, _) => share * TrappedAir::stiffness_pa_m(&trapped, level_m),
        };
        self.weight_pa_m
            + spring(left, left_share, left_share * travel_m)
            + spring(right, right_share, -right_share * travel_m)
    }

    /// Gauge pressures above the left and the right leg, Pa.
    fn pressures_pa(&self, travel_m: f64) -> [f64; 2] {
        let [left_share, right_share] = self.shares;
        let [left, right] = self.air;
        let gauge = |air, level_m| match air {
            LegAir::At(pressure_pa) => pressure_pa,
            LegAir::Trapped(trapped, ambient_pa) => trapped.pressure_pa(level_m) - ambient_pa,
        };
        [gauge(left, left_share * travel_m), gauge(right, -right_share * travel_m)]
    }
}
