//! Phases G and H: the sums, the judgement, the set point.

use super::mind::{Mind, Phase, Progress};
use super::reckon::{self, Line};
use super::{Leads, Legs, Remarks, Scene, suspect};
use crate::field_book::{Field, PointNumber};
use crate::scenario::setup::LastLine;
use crate::session::action::{FaultPlace, Response};
use crate::units::ZERO_CELSIUS_K;

/// Least correlation coefficient (from memory; the regulation sets none).
const LEAST_CORRELATION: f64 = 0.990;
/// Farthest that a point may lie off the line, m3/min (from memory).
const FARTHEST_STD_M3_MIN: f64 = 0.04;
/// Farthest that the new line may be from the last one between the lowest and the middle flow, as a
/// part of the chart term (CHOSEN). Slope and intercept each scatter by more than that and lean
/// against each other; a leak, a short column and a blocked exit all show here.
const FARTHEST_FROM_LAST: f64 = 0.04;
/// Flows at which the lines are compared, m3/min.
const COMPARED_STD_M3_MIN: [f64; 2] = [1.13, 1.4];

/// Where a remark is made by one who sees faults everywhere.
const EVERYWHERE: [FaultPlace; 13] = [
    FaultPlace::Manometer,
    FaultPlace::Tube,
    FaultPlace::Calibrator,
    FaultPlace::Certificate,
    FaultPlace::Mounting,
    FaultPlace::Blower,
    FaultPlace::FlowController,
    FaultPlace::Recorder,
    FaultPlace::Barometer,
    FaultPlace::Thermometer,
    FaultPlace::Weather,
    FaultPlace::Filter,
    FaultPlace::Timer,
];

/// The sums.
#[derive(Debug)]
pub(super) struct Sums;

impl Phase for Sums {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        let line = reckoned(mind);
        if let Some(line) = line {
            judged(line, scene, mind);
        } else {
            mind.gives_up("there are too few points for a line");
        }
        if mind.habits.remarks == Remarks::Everywhere {
            for place in EVERYWHERE {
                mind.reports(place, Response::Noted, "does not look right");
            }
        }
        match (&mind.refusal, line) {
            (None, Some(line)) => {
                mind.writes(Field::Decision, "accepted");
                set_point(line, scene, mind);
            }
            (why, _) => {
                let why = why.clone().unwrap_or_default();
                mind.writes(Field::Decision, format!("refused: {why}"));
            }
        }
        let found: Vec<&str> = mind.reported.iter().map(|remark| remark.what.as_str()).collect();
        let text = if found.is_empty() {
            "Nothing was found wrong.".to_owned()
        } else {
            format!("Found: {}.", found.join("; "))
        };
        mind.writes(Field::Remarks, text);
        Progress::Finished
    }
}

/// Works out and writes every point's sums and the line through them.
fn reckoned(mind: &mut Mind) -> Option<Line> {
    let standard = mind.standard?;
    let factor = reckon::root_factor(mind.pressure_mmhg, mind.temperature_c);
    let mut points = Vec::new();
    for (read, number) in mind.points.clone().into_iter().zip(PointNumber::all()) {
        let flow = reckon::rounded(reckon::flow(read.delta_h_in, factor, standard), 3);
        let term = reckon::rounded(read.chart * factor, 2);
        mind.writes(Field::PointFlow(number), format!("{flow:.3}"));
        mind.writes(Field::ChartTerm(number), format!("{term:.2}"));
        points.push((flow, term));
    }
    let line = reckon::line(&points)?;
    mind.writes(Field::Expression, "I*sqrt(P/760*298/T)");
    mind.writes(Field::Slope, format!("{:.3}", line.slope));
    mind.writes(Field::Intercept, format!("{:.3}", line.intercept));
    mind.writes(Field::Correlation, format!("{:.5}", line.correlation));
    Some(line)
}

/// Judges the line by itself and against the last one.
fn judged(line: Line, scene: &Scene<'_>, mind: &mut Mind) {
    if line.correlation < LEAST_CORRELATION {
        mind.gives_up("the points do not lie on a line");
    }
    if line.worst > FARTHEST_STD_M3_MIN {
        mind.gives_up("a point lies more than 0.04 m3/min off the line");
    }
    // Who takes papers on trust compares with none.
    if mind.habits.certificate == Leads::OnTop || mind.refusal.is_some() {
        return;
    }
    let (Some(open), Some(standard)) = (mind.points.first(), mind.standard) else { return };
    let factor = reckon::root_factor(mind.pressure_mmhg, mind.temperature_c);
    let (pressure_mmhg, kelvin) = (mind.pressure_mmhg, mind.temperature_c + ZERO_CELSIUS_K);
    let flow = reckon::flow(open.delta_h_in, factor, standard);
    let chart_term = open.chart * factor;
    match &scene.papers.work_order.last_line {
        Some(last) if far_from(line, last) => {
            let chart_flow = (chart_term - last.intercept) / last.slope;
            let place = suspect::further_off(flow, chart_flow, pressure_mmhg, kelvin);
            mind.rejects(place, "the line is far from the last one, and no leak was found");
        }
        Some(_) if mind.habits.legs == Legs::Both => {
            suspect::weak_blower(flow, pressure_mmhg, kelvin, mind);
        }
        Some(_) | None => {}
    }
}

/// Whether two lines tell different flows.
fn far_from(line: Line, last: &LastLine) -> bool {
    COMPARED_STD_M3_MIN.iter().any(|flow| {
        let last_term = last.slope * flow + last.intercept;
        ((line.slope * flow + line.intercept) / last_term - 1.0).abs() > FARTHEST_FROM_LAST
    })
}

/// The chart reading to be held for the target flow at the conditions of the run.
fn set_point(line: Line, scene: &Scene<'_>, mind: &mut Mind) {
    let order = scene.papers.work_order;
    let target = order.target_flow_std_m3_min;
    let factor = reckon::root_factor(order.run_pressure_mmhg, order.run_temperature_c);
    if factor > 0.0 {
        let chart = (line.slope * target + line.intercept) / factor;
        mind.writes(Field::TargetFlow, format!("{target:.3}"));
        mind.writes(Field::SetPoint, format!("{chart:.1}"));
    }
}
