//! A restriction of constant area through which air expands.
//!
//! m = CdA eps(x) sqrt(2 rho1 dP), rho1 = p1 / (Rg T1), x = dP / p1,
//! eps = 1 - 0.351 \[1 - (1 - x)^(1/1.4)\], with m the mass flow in kg/s, CdA the area times the
//! discharge coefficient in m2, p1 and T1 the upstream pressure and temperature in Pa and K, dP the
//! pressure drop in Pa. The form of the expansibility is from ISO 5167-2:2003, 5.3.2.2, for a small
//! diameter ratio (READ in a public implementation); it is stated there for x up to 0.25. A
//! constant CdA neglects the change of the discharge coefficient with the Reynolds number: 0.4 to
//! 1.0 % (computed).

use super::dual::Dual;
use crate::math;

/// Ratio of the specific heats of air (MEMORY).
const KAPPA: f64 = 1.4;
/// Weight of the expansion in the expansibility (ISO 5167-2, 5.3.2.2).
const EXPANSION: f64 = 0.351;
/// Number of terms of the series for 1 - (1 - x)^(1/1.4).
const TERMS: usize = 20;
/// Coefficients of that series, from the first power of x on.
const SERIES: [f64; TERMS] = binomial();
/// Number of terms that suffice up to `SHORT_UP_TO`: the first one left out is below 1e-16.
const SHORT_TERMS: usize = 10;
/// Pressure ratio up to which the short series is used.
const SHORT_UP_TO: f64 = 0.05;
/// Pressure ratio up to which the long series is used; beyond it, the power itself.
const SERIES_UP_TO: f64 = 0.2;
/// Largest pressure ratio for which a drop is sought: no blower reaches it.
const SOUGHT_UP_TO: f64 = 0.6;
/// Pressure ratio that is returned for every larger one.
const LARGEST: f64 = 0.95;

/// Mass flow through a restriction, kg/s.
///
/// The law in the module's documentation, with `cda_m2` CdA, `upstream_pa` p1, `temperature_k` T1,
/// `gas_constant_j_kg_k` Rg, and `drop_pa` dP from 0 to `upstream_pa`.
pub fn mass_flow_kg_s(
    cda_m2: f64,
    upstream_pa: f64,
    temperature_k: f64,
    gas_constant_j_kg_k: f64,
    drop_pa: f64,
) -> f64 {
    let conductance = conductance(cda_m2, temperature_k, gas_constant_j_kg_k);
    flow(conductance, upstream_pa, Dual::constant(drop_pa)).value
}

/// Expansibility at the pressure ratio x = dP / p1, 0 to 1.
pub fn expansibility(x: f64) -> f64 {
    1.0 - EXPANSION * expansion(x)
}

/// CdA sqrt(2 / (Rg T)): the mass flow divided by p1 eps sqrt(x).
pub(super) fn conductance(cda_m2: f64, temperature_k: f64, gas_constant_j_kg_k: f64) -> f64 {
    cda_m2 * (2.0 / (gas_constant_j_kg_k * temperature_k)).sqrt()
}

/// The mass flow that a pressure drop drives through a restriction.
pub(super) fn flow(conductance: f64, upstream_pa: f64, drop_pa: Dual) -> Dual {
    let x = drop_pa.value / upstream_pa;
    if x <= 0.0 || x.is_nan() {
        return Dual::constant(0.0);
    }
    let x = x.min(LARGEST);
    let root = x.sqrt();
    let (eps, eps_slope) = expansibility_and_slope(x);
    Dual {
        value: conductance * upstream_pa * eps * root,
        slope: conductance * (0.5 * eps / root + eps_slope * root) * drop_pa.slope,
    }
}

/// A pressure drop with its ratio x to the upstream pressure, from which the next search starts.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drop {
    /// The drop, Pa.
    pub pa: Dual,
    /// Its ratio to the upstream pressure.
    pub ratio: Dual,
}

impl Drop {
    /// No drop.
    pub const NONE: Self = Self { pa: Dual::constant(0.0), ratio: Dual::constant(0.0) };
}

/// The pressure drop that a mass flow needs, with the upstream pressure known. If a flow needs more
/// than 0.6 of that pressure, 0.95 of it is returned. `near` is a ratio near the solution, which
/// only shortens the search; zero if none is known.
pub(super) fn drop(conductance: f64, upstream_pa: Dual, mass_flow: Dual, near: f64) -> Drop {
    let y = mass_flow / (upstream_pa * conductance);
    let ratio = ratio_before(y * y, near);
    Drop { pa: upstream_pa * ratio, ratio }
}

/// The pressure drop that a mass flow needs, with the downstream pressure known.
///
/// `resistance` is 1 / conductance^2 of the hot gas. If a flow needs more than 0.6 of the upstream
/// pressure, 0.95 of it is returned. `near` is as for [`drop`].
pub(super) fn drop_to(resistance: Dual, downstream_pa: f64, mass_flow: Dual, near: f64) -> Drop {
    let z = mass_flow * mass_flow * resistance * (1.0 / (downstream_pa * downstream_pa));
    let ratio = ratio_after(z, near);
    Drop { pa: ratio * downstream_pa / (Dual::constant(1.0) - ratio), ratio }
}

