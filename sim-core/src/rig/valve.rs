//! A valve on a leg of the manometer: shut, seated in part, open, or leaking to the air beside it.

use crate::rig::parts::Leg;

/// Quarter turns from shut to fully open.
pub const FULLY_OPEN: u8 = 4;

/// What a valve does to its leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Passage {
    /// Air is shut in above the water.
    Shut,
    /// The pressure outside reaches the water.
    Open {
        /// Share of the pressure that reaches the water, 0 to 1.
        share: f64,
        /// Lag with which the water follows, s.
        lag_s: f64,
    },
}

/// The passage of a valve opened by `quarters` (0 to 4) on `leg`, with a leak to the air whose area
/// is `leak_ratio` times that of the open valve.
///
/// * Share on the left leg: 1/(1 + a^2), a the leak's area over the valve's, turbulent (computed).
///   The valve's area is taken to grow with its turns, so that a = 4 ratio / quarters (CHOSEN).
/// * On the right leg, which is open to the air anyhow, a leak changes nothing while the valve is
///   open.
/// * A shut valve that leaks lets the air in: the left leg then feels nothing of the tube, the
///   right leg still feels the air; both sluggish.
/// * Lag: tau = R A / (2 rho g), 2 s at one quarter, 0.3 s at two, 0.05 s at three, none fully open
///   (CHOSEN). It leaves no steady error.
pub fn passage(leg: Leg, quarters: u8, leak_ratio: f64) -> Passage {
    let leaks = leak_ratio > 0.0;
    match (quarters, leg) {
        (0, _) if !leaks => Passage::Shut,
        // A quarter turn passes as much as a leak of a quarter of the area.
        (0, Leg::Left) => Passage::Open { share: 0.0, lag_s: 2.0 * 0.25 / leak_ratio.max(0.01) },
        (0, Leg::Right) => Passage::Open { share: 1.0, lag_s: 2.0 * 0.25 / leak_ratio.max(0.01) },
        (_, Leg::Left) => {
            let ratio = f64::from(FULLY_OPEN) * leak_ratio.max(0.0) / f64::from(quarters);
            Passage::Open { share: divided(ratio), lag_s: lag_s(quarters) }
        }
        (_, Leg::Right) => Passage::Open { share: 1.0, lag_s: lag_s(quarters) },
    }
}

/// Share of a pressure left beside a leak to the air: 1/(1 + a^2), `area_ratio` a the leak's area
/// over that of the passage which feeds it; turbulent flow through both (computed).
pub fn divided(area_ratio: f64) -> f64 {
    1.0 / (1.0 + area_ratio * area_ratio)
}

/// Lag of an open valve, s (CHOSEN).
const fn lag_s(quarters: u8) -> f64 {
    match quarters {
        0 | 1 => 2.0,
        2 => 0.3,
        3 => 0.05,
        _ => 0.0,
    }
}
