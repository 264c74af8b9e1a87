//! What can be wrong with the readings that go into a sum.

use super::LineError;

/// Why a sum cannot be worked out. The message says what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SumError {
    /// A value is infinite or not a number, as given or as it came out.
    #[error("{what} is not a finite number: check the readings it comes from")]
    NotFinite {
        /// Which value.
        what: &'static str,
    },
    /// A value has to be above zero.
    #[error("{what} is {value}: it has to be above zero")]
    NotPositive {
        /// Which value.
        what: &'static str,
        /// What it is.
        value: f64,
    },
    /// A value has to be zero or more.
    #[error("{what} is {value}: it cannot be below zero")]
    Negative {
        /// Which value.
        what: &'static str,
        /// What it is.
        value: f64,
    },
    /// The meter's pressure drop is as large as the pressure of the air.
    #[error("the pressure drop is {drop_mmhg} mmHg in air of {pressure_mmhg} mmHg: check both")]
    DropTooLarge {
        /// The drop, mmHg.
        drop_mmhg: f64,
        /// The pressure of the air, mmHg.
        pressure_mmhg: f64,
    },
    /// The reading lies below the intercept, where the line knows no flow.
    #[error(
        "the term {term:.4} gives no flow, the line starts at {intercept:.4}: check reading and line"
    )]
    NoFlow {
        /// Root term or chart term.
        term: f64,
        /// Intercept of the line.
        intercept: f64,
    },
    /// The term does not rise with the flow.
    #[error("the slope is {slope}: it has to be above zero, check the order of the readings")]
    SlopeNotPositive {
        /// Slope of the line.
        slope: f64,
    },
    /// The filter weighs less after the run than before.
    #[error("the filter lost {lost_g} g during the run: check which mass is which, and for tears")]
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
    /// Says which of several readings the error is about, `index` counted from zero.
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
