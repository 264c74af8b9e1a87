//! The limits for a calibration and a run. Every limit that is not met is reported, not only the
//! first.

use super::{AirConditions, CalibratedPoint, FittedLine, StandardFit};

/// Lowest flow of a sample in the air of its run, m3/min (39 ft3/min; READ, 40 CFR Part 50 App. B, 7.2
/// and 8.8; that it is actual volume, footnote to 7.2.2 and 7.2.3, MEMORY).
pub const LOWEST_FLOW_M3_MIN: f64 = 1.1;
/// Highest flow of a sample in the air of its run, m3/min (60 ft3/min; sources as for the lowest).
pub const HIGHEST_FLOW_M3_MIN: f64 = 1.7;
/// How far the points may fall short of either end of the range, m3/min (CHOSEN: nobody sees the flow
/// before it is worked out, and the knob sets it to a twentieth).
const COVERED_M3_MIN: f64 = 0.06;
/// Lowest flow that a calibration covers, std m3/min (READ, 40 CFR Part 50 App. B, 9.2.5 and 9.3.8).
pub const LOWEST_FLOW_STD_M3_MIN: f64 = 1.1;
/// Highest flow that a calibration covers, std m3/min (READ, 40 CFR Part 50 App. B, 9.2.5 and 9.3.8).
pub const HIGHEST_FLOW_STD_M3_MIN: f64 = 1.7;
/// The correlation coefficient must be above this (MEMORY; the method itself sets no limit).
pub const LEAST_CORRELATION: f64 = 0.990;
/// Change of the intercept from the last line that needs an explanation, chart divisions (CHOSEN).
pub const INTERCEPT_MOVED: f64 = 4.4;
/// Change of the slope from the last line that needs an explanation, as a fraction of it (CHOSEN).
pub const SLOPE_MOVED: f64 = 0.05;
/// No point may be farther from the calibration line than this, m3/min (MEMORY).
pub const LARGEST_OFF_LINE_M3_MIN: f64 = 0.04;
/// Fewest points of a calibration (common practice, no source, for a sampler; 40 CFR Part 50 App. B,
/// 9.2.15, READ, asks five of a transfer standard).
pub const FEWEST_POINTS: usize = 5;
/// Fewest runs of a certification inside the range of flows (READ, 40 CFR Part 50 App. B, 9.2.5, which
/// is about the transfer standard; of a sampler's points 9.3.8 asks that they include the range).
pub const FEWEST_INSIDE: usize = 3;
/// Time of a run, minutes (READ, 40 CFR Part 50 App. B, 8.15).
pub const RUN_MINUTES: f64 = 1440.0;
/// How much longer or shorter a run may be, minutes (READ, 40 CFR Part 50 App. B, 8.15).
pub const RUN_MINUTES_TOLERANCE: f64 = 60.0;
/// Averages may be built into a line while the pressure stays this near to them, mmHg (READ,
/// 40 CFR Part 50 App. B, 9.3.9).
pub const AVERAGES_PRESSURE_WINDOW_MMHG: f64 = 60.0;
/// Averages may be built into a line while the temperature stays this near to them, K (READ,
/// 40 CFR Part 50 App. B, 9.3.9).
pub const AVERAGES_TEMPERATURE_WINDOW_K: f64 = 15.0;

/// Comparisons allow for rounding in the conversion of units, so that a value on a limit is inside.
const ROUNDING: f64 = 1e-9;

