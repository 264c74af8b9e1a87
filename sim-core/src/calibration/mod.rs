//! The calculations of 40 CFR Part 50 Appendix B: transfer standard, calibration line, set point,
//! volume, concentration, and the limits for them.
//!
//! They are pure functions in the units of the trade: differential pressure in conventional inches
//! of water, flow in m3/min at standard conditions, minutes, grams. Temperature and pressure are
//! given as [`AirConditions`]. Standard conditions are those of the method, 298 K and 760 mmHg.

mod calibrate;
mod calibrated_point;
mod chart_term;
mod concentration;
mod conditions;
mod curve;
mod error;
mod line;
mod run_volume;
mod set_point;
mod student_t;
mod transfer_standard;
mod validity;

pub use calibrate::{Calibration, PointReading, calibrate};
pub use calibrated_point::CalibratedPoint;
pub use chart_term::{Basis, Expression, RecorderScale};
pub use concentration::{Concentration, FilterMasses, concentration};
pub use conditions::{AirConditions, STANDARD_PRESSURE_MMHG, STANDARD_TEMPERATURE_K};
pub use curve::Curve;
pub use error::SumError;
pub use line::{FittedLine, LineError, PredictionInterval};
pub use run_volume::{RunPart, RunVolume, run_volume};
pub use set_point::set_point;
pub use student_t::{LARGEST_CONFIDENCE, student_t_two_sided};
pub use transfer_standard::{
    StandardFit, StandardPoint, StandardRun, TransferStandard, fit_transfer_standard, root_term,
};
pub use validity::{
    AVERAGES_PRESSURE_WINDOW_MMHG, AVERAGES_TEMPERATURE_WINDOW_K, Concern, FEWEST_INSIDE,
    FEWEST_POINTS, HIGHEST_FLOW_M3_MIN, HIGHEST_FLOW_STD_M3_MIN, INTERCEPT_MOVED,
    LARGEST_OFF_LINE_M3_MIN, LEAST_CORRELATION, LOWEST_FLOW_M3_MIN, LOWEST_FLOW_STD_M3_MIN,
    Occasion, RUN_MINUTES, RUN_MINUTES_TOLERANCE, SLOPE_MOVED, ValidityProblem, averages_hold,
    averages_problems, range_is_covered, run_problems, standard_problems, target_problems,
};
