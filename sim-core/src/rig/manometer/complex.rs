//! Complex numbers, as far as the oscillating water column needs them.

use core::ops::{Add, Div, Mul, Sub};

use crate::math;

/// A complex number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Complex {
    /// Real part.
    pub re: f64,
    /// Imaginary part.
    pub im: f64,
}

impl Complex {
    /// One.
    pub const ONE: Self = Self::new(1.0, 0.0);

    /// re + i im.
    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }

    /// Its absolute value.
    pub fn magnitude(self) -> f64 {
        math::hypot(self.re, self.im)
    }

    /// This number times a real one.
    pub fn scaled(self, factor: f64) -> Self {
        Self::new(self.re * factor, self.im * factor)
    }

    /// The square root with a real part of zero or more.
    pub fn sqrt(self) -> Self {
        // The larger part is a sum without cancellation; the smaller one follows from their
        // product.
        let larger = (0.5 * (self.magnitude() + self.re.abs())).sqrt();
        if larger <= 0.0 {
            return Self::new(0.0, 0.0);
        }
        let smaller = 0.5 * self.im / larger;
        if self.re >= 0.0 {
            Self::new(larger, smaller)
        } else {
            Self::new(smaller.abs(), if self.im < 0.0 { -larger } else { larger })
        }
    }

    /// Whether both parts are finite.
    pub const fn is_finite(self) -> bool {
        self.re.is_finite() && self.im.is_finite()
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(self.re * other.re - self.im * other.im, self.re * other.im + self.im * other.re)
    }
}

impl Div for Complex {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let square = other.re * other.re + other.im * other.im;
        Self::new(
            (self.re * other.re + self.im * other.im) / square,
            (self.im * other.re - self.re * other.im) / square,
        )
    }
}

#[cfg(test)]
mod tests {
    use super::Complex;

    #[test]
    fn a_root_squared_is_the_number_and_a_quotient_undoes_a_product() {
        for z in [Complex::new(3.0, -4.0), Complex::new(-2.0, 0.5), Complex::new(-1.0, -1e-3)] {
            assert!((z.sqrt() * z.sqrt() - z).magnitude() < 1e-14);
            let other = Complex::new(0.3, -7.0);
            assert!((z * other / other - z).magnitude() < 1e-14);
        }
    }
}
