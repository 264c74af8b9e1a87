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

/// A valve as it stands, and what is wrong with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Valve {
    /// Quarter turns of its stem, 0 to 4.
    pub quarters: u8,
    /// Leak to the air beside it: its area over that of the open valve.
    pub leak_ratio: f64,
    /// The area that its plug gives at most, over that of the open valve: 1 sound, 0 stuck shut.
    pub passes: f64,
}

/// The passage of a valve on `leg`.
///
/// * A plug that does not follow its stem gives at most its share of the area; with none it is shut.
/// * Share on the left leg: 1/(1 + a^2), a the leak's area over the valve's, turbulent (computed).
///   The valve's area is taken to grow with its turns, so that a = 4 ratio / quarters (CHOSEN).
/// * On the right leg, which is open to the air anyhow, a leak changes nothing while the valve is
///   open.
/// * A shut valve that leaks lets the air in: the left leg then feels nothing of the tube, the
///   right leg still feels the air; both sluggish.
/// * Lag: tau = R A / (2 rho g), 2 s at one quarter, 0.3 s at two, 0.05 s at three, none fully open
///   (CHOSEN). It leaves no steady error. A plug that gives a share p below a quarter turn's lags
///   by 2 s 0.25/p (laminar through a narrow gap, CHOSEN).
pub fn passage(leg: Leg, valve: Valve) -> Passage {
    let Valve { quarters, leak_ratio, passes } = valve;
    let quarters = if passes > 0.0 { quarters } else { 0 };
    let leaks = leak_ratio > 0.0;
    match (quarters, leg) {
        (0, _) if !leaks => Passage::Shut,
        // A quarter turn passes as much as a leak of a quarter of the area.
        (0, Leg::Left) => Passage::Open { share: 0.0, lag_s: 2.0 * 0.25 / leak_ratio.max(0.01) },
        (0, Leg::Right) => Passage::Open { share: 1.0, lag_s: 2.0 * 0.25 / leak_ratio.max(0.01) },
        (_, Leg::Left) => {
            let turned = f64::from(quarters) / f64::from(FULLY_OPEN);
            let ratio = leak_ratio.max(0.0) / turned.min(passes);
            Passage::Open { share: divided(ratio), lag_s: lag_s(quarters, passes) }
        }
        (_, Leg::Right) => Passage::Open { share: 1.0, lag_s: lag_s(quarters, passes) },
    }
}

/// Share of a pressure left beside a leak to the air: 1/(1 + a^2), `area_ratio` a the leak's area
/// over that of the passage which feeds it; turbulent flow through both (computed).
pub fn divided(area_ratio: f64) -> f64 {
    1.0 / (1.0 + area_ratio * area_ratio)
}

/// Lag of an open valve, s (CHOSEN).
fn lag_s(quarters: u8, passes: f64) -> f64 {
    if passes < 0.25 {
        return 2.0 * 0.25 / passes.max(0.001);
    }
    match quarters {
        0 | 1 => 2.0,
        2 => 0.3,
        3 => 0.05,
        _ => 0.0,
    }
}
