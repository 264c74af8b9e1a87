//! What a person can answer and do in a drill.

use serde::{Deserialize, Serialize};

use crate::session::action::BarometerReference;

/// An answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// A number, in the unit that is asked for.
    Number(f64),
    /// One of the choices, by its name.
    Choice(String),
}

/// Something that is done to see better, before the answer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum DrillMove {
    /// The eye is brought to this height above what is read, mm.
    Eye {
        /// Height above it, mm; negative below.
        eye_mm: f64,
    },
    /// The barometer's index is set.
    SetBarometer {
        /// To which pressure.
        to: BarometerReference,
    },
    /// The reading is had in words, as on the bench.
    ReadInWords,
}