/// A limit that is not met. The message says what to do.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ValidityProblem {
    /// The transfer standard was certified with too few runs.
    #[error(
        "the transfer standard was certified with {found} runs, but {FEWEST_POINTS} are needed: certify it again"
    )]
    TooFewRuns {
        /// How many there are.
        found: usize,
    },
    /// Too few runs of the transfer standard are inside the range of flows.
    #[error(
        "{found} runs of the transfer standard are between {LOWEST_FLOW_STD_M3_MIN} and \
         {HIGHEST_FLOW_STD_M3_MIN} std m3/min, but {FEWEST_INSIDE} are needed (40 CFR Part 50, \
         App. B, 9.2.5): certify it again over that range"
    )]
    TooFewRunsInside {
        /// How many do.
        found: usize,
    },
    /// The calibration has too few points.
    #[error("there are {found} points, but a calibration needs {FEWEST_POINTS}: take more")]
    TooFewPoints {
        /// How many there are.
        found: usize,
    },
    /// The points do not include the range of flows.
    #[error(
        "the points reach from {least_m3_min:.2} to {most_m3_min:.2} std m3/min, but must include \
         {LOWEST_FLOW_STD_M3_MIN} to {HIGHEST_FLOW_STD_M3_MIN} std m3/min (40 CFR Part 50, App. B, \
         9.3.8): take more, or write `fully_open: true` if the highest is all that the blower gives"
    )]
    RangeNotCovered {
        /// The lowest flow, std m3/min.
        least_m3_min: f64,
        /// The highest flow, std m3/min.
        most_m3_min: f64,
    },
    /// The points do not follow a line closely enough.
    #[error("r is {r:.5}, but it must be above {LEAST_CORRELATION}: repeat the calibration")]
    LowCorrelation {
        /// Correlation coefficient.
        r: f64,
    },
    /// A point is too far from the calibration line.
    #[error(
        "point {number} is {off_m3_min:+.3} m3/min from the calibration line, but at most \
         {LARGEST_OFF_LINE_M3_MIN} m3/min is allowed: read it again"
    )]
    OffLine {
        /// Its number, from 1.
        number: usize,
        /// How far, m3/min.
        off_m3_min: f64,
    },
    /// The pressure is too far from the average built into the line.
    #[error(
        "the pressure {during} is {off_mmhg:+.1} mmHg from the average, but at most \
         {AVERAGES_PRESSURE_WINDOW_MMHG} mmHg is allowed: correct each reading with actual values"
    )]
    PressureFromAverage {
        /// When.
        during: Occasion,
        /// How far, mmHg.
        off_mmhg: f64,
    },
    /// The temperature is too far from the average built into the line.
    #[error(
        "the temperature {during} is {off_k:+.1} K from the average, but at most \
         {AVERAGES_TEMPERATURE_WINDOW_K} K is allowed: correct each reading with actual values"
    )]
    TemperatureFromAverage {
        /// When.
        during: Occasion,
        /// How far, K.
        off_k: f64,
    },
    /// The target flow is outside the range.
    #[error(
        "the target flow is {flow_m3_min:.3} m3/min in the air of the run, which is not between \
         {LOWEST_FLOW_M3_MIN} and {HIGHEST_FLOW_M3_MIN} m3/min (39 to 60 ft3/min; 40 CFR Part 50, \
         App. B, 7.2 and 8.8): choose another"
    )]
    TargetOutside {
        /// Target flow in the air of the run, m3/min.
        flow_m3_min: f64,
    },
    /// The mean flow of the run is outside the range.
    #[error(
        "the mean flow was {flow_m3_min:.3} m3/min in the air of the run, which is not between \
         {LOWEST_FLOW_M3_MIN} and {HIGHEST_FLOW_M3_MIN} m3/min (39 to 60 ft3/min; 40 CFR Part 50, \
         App. B, 7.2 and 8.8): the sample is not valid"
    )]
    FlowOutside {
        /// Mean flow in the air of the run, m3/min.
        flow_m3_min: f64,
    },
    /// The run was too short or too long.
    #[error(
        "the run lasted {minutes:.0} min, which is not within {RUN_MINUTES_TOLERANCE} min of \
         {RUN_MINUTES} min (40 CFR Part 50, App. B, 8.15): the sample is not valid"
    )]
    TimeOutside {
        /// Time, minutes.
        minutes: f64,
    },
}

/// The occasion to which conditions belong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Occasion {
    /// At a point of the calibration, numbered from 1.
    Point(usize),
    /// At the set point.
    SetPoint,
    /// During the run.
    Run,
}

impl std::fmt::Display for Occasion {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Point(number) => write!(f, "at point {number}"),
            Self::SetPoint => f.write_str("at the set point"),
            Self::Run => f.write_str("during the run"),
        }
    }
}

/// What a problem calls into question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Concern {
    /// The calibration: it must not be used.
    Calibration,
    /// The set point; the calibration is still good.
    SetPoint,
    /// The run: its sample is not valid; the calibration is still good.
    Run,
}

impl ValidityProblem {
    /// What the problem calls into question.
    pub const fn concern(self) -> Concern {
        match self {
            Self::TooFewRuns { .. }
            | Self::TooFewRunsInside { .. }
            | Self::TooFewPoints { .. }
            | Self::RangeNotCovered { .. }
            | Self::LowCorrelation { .. }
            | Self::OffLine { .. } => Concern::Calibration,
            Self::TargetOutside { .. } => Concern::SetPoint,
            Self::FlowOutside { .. } | Self::TimeOutside { .. } => Concern::Run,
            Self::PressureFromAverage { during, .. }
            | Self::TemperatureFromAverage { during, .. } => match during {
                Occasion::Point(_) => Concern::Calibration,
                Occasion::SetPoint => Concern::SetPoint,
                Occasion::Run => Concern::Run,
            },
        }
    }

