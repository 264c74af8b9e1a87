//! A valve on a leg of the manometer: shut, partly open, open, or leaking to the air.

use crate::rig::parts::Leg;

/// Quarter turns from shut to fully open.
pub const FULLY_OPEN: u8 = 4;

/// The effect of a valve on its leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Passage {
    /// Air is trapped above the water.
    Shut,
    /// The pressure outside reaches the water.
    Open {
        /// Fraction of the pressure that reaches the water, 0 to 1.
        share: f64,
        /// Lag with which the water follows, s.
        lag_s: f64,
    },
}

/// The position of a valve, and what is wrong with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Valve {
    /// Quarter turns of its stem, 0 to 4.
    pub quarters: u8,
    /// Leak to the air: its area divided by that of the open valve.
    pub leak_ratio: f64,
    /// The greatest area that its plug opens, divided by that of the open valve: 1 sound, 0 stuck
    /// shut.
    pub passes: f64,
}

/// The passage of a valve on `leg`.
///
/// * A plug that does not follow its stem opens at most the fraction `passes` of the area; at zero
///   the valve is shut.
/// * Fraction on the left leg: 1/(1 + a^2), with a the area of the leak divided by that of the
///   valve, turbulent (computed). The area of the valve is taken to grow with its turns:
///   a = 4 ratio / quarters (CHOSEN).
/// * On the right leg, which is open to the air in any case, a leak changes nothing while the valve
///   is open.
/// * A shut valve that leaks lets air in: the left leg then senses nothing of the tubing, the right
///   leg still senses the air, both sluggishly.
/// * Lag: tau = R A / (2 rho g), 2 s at one quarter turn, 0.3 s at two, 0.05 s at three, none when
///   fully open (CHOSEN). It causes no steady error. A plug that opens a fraction p, less than that
///   of a quarter turn, lags by 2 s 0.25/p (laminar flow through a narrow gap, CHOSEN).
pub fn passage(leg: Leg, valve: Valve) -> Passage {
    let Valve { quarters, leak_ratio, passes } = valve;
    let quarters = if passes > 0.0 { quarters } else { 0 };
    let leaks = leak_ratio > 0.0;
    match (quarters, leg) {
        (0, _) if !leaks => Passage::Shut,
        // A quarter turn passes as much air as a leak of a quarter of the area.
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

/// Fraction of a pressure that remains behind a leak to the air: 1/(1 + a^2), with `area_ratio` a
/// the area of the leak divided by that of the passage which feeds it; turbulent in both
/// (computed).
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
