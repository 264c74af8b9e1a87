//! A calibration line to be judged.

use super::super::bench::{self, Written};
use super::super::draw::Draw;
use super::super::drawn::{Drawn, Truth};
use super::super::error::DrawError;
use super::super::seen::{Asked, DrillSheet, LineSheet};
use super::super::slip::DrillSlip;
use crate::calibration::{
    AirConditions, Calibration, Expression, HIGHEST_FLOW_STD_M3_MIN, LARGEST_OFF_LINE_M3_MIN,
    LOWEST_FLOW_STD_M3_MIN, PointReading, RecorderScale, TransferStandard, ValidityProblem,
    calibrate,
};
use crate::units::{Pressure, Temperature};

/// Points of a calibration.
const POINTS: usize = 7;
/// Draws that are tried until the line is clearly what was asked for.
const TRIED: u32 = 200;
/// So clear of its limit is every point, m3/min: nobody is asked about the last digit.
const CLEAR_M3_MIN: f64 = 0.004;
/// So clear of its end is the range, std m3/min.
const RANGE_CLEAR_M3_MIN: f64 = 0.03;

/// What is the matter with a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Matter {
    Nothing,
    OnePointOff,
    RangeShort,
}

/// The question.
pub(super) fn draw(draw: &mut Draw) -> Result<Drawn, DrawError> {
    let (bench, site) = bench::begin(draw, &Written::default())?;
    let conditions = AirConditions::new(
        Pressure::from_mmhg(site.pressure_mmhg),
        Temperature::from_c(site.temperature_c),
    )
    .map_err(DrawError::new)?;
    let papers = bench.papers();
    let paper = papers.certificates.first();
    let pair = paper.ok_or_else(|| DrawError::new("there is no certificate"))?.standard;
    let standard = TransferStandard::new(pair.slope, pair.intercept).map_err(DrawError::new)?;
    let matter = draw.one_of([
        Matter::Nothing,
        Matter::Nothing,
        Matter::OnePointOff,
        Matter::OnePointOff,
        Matter::RangeShort,
    ]);
    for _ in 0..TRIED {
        let off = draw.below(POINTS as u64) as usize;
        let readings = readings(draw, (standard, conditions), matter, off);
        let expression = Expression::actual(RecorderScale::SquareRoot);
        let Ok(line) = calibrate(&readings, standard, expression) else { continue };
        let Some(right) = verdict(&line, matter, off) else { continue };
        let sheet = LineSheet { points: line.points, line: line.line };
        let truth = Truth::Choice { right, choices: choices(matter) };
        let mut drawn = Drawn::of(bench, Asked::LineVerdict, Vec::new(), truth);
        drawn.sheet = Some(DrillSheet::Line(sheet));
        return Ok(drawn);
    }
    Err(DrawError::new("no line is clearly what was asked for"))
}

/// The readings of some points, of which one may be off, or the range too short.
fn readings(
    draw: &mut Draw,
    (standard, conditions): (TransferStandard, AirConditions),
    matter: Matter,
    off: usize,
) -> Vec<PointReading> {
    let (mut low, mut high) = (draw.between(0.98, 1.08), draw.between(1.74, 1.86));
    if matter == Matter::RangeShort {
        if draw.happens(0.5) {
            low = draw.between(1.2, 1.3)
        } else {
            high = draw.between(1.48, 1.6)
        }
    }
    let (slope, intercept) = (draw.between(34.0, 40.0), draw.between(-3.0, 3.0));
    (0..POINTS)
        .map(|number| {
            let share = number as f64 / (POINTS - 1) as f64;
            let even = high + (low - high) * share;
            let inner = number != 0 && number != POINTS - 1;
            let flow = if inner { even + draw.between(-0.02, 0.02) } else { even };
            let term = standard.slope() * flow + standard.intercept();
            let delta_h = term * term / conditions.to_standard();
            let wrong = matter == Matter::OnePointOff && number == off;
            let missed = if wrong { draw.side() * draw.between(2.2, 6.0) } else { 0.0 };
            let reads = slope * flow + intercept + 0.15 * draw.normal() + missed;
            PointReading {
                delta_h_inh2o: (delta_h * 20.0).round() / 20.0,
                chart: (2.0 * reads / conditions.to_standard().sqrt()).round() / 2.0,
                conditions,
            }
        })
        .collect()
}

/// Which of the choices is right, if the limits of the method say clearly so.
fn verdict(line: &Calibration, matter: Matter, off: usize) -> Option<usize> {
    let problems = line.problems(false);
    let near = |point: usize, limit: f64| {
        line.points.get(point).is_some_and(|one| one.residual_m3_min.abs() > limit)
    };
    let (least, most) = line.points.iter().fold((f64::MAX, f64::MIN), |(low, high), point| {
        (low.min(point.flow_std_m3_min), high.max(point.flow_std_m3_min))
    });
    let off_line = |problem: &ValidityProblem| matches!(problem, ValidityProblem::OffLine { .. });
    let short =
        |problem: &ValidityProblem| matches!(problem, ValidityProblem::RangeNotCovered { .. });
    let others_near = (0..POINTS)
        .filter(|&point| matter != Matter::OnePointOff || point != off)
        .all(|point| !near(point, LARGEST_OFF_LINE_M3_MIN - CLEAR_M3_MIN));
    match matter {
        Matter::Nothing => {
            let covered = least < LOWEST_FLOW_STD_M3_MIN && most > HIGHEST_FLOW_STD_M3_MIN;
            (problems.is_empty() && others_near && covered).then_some(0)
        }
        Matter::OnePointOff => {
            let alone = problems.len() == 1 && problems.iter().all(off_line);
            let clear = near(off, LARGEST_OFF_LINE_M3_MIN + CLEAR_M3_MIN);
            (alone && clear && others_near).then_some(off + 2)
        }
        Matter::RangeShort => {
            let alone = problems.len() == 1 && problems.iter().all(short);
            let clear = least > LOWEST_FLOW_STD_M3_MIN + RANGE_CLEAR_M3_MIN
                || most < HIGHEST_FLOW_STD_M3_MIN - RANGE_CLEAR_M3_MIN;
            (alone && clear && others_near).then_some(1)
        }
    }
}

/// Accept, refuse for its range, or take a point again; and the slip of each if it is wrong.
fn choices(matter: Matter) -> Vec<(String, DrillSlip)> {
    let wrong =
        if matter == Matter::Nothing { DrillSlip::FalseAlarm } else { DrillSlip::WrongPart };
    let mut choices = vec![("accept".to_owned(), DrillSlip::Missed), ("range".to_owned(), wrong)];
    choices.extend((1..=POINTS).map(|number| (format!("point-{number}"), wrong)));
    choices
}