    /// An identifier for the kind of problem, which stays the same from version to version.
    pub const fn kind(self) -> &'static str {
        match self {
            Self::TooFewRuns { .. } => "too_few_runs",
            Self::TooFewRunsInside { .. } => "too_few_runs_inside",
            Self::TooFewPoints { .. } => "too_few_points",
            Self::RangeNotCovered { .. } => "range_not_covered",
            Self::LowCorrelation { .. } => "low_correlation",
            Self::OffLine { .. } => "off_line",
            Self::PressureFromAverage { .. } => "pressure_from_average",
            Self::TemperatureFromAverage { .. } => "temperature_from_average",
            Self::TargetOutside { .. } => "target_outside",
            Self::FlowOutside { .. } => "flow_outside",
            Self::TimeOutside { .. } => "time_outside",
        }
    }
}

/// Every limit that the certification of a transfer standard does not meet.
pub fn standard_problems(fit: &StandardFit) -> Vec<ValidityProblem> {
    let found = fit.points.len();
    let inside = fit.points.iter().filter(|point| flow_inside(point.flow_std_m3_min)).count();
    let mut problems = Vec::new();
    if found < FEWEST_POINTS {
        problems.push(ValidityProblem::TooFewRuns { found });
    }
    if inside < FEWEST_INSIDE {
        problems.push(ValidityProblem::TooFewRunsInside { found: inside });
    }
    problems
}

/// Every limit that a calibration does not meet. Where its highest flow was read with the knob fully
/// open, the range ends where the blower does.
pub(super) fn calibration_problems(
    line: &FittedLine,
    points: &[CalibratedPoint],
    fully_open: bool,
) -> Vec<ValidityProblem> {
    let found = points.len();
    let flows = || points.iter().map(|point| point.flow_std_m3_min);
    let least_m3_min = flows().fold(f64::INFINITY, f64::min);
    let most_m3_min = flows().fold(f64::NEG_INFINITY, f64::max);
    let mut problems = Vec::new();
    if found < FEWEST_POINTS {
        problems.push(ValidityProblem::TooFewPoints { found });
    }
    if !range_is_covered(least_m3_min, most_m3_min, fully_open) {
        problems.push(ValidityProblem::RangeNotCovered { least_m3_min, most_m3_min });
    }
    if line.r <= LEAST_CORRELATION {
        problems.push(ValidityProblem::LowCorrelation { r: line.r });
    }
    problems.extend(points.iter().enumerate().filter_map(|(index, point)| {
        let off_m3_min = point.residual_m3_min;
        let far = off_m3_min.abs() > LARGEST_OFF_LINE_M3_MIN + ROUNDING;
        far.then_some(ValidityProblem::OffLine { number: index + 1, off_m3_min })
    }));
    problems
}

/// Every way in which conditions are too far from the averages built into a line.
pub fn averages_problems(
    averages: AirConditions,
    actual: AirConditions,
    during: Occasion,
) -> Vec<ValidityProblem> {
    let off_mmhg = (actual.pressure() - averages.pressure()).mmhg();
    let off_k = actual.temperature().k() - averages.temperature().k();
    let mut problems = Vec::new();
    if off_mmhg.abs() > AVERAGES_PRESSURE_WINDOW_MMHG + ROUNDING {
        problems.push(ValidityProblem::PressureFromAverage { during, off_mmhg });
    }
    if off_k.abs() > AVERAGES_TEMPERATURE_WINDOW_K + ROUNDING {
        problems.push(ValidityProblem::TemperatureFromAverage { during, off_k });
    }
    problems
}

/// Whether conditions are near enough to the averages built into a line for it to be used as it is
/// (READ, 40 CFR Part 50 App. B, 9.3.9).
pub fn averages_hold(averages: AirConditions, actual: AirConditions) -> bool {
    averages_problems(averages, actual, Occasion::Run).is_empty()
}

/// Every limit that a target flow, in the air of the run, does not meet.
pub fn target_problems(flow_m3_min: f64) -> Vec<ValidityProblem> {
    if sample_flow_is_inside(flow_m3_min) {
        Vec::new()
    } else {
        vec![ValidityProblem::TargetOutside { flow_m3_min }]
    }
}

