//! One point of a calibration, worked out.

/// One point of a calibration worked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibratedPoint {
    /// Flow by the transfer standard, std m3/min.
    pub flow_std_m3_min: f64,
    /// The chart term plotted against it.
    pub chart_term: f64,
    /// How far it lies off the line along the flow, std m3/min.
    pub residual_m3_min: f64,
}
