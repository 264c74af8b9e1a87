//! Figures with their intervals.

use serde::Serialize;

use crate::trial::interval::{ConfidenceInterval, pass_rate};

/// A share of a count, with Wilson's interval at 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Share {
    /// How many.
    pub count: u64,
    /// Of how many.
    pub of: u64,
    /// The share and its interval.
    #[serde(flatten)]
    pub interval: ConfidenceInterval,
}

impl Share {
    /// So many of so many.
    pub fn new(count: u64, of: u64) -> Self {
        Self { count, of, interval: pass_rate(count, of) }
    }

    /// How many of these are true.
    pub fn of(these: impl IntoIterator<Item = bool>) -> Self {
        let (mut count, mut of) = (0, 0);
        for one in these {
            count += u64::from(one);
            of += 1;
        }
        Self::new(count, of)
    }
}

/// A figure with its interval at 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Estimate {
    /// The figure.
    pub value: f64,
    /// The lower end, if an interval can be given.
    pub low: Option<f64>,
    /// The upper end.
    pub high: Option<f64>,
}

impl Estimate {
    /// A figure with the interval that was found for it.
    pub fn new(value: f64, interval: Option<[f64; 2]>) -> Self {
        Self { value, low: interval.map(|[low, _]| low), high: interval.map(|[_, high]| high) }
    }
}
