//! The control chart of a sampler: the percent differences of its flow checks over time, the limits
//! that follow from its own past, and what a new check shows beside them.
//!
//! The convention of this bench, after Shewhart's chart for individual values (NIST/SEMATECH
//! e-Handbook of Statistical Methods, 6.3.2, MEMORY):
//!
//! * The limits come from a base period: the first [`BASE_CHECKS`] flow checks of the history, of which
//!   the mean is the centre line and the sample standard deviation s the scatter (CHOSEN: twelve checks,
//!   a year of monthly ones).
//! * Warning limits lie 2 s and action limits 3 s from the centre line, on both sides.
//! * A signal stands if the last point is beyond an action limit, if it is one of two beyond the same
//!   warning limit among the last three, or if it ends six in a row that all rise or all fall (the
//!   published runs and trend rules of the same handbook, MEMORY).
//!
//! The limit of the work order is another matter: it says whether a check is passed on its day (±7
//! percent is usual for an audit; 40 CFR Part 58 App. A and the quality-assurance handbook, MEMORY).
//! A sampler can be within it on every day and still not be what it was.
//!
//! ```
//! use sim_core::control_chart::{BASE_CHECKS, ChartPoint, ChartReading, ControlChart};
//! use sim_core::time::Date;
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let first = Date::new(2024, 5, 28)?;
//! let past = |index: usize, difference_pct| {
//!     ChartPoint { date: first.later(28 * index as i64), difference_pct }
//! };
//! let mut points: Vec<ChartPoint> =
//!     (0..BASE_CHECKS).map(|index| past(index, [-2.0, -1.0][index % 2])).collect();
//! points.extend([past(12, 1.6), past(13, 1.4), past(14, 1.5)]);
//! let chart = ControlChart::of(points, None).ok_or("too few checks")?;
//! assert_eq!(chart.reading(), ChartReading::Jump);
//! # Ok(())
//! # }
//! ```

mod chart;
mod course;
mod reading;
mod signal;

pub use chart::{ACTION_SD, BASE_CHECKS, ChartLimits, ChartPoint, ControlChart, WARNING_SD};
pub use reading::ChartReading;
pub use signal::ChartSignal;
