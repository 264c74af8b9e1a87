//! The only door to transcendental functions.
//!
//! `std`'s versions may differ from machine to machine and build to build in the last bit; those
//! of the pinned `libm` crate do not. Only `+ - * /`, `sqrt`, `abs`, `min`, `max` and rounding are
//! used from the standard library.

/// The ratio of a circle's circumference to its radius.
pub const TAU: f64 = core::f64::consts::TAU;
/// The ratio of a circle's circumference to its diameter.
pub const PI: f64 = core::f64::consts::PI;

/// e to the power x.
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// e to the power x, minus one.
pub fn exp_m1(x: f64) -> f64 {
    libm::expm1(x)
}

/// The natural logarithm.
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// The decimal logarithm.
pub fn log10(x: f64) -> f64 {
    libm::log10(x)
}

/// x to the power y.
pub fn pow(x: f64, y: f64) -> f64 {
    libm::pow(x, y)
}

/// Sine of an angle in radians.
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in radians.
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Tangent of an angle in radians.
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// Angle of the point (x, y), radians.
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Hyperbolic tangent.
pub fn tanh(x: f64) -> f64 {
    libm::tanh(x)
}

/// Length of the vector (x, y).
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}