/// Solves x eps(x)^2 = z.
fn ratio_before(z: Dual, near: f64) -> Dual {
    const START: [f64; 4] = inverse(SQUARE);
    invert(z, near, START, |x| {
        let (eps, slope) = expansibility_and_slope(x);
        (x * eps * eps, eps * (eps + 2.0 * x * slope))
    })
}

/// Solves x eps(x)^2 / (1 - x)^2 = z.
fn ratio_after(z: Dual, near: f64) -> Dual {
    const START: [f64; 4] = inverse([
        SQUARE[0] + 2.0,
        SQUARE[1] + 2.0 * SQUARE[0] + 3.0,
        SQUARE[2] + 2.0 * SQUARE[1] + 3.0 * SQUARE[0] + 4.0,
    ]);
    invert(z, near, START, |x| {
        let (eps, slope) = expansibility_and_slope(x);
        let e = eps / (1.0 - x);
        (x * e * e, e * (e + 2.0 * x * (slope + e) / (1.0 - x)))
    })
}

/// Solves g(x) = z for a rising g with its slope: starts from `near`, or from a series if that is
/// zero, then uses Newton's method.
fn invert(z: Dual, near: f64, start: [f64; 4], g: impl Fn(f64) -> (f64, f64)) -> Dual {
    let goal = z.value;
    if goal <= 0.0 || goal.is_nan() {
        return Dual { value: 0.0, slope: z.slope };
    }
    if goal > 0.3 && goal >= g(SOUGHT_UP_TO).0 {
        return Dual::constant(LARGEST);
    }
    let mut x = if near > 0.0 && near < SOUGHT_UP_TO {
        near
    } else {
        let [a, b, c, d] = start;
        (goal * (a + goal * (b + goal * (c + goal * d)))).clamp(0.2 * goal, SOUGHT_UP_TO)
    };
    let mut slope = 1.0;
    for _ in 0..30 {
        let (value, rise) = g(x);
        slope = rise;
        let step = (value - goal) / rise;
        x = (x - step).clamp(0.0, SOUGHT_UP_TO);
        // The next step would be smaller than the last bit.
        if step.abs() <= 3e-7 * x {
            break;
        }
    }
    Dual { value: x, slope: z.slope / slope }
}

/// Expansibility and its derivative.
fn expansibility_and_slope(x: f64) -> (f64, f64) {
    let expansion = expansion(x);
    let slope = (1.0 - expansion) / (KAPPA * (1.0 - x));
    (1.0 - EXPANSION * expansion, -EXPANSION * slope)
}

/// 1 - (1 - x)^(1/1.4).
fn expansion(x: f64) -> f64 {
    if x <= SHORT_UP_TO {
        polynomial::<SHORT_TERMS>(x)
    } else if x <= SERIES_UP_TO {
        polynomial::<TERMS>(x)
    } else {
        1.0 - math::pow((1.0 - x).max(0.0), 1.0 / KAPPA)
    }
}

/// The first N terms of the series, odd and even ones side by side.
fn polynomial<const N: usize>(x: f64) -> f64 {
    let square = x * x;
    let (mut odd, mut even) = (0.0, 0.0);
    for pair in SERIES[..N].chunks_exact(2).rev() {
        odd = odd * square + pair[0];
        even = even * square + pair[1];
    }
    (odd + even * x) * x
}

/// Coefficients of 1 - (1 - x)^a: c1 = a, c(k+1) = c(k) (k - a) / (k + 1).
const fn binomial() -> [f64; TERMS] {
    let mut coefficients = [1.0 / KAPPA; TERMS];
    let mut k = 1;
    while k < TERMS {
        coefficients[k] = coefficients[k - 1] * (k as f64 - 1.0 / KAPPA) / (k as f64 + 1.0);
        k += 1;
    }
    coefficients
}

/// eps(x)^2 = 1 + b1 x + b2 x^2 + b3 x^3 + ...
const SQUARE: [f64; 3] = {
    let (e1, e2, e3) = (EXPANSION * SERIES[0], EXPANSION * SERIES[1], EXPANSION * SERIES[2]);
    [-2.0 * e1, e1 * e1 - 2.0 * e2, 2.0 * e1 * e2 - 2.0 * e3]
};

/// Series of the inverse of x (1 + b1 x + b2 x^2 + b3 x^3), from the first power on.
const fn inverse([b1, b2, b3]: [f64; 3]) -> [f64; 4] {
    [1.0, -b1, 2.0 * b1 * b1 - b2, 5.0 * b1 * b2 - 5.0 * b1 * b1 * b1 - b3]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_series_is_the_power() {
        for i in 1..400 {
            let x = f64::from(i) * 0.0005;
            let power = 1.0 - math::pow(1.0 - x, 1.0 / KAPPA);
            assert!((expansion(x) - power).abs() < 3e-16, "at {x}");
        }
    }

    #[test]
    fn the_inverses_undo_the_law() {
        for (i, near) in (1..600).flat_map(|i| [0.0, 1e-4, 0.3, 0.599].map(|near| (i, near))) {
            let x = f64::from(i) * 0.001;
            let eps = expansibility(x);
            let before = ratio_before(Dual::unknown(x * eps * eps), near);
            assert!((before.value / x - 1.0).abs() < 1e-12, "before, at {x}: {before:?}");
            let after = ratio_after(Dual::unknown(x * eps * eps / ((1.0 - x) * (1.0 - x))), near);
            assert!((after.value / x - 1.0).abs() < 1e-12, "after, at {x}: {after:?}");
        }
    }
}
