//! The calculations of the field book, as far as they are done for whoever asks.

/// The calibration line of the readings in the book.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnSums {
    /// Each point's number, its flow in standard m3/min, and its corrected chart reading.
    pub points: Vec<(u8, f64, f64)>,
    /// Slope of the line.
    pub slope: f64,
    /// Its intercept.
    pub intercept: f64,
    /// Its correlation coefficient.
    pub correlation: f64,
}
