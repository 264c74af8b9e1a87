//! Air trapped above a leg of the manometer: a stiff spring on the water.

use crate::digest::digest_fields;

/// Air between a shut valve and the water, at constant temperature.
///
/// p = p0 l / (l - (y - y0)): absolute pressure p (Pa) from the pressure p0 and length l (m) at the
/// moment of shutting, with y (m) the level of the water and y0 its level at that moment (Boyle's
/// law, MEMORY). Below a hundredth of its length, which no pressure on the bench reaches, the law
/// continues as a straight line, so that every level has a finite pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrappedAir {
    pressure_pa: f64,
    length_m: f64,
    level_m: f64,
}

digest_fields!(TrappedAir { pressure_pa, length_m, level_m });

impl TrappedAir {
    /// Air at `pressure_pa` (absolute, Pa), `length_m` (m) long, above water at `level_m` (m).
    pub const fn new(pressure_pa: f64, length_m: f64, level_m: f64) -> Self {
        Self { pressure_pa, length_m, level_m }
    }

    /// Absolute pressure with the water at `level_m`, Pa.
    pub fn pressure_pa(&self, level_m: f64) -> f64 {
        let left_m = self.length_left_m(level_m);
        let beyond_m = (self.shortest_m() - left_m).max(0.0);
        self.pressure_pa * self.length_m / left_m.max(self.shortest_m())
            + beyond_m * self.stiffness_pa_m(level_m)
    }

    /// How fast the pressure grows as the water rises, Pa/m.
    pub fn stiffness_pa_m(&self, level_m: f64) -> f64 {
        let left_m = self.length_left_m(level_m).max(self.shortest_m());
        self.pressure_pa * self.length_m / (left_m * left_m)
    }

    fn length_left_m(&self, level_m: f64) -> f64 {
        self.length_m - (level_m - self.level_m)
    }

    fn shortest_m(&self) -> f64 {
        0.01 * self.length_m
    }
}

/// The root of a falling function between two bounds, by Newton's method kept inside a bracket.
///
/// `function` returns the value and the slope. Outside the bracket, the nearer bound is returned.
pub fn falling_root(mut low: f64, mut high: f64, function: impl Fn(f64) -> (f64, f64)) -> f64 {
    const PASSES: usize = 80;
    let mut x = 0.5 * (low + high);
    for _ in 0..PASSES {
        let (value, slope) = function(x);
        if value > 0.0 {
            low = x;
        } else if value < 0.0 {
            high = x;
        } else {
            return x;
        }
        let newton = x - value / slope;
        let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
        if (next - x).abs() <= 1e-16 {
            return next;
        }
        x = next;
    }
    x
}

#[cfg(test)]
mod tests {
    use super::{TrappedAir, falling_root};

    #[test]
    fn half_the_length_is_twice_the_pressure() {
        let air = TrappedAir::new(1e5, 0.1, 0.02);
        assert!((air.pressure_pa(0.07) - 2e5).abs() < 1e-6);
        assert!((air.stiffness_pa_m(0.02) - 1e6).abs() < 1e-6);
        assert!(air.pressure_pa(5.0).is_finite());
    }

    #[test]
    fn the_root_is_found_and_bounds_hold() {
        let root = falling_root(-1.0, 3.0, |x| (2.0 - x * x * x, -3.0 * x * x));
        assert!((root * root * root - 2.0).abs() < 1e-12);
        assert!((falling_root(-1.0, 1.0, |x| (9.0 - x, -1.0)) - 1.0).abs() < 1e-12);
    }
}
