//! A number with its derivative, so that the equations of the flow path are written only once.

use core::ops::{Add, Div, Mul, Sub};

/// A value and its derivative with respect to the one unknown that is being solved for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Dual {
    pub value: f64,
    pub slope: f64,
}

impl Dual {
    /// A quantity that does not depend on the unknown.
    pub const fn constant(value: f64) -> Self {
        Self { value, slope: 0.0 }
    }

    /// The unknown itself.
    pub const fn unknown(value: f64) -> Self {
        Self { value, slope: 1.0 }
    }
}

impl Add for Dual {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { value: self.value + other.value, slope: self.slope + other.slope }
    }
}

impl Sub for Dual {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { value: self.value - other.value, slope: self.slope - other.slope }
    }
}

impl Mul for Dual {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self {
            value: self.value * other.value,
            slope: self.slope * other.value + self.value * other.slope,
        }
    }
}

impl Mul<f64> for Dual {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self { value: self.value * factor, slope: self.slope * factor }
    }
}

impl Div for Dual {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let inverse = 1.0 / other.value;
        let value = self.value * inverse;
        Self { value, slope: (self.slope - value * other.slope) * inverse }
    }
}
