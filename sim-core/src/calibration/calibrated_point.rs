//! One calibration point, calculated from its readings.

/// One calibration point, calculated from its readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibratedPoint {
    /// Flow by the transfer standard, std m3/min.
    pub flow_std_m3_min: f64,
    /// The corrected chart reading that is plotted against it.
    pub chart_term: f64,
    /// Its distance from the line along the flow axis, std m3/min.
    pub residual_m3_min: f64,
}
