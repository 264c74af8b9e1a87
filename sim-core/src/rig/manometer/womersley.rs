//! The oscillation of a liquid in a U-shaped tube, with the friction of oscillating laminar flow.

use super::complex::Complex;

/// How a displaced column comes to rest: x ~ exp(-decay t) cos(damped t).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Oscillation {
    /// Frequency of the decaying oscillation, rad/s.
    pub damped_rad_s: f64,
    /// Decay rate of its amplitude, 1/s.
    pub decay_1_s: f64,
}

/// The slowest oscillation of a column whose frequency without friction is `inviscid_rad_s`.
///
/// w^2 = w0^2 (1 - F), F = 2 J1(z) / (z J0(z)), z = i^1.5 (d/2) sqrt(w/nu), solved for the complex
/// w = damped + i decay by Newton's method with the exact derivative. `w0` (rad/s) is the frequency
/// without friction, `bore_m` (m) the diameter d, `viscosity_m2_s` (m2/s) the kinematic viscosity
/// nu, J0 and J1 are Bessel functions.
///
/// Range: laminar flow, bores of 4 to 30 mm with water. `None` if no oscillation is found, as in
/// bores so narrow that the column only creeps.
///
/// Source: oscillating laminar pipe flow, J. R. Womersley, J. Physiol. 127 (1955) 553 (MEMORY).
pub fn oscillation(inviscid_rad_s: f64, bore_m: f64, viscosity_m2_s: f64) -> Option<Oscillation> {
    const PASSES: usize = 40;
    let square = inviscid_rad_s * inviscid_rad_s;
    let mut w = Complex::new(0.9 * inviscid_rad_s, 0.12 * inviscid_rad_s);
    for _ in 0..PASSES {
        let z = i_to_three_halves().scaled(0.5 * bore_m) * w.scaled(1.0 / viscosity_m2_s).sqrt();
        let (j0, j1) = bessel_j0_j1(z);
        let quotient = j1 / j0;
        let share = quotient.scaled(2.0) / z;
        let miss = w * w - (Complex::ONE - share).scaled(square);
        // dF/dz = (2/z) (1 - F + (J1/J0)^2) and dz/dw = z/(2 w).
        let slope =
            w.scaled(2.0) + ((Complex::ONE - share) + quotient * quotient).scaled(square) / w;
        let change = miss / slope;
        w = w - change;
        if !w.is_finite() || w.re <= 0.0 || w.im <= 0.0 {
            return None;
        }
        if change.magnitude() <= 1e-13 * w.magnitude() {
            return Some(Oscillation { damped_rad_s: w.re, decay_1_s: w.im });
        }
    }
    None
}

/// i to the power 3/2: (-1 + i)/sqrt 2.
const fn i_to_three_halves() -> Complex {
    Complex::new(-core::f64::consts::FRAC_1_SQRT_2, core::f64::consts::FRAC_1_SQRT_2)
}

/// The Bessel functions J0 and J1 of the first kind, by their power series.
///
/// J0 = sum (-z^2/4)^k / (k!)^2, J1 = (z/2) sum (-z^2/4)^k / (k! (k+1)!) (MEMORY). On the diagonal
/// of the complex plane, where they are used, terms cancel by less than exp(0.3 |z|), so that at
/// |z| = 30 eleven digits remain.
fn bessel_j0_j1(z: Complex) -> (Complex, Complex) {
    const TERMS: u32 = 120;
    let quarter = (z * z).scaled(-0.25);
    let (mut j0, mut j1) = (Complex::ONE, Complex::ONE);
    let (mut term0, mut term1) = (Complex::ONE, Complex::ONE);
    for k in 1..=TERMS {
        let k = f64::from(k);
        term0 = (term0 * quarter).scaled(1.0 / (k * k));
        term1 = (term1 * quarter).scaled(1.0 / (k * (k + 1.0)));
        j0 = j0 + term0;
        j1 = j1 + term1;
        if term0.magnitude() < 1e-17 * j0.magnitude() {
            break;
        }
    }
    (j0, j1 * z.scaled(0.5))
}

#[cfg(test)]
mod tests {
    use super::{bessel_j0_j1, oscillation};
    use crate::rig::manometer::complex::Complex;

    /// J0(2) and J1(2) as tables print them; J0(i) is the modified function I0(1) (MEMORY).
    #[test]
    fn bessel_functions_have_their_tabled_values() {
        let (j0, j1) = bessel_j0_j1(Complex::new(2.0, 0.0));
        assert!((j0.re - 0.223_890_779_141_236).abs() < 1e-14);
        assert!((j1.re - 0.576_724_807_756_873).abs() < 1e-14);
        let (i0, _) = bessel_j0_j1(Complex::new(0.0, 1.0));
        assert!((i0.re - 1.266_065_877_752_008).abs() < 1e-14);
    }

    #[test]
    fn a_capillary_only_creeps() {
        assert_eq!(oscillation(3.8, 0.5e-3, 1e-6), None);
    }
}