/// Every limit that a run does not meet, with its mean flow in its own air.
pub fn run_problems(mean_flow_m3_min: f64, minutes: f64) -> Vec<ValidityProblem> {
    let mut problems = Vec::new();
    if !sample_flow_is_inside(mean_flow_m3_min) {
        problems.push(ValidityProblem::FlowOutside { flow_m3_min: mean_flow_m3_min });
    }
    if (minutes - RUN_MINUTES).abs() > RUN_MINUTES_TOLERANCE + ROUNDING {
        problems.push(ValidityProblem::TimeOutside { minutes });
    }
    problems
}

/// Whether the flow of a sample is inside its range, including the ends.
fn sample_flow_is_inside(flow_m3_min: f64) -> bool {
    (LOWEST_FLOW_M3_MIN - ROUNDING..=HIGHEST_FLOW_M3_MIN + ROUNDING).contains(&flow_m3_min)
}

/// Whether points between two flows include the range of a calibration. Where the highest is all that
/// the blower gives with the knob fully open, the range ends there.
pub fn range_is_covered(least_std_m3_min: f64, most_std_m3_min: f64, fully_open: bool) -> bool {
    let low = least_std_m3_min <= LOWEST_FLOW_STD_M3_MIN + COVERED_M3_MIN;
    let high = most_std_m3_min >= HIGHEST_FLOW_STD_M3_MIN - COVERED_M3_MIN;
    low && (high || fully_open)
}

/// Whether a flow is inside the range that a calibration covers, including its ends.
fn flow_inside(flow_std_m3_min: f64) -> bool {
    (LOWEST_FLOW_STD_M3_MIN - ROUNDING..=HIGHEST_FLOW_STD_M3_MIN + ROUNDING)
        .contains(&flow_std_m3_min)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Pressure, Temperature};

    fn point(flow_std_m3_min: f64, residual_m3_min: f64) -> CalibratedPoint {
        CalibratedPoint { flow_std_m3_min, chart_term: 40.0, residual_m3_min }
    }

    fn kinds(problems: &[ValidityProblem]) -> Vec<&'static str> {
        problems.iter().map(|problem| problem.kind()).collect()
    }

    #[test]
    fn every_broken_limit_is_told() {
        let line = FittedLine::fit(&[(1.0, 1.0), (2.0, 3.0), (3.0, 2.0)]).unwrap();
        let points = [point(1.3, 0.0), point(1.8, -0.041), point(1.2, 0.04)];
        let problems = calibration_problems(&line, &points, false);
        assert_eq!(
            kinds(&problems),
            ["too_few_points", "range_not_covered", "low_correlation", "off_line"]
        );
        assert!(problems.iter().all(|problem| problem.concern() == Concern::Calibration));
    }

    #[test]
    fn points_cover_the_range_or_what_the_blower_gives_of_it() {
        assert!(range_is_covered(1.1, 1.7, false) && range_is_covered(0.9, 1.9, false));
        // As near as a knob sets it.
        assert!(range_is_covered(1.16, 1.64, false));
        assert!(!range_is_covered(1.17, 1.7, false) && !range_is_covered(1.17, 1.7, true));
        assert!(!range_is_covered(1.1, 1.6, false) && range_is_covered(1.1, 1.6, true));
    }

    #[test]
    fn the_ends_of_a_range_belong_to_it() {
        for (flow, minutes) in [(1.1, 1380.0), (1.7, 1500.0)] {
            assert_eq!(run_problems(flow, minutes), []);
            assert_eq!(target_problems(flow), []);
        }
        for (flow, minutes) in [(1.0999, 1379.9), (1.7001, 1500.1), (f64::NAN, 0.0)] {
            assert_eq!(kinds(&run_problems(flow, minutes)), ["flow_outside", "time_outside"]);
            assert_eq!(kinds(&target_problems(flow)), ["target_outside"]);
        }
    }

    #[test]
    fn averages_hold_within_their_window_only() {
        let air = |mmhg, c| {
            AirConditions::new(Pressure::from_mmhg(mmhg), Temperature::from_c(c)).unwrap()
        };
        let averages = air(700.0, 10.0);
        assert_eq!(averages_problems(averages, air(760.0, 25.0), Occasion::Run), []);
        assert_eq!(averages_problems(averages, air(640.0, -5.0), Occasion::Run), []);
        assert_eq!(
            kinds(&averages_problems(averages, air(761.0, 26.0), Occasion::Point(2))),
            ["pressure_from_average", "temperature_from_average"]
        );
    }
}
