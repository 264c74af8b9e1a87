//! What can be wrong with the readings that go into a calculation.

use super::LineError;

/// Why a calculation is not possible. The message says what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SumError {
    /// A value is infinite or not a number, as given or as calculated.
    #[error("{what} is not a finite number: check the readings it comes from")]
    NotFinite {
        /// Which value.
        what: &'static str,
    },
    /// A value must be above zero.
    #[error("{what} is {value}, but it must be above zero")]
    NotPositive {
        /// Which value.
        what: &'static str,
        /// What it is.
        value: f64,
    },
    /// A value must be zero or more.
    #[error("{what} is {value}, but it cannot be below zero")]
    Negative {
        /// Which value.
        what: &'static str,
        /// What it is.
        value: f64,
    },
    /// The pressure drop of the volume meter is as large as the pressure of the air.
    #[error(
        "the pressure drop of {drop_mmhg} mmHg leaves nothing of the air pressure of {pressure_mmhg} mmHg: check both"
    )]
    DropTooLarge {
        /// The drop, mmHg.
        drop_mmhg: f64,
        /// The pressure of the air, mmHg.
        pressure_mmhg: f64,
    },
    /// The reading is below the intercept, where the line gives no flow.
    #[error(
        "the reading gives no flow, because its corrected value {term:.4} is not above the intercept {intercept:.4}: check the reading and the line"
    )]
    NoFlow {
        /// Root term or corrected chart reading.
        term: f64,
        /// Intercept of the line.
        intercept: f64,
    },
    /// The line does not rise with the flow.
    #[error("the slope is {slope}, but it must be above zero: check the order of the readings")]
    SlopeNotPositive {
        /// Slope of the line.
        slope: f64,
    },
    /// The filter weighs less after the run than before.
    #[error(
        "the filter lost {lost_g} g during the run: check which mass is which, and look for tears"
    )]
    MassLost {
        /// How much, g.
        lost_g: f64,
    },
    /// The run has no parts.
    #[error("the run has no chart reading: give at least one")]
    EmptyRun,
    /// One of several readings is wrong.
    #[error("{what} {number}: {source}")]
    At {
        /// `point`, `run`, `part`.
        what: &'static str,
        /// Its number, from 1.
        number: usize,
        /// What is wrong with it.
        source: Box<SumError>,
    },
    /// The line cannot be fitted.
    #[error(transparent)]
    Line(#[from] LineError),
}

impl SumError {
    /// The same error for one of several readings; `index` counts from zero.
    pub(super) fn at(self, what: &'static str, index: usize) -> Self {
        Self::At { what, number: index + 1, source: Box::new(self) }
    }
}

/// The value, if it is finite.
pub(super) fn finite(what: &'static str, value: f64) -> Result<f64, SumError> {
    if value.is_finite() { Ok(value) } else { Err(SumError::NotFinite { what }) }
}

/// The value, if it is finite and above zero.
pub(super) fn positive(what: &'static str, value: f64) -> Result<f64, SumError> {
    let value = finite(what, value)?;
    if value > 0.0 { Ok(value) } else { Err(SumError::NotPositive { what, value }) }
}

/// The value, if it is finite and zero or more.
pub(super) fn not_negative(what: &'static str, value: f64) -> Result<f64, SumError> {
    let value = finite(what, value)?;
    if value >= 0.0 { Ok(value) } else { Err(SumError::Negative { what, value }) }
}
