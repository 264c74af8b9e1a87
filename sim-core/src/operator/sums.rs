//! Phases G and H: the calculations, the decision, the set point.

use super::memory::{Memory, OperatorPhase, PhaseProgress, Suspicion};
use super::{Leads, Legs, Observation, Practice, Remarks, Targets, arithmetic, averages, suspect};
use crate::calibration::{
    AirConditions, Curve, FittedLine, INTERCEPT_MOVED, LARGEST_OFF_LINE_M3_MIN, LEAST_CORRELATION,
    SLOPE_MOVED,
};
use crate::field_book::{Field, PointNumber};
use crate::scenario::setup::LastLine;
use crate::session::action::{Decision, FaultPlace, Response};

/// By what part of the corrected chart reading the new line may differ from the last one, between
/// the lowest and the middle flow (CHOSEN). Slope and intercept each scatter by more, but their
/// scatter largely cancels; a leak, a short column and a blocked exhaust all show here.
const FARTHEST_FROM_LAST: f64 = 0.04;
/// Flows at which the lines are compared, m3/min.
const COMPARED_STD_M3_MIN: [f64; 2] = [1.13, 1.4];

/// The calculations.
#[derive(Debug)]
pub(super) struct SumsPhase;

impl OperatorPhase for SumsPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let alone = observed.papers.work_order.is_check_alone();
        let own = if alone { None } else { reckoned(observed, memory) };
        let mut near_the_last = false;
        if let Some(own) = &own {
            near_the_last = judged(own, observed, memory);
        } else if !alone {
            memory
                .thinks(format!("{} points were taken: too few for a line.", memory.points.len()));
            memory.gives_up("there are too few points for a line");
        }
        if memory.habits.remarks == Remarks::Everywhere {
            for place in FaultPlace::ALL {
                memory.reports(Suspicion::unknown(place), Response::Noted, "does not look right");
            }
        }
        match (&memory.refusal, own) {
            (None, Some(own)) => {
                let line_moved = near_the_last && has_moved(&own, observed, memory);
                let why = if line_moved { "it gives the flows of the last one" } else { "" };
                memory.decides(Decision::CalibrationAccepted { line_moved }, why);
                memory.line = Some(own.line);
                set_point(&own, observed, memory);
            }
            (None, None) if alone => {}
            (why, _) => {
                let why = why.clone().unwrap_or_default();
                memory.decides(Decision::CalibrationRefused, &why);
            }
        }
        let found: Vec<&str> = memory.reported.iter().map(|remark| remark.seen.as_str()).collect();
        let mut text = if found.is_empty() {
            "Nothing was found wrong.".to_owned()
        } else {
            format!("Found: {}.", found.join("; "))
        };
        if near_the_last {
            text.push_str(" The line tells the flows of the last one.");
        }
        text.push_str(averages::remark(observed, memory).unwrap_or_default());
        memory.writes(Field::Remarks, text);
        PhaseProgress::Finished
    }
}

/// The operator's line and its points, flow and corrected chart reading.
struct Own {
    line: FittedLine,
    points: Vec<(f64, f64)>,
}

/// Calculates and writes flow and corrected chart reading of every point, and the line through
/// them.
fn reckoned(observed: &Observation<'_>, memory: &mut Memory) -> Option<Own> {
    let (standard, air) = (memory.standard?, memory.air()?);
    averages::chosen(air, observed, memory);
    let mut points = Vec::new();
    for (read, number) in memory.points.clone().into_iter().zip(PointNumber::all()) {
        let flow = arithmetic::rounded(arithmetic::flow(read.delta_h_in, air, standard), 3);
        let term = arithmetic::rounded(arithmetic::term(memory.expression, read.chart, air), 2);
        memory.writes(Field::PointFlow(number), format!("{flow:.3}"));
        memory.writes(Field::ChartTerm(number), format!("{term:.2}"));
        points.push((flow, term));
    }
    let line = FittedLine::fit(&points).ok()?;
    memory.writes(Field::Expression, arithmetic::words(memory.expression));
    memory.writes(Field::Slope, format!("{:.3}", line.slope));
    memory.writes(Field::Intercept, format!("{:.3}", line.intercept));
    memory.writes(Field::Correlation, format!("{:.5}", line.r));
    Some(Own { line, points })
}

/// Judges the line by itself and against the last one. True if it was compared and found near the
/// last one.
fn judged(own: &Own, observed: &Observation<'_>, memory: &mut Memory) -> bool {
    memory.thinks(format!(
        "The line through {} points has slope {:.3}, intercept {:.3} and correlation {:.5} (at least {LEAST_CORRELATION}); \
         the farthest point is {:.3} m3/min off it (at most {LARGEST_OFF_LINE_M3_MIN:.2}).",
        own.points.len(),
        own.line.slope,
        own.line.intercept,
        own.line.r,
        own.line.farthest_along_x(&own.points)
    ));
    if own.line.r < LEAST_CORRELATION {
        memory.gives_up("the points do not lie on a line");
    }
    if own.line.farthest_along_x(&own.points) > LARGEST_OFF_LINE_M3_MIN {
        memory.gives_up("a point lies more than 0.04 m3/min off the line");
    }
    // An operator who trusts the papers compares the line with none of them.
    let trusts =
        memory.habits.certificate == Leads::OnTop || memory.habits.comparing == Practice::Skipped;
    if trusts || memory.refusal.is_some() {
        return false;
    }
    let (Some(open), Some(standard)) = (memory.points.first(), memory.standard) else {
        return false;
    };
    let Some(air) = memory.air() else { return false };
    let flow = arithmetic::flow(open.delta_h_in, air, standard);
    // The last line was made on the charts that belong on the recorder.
    let scale = memory.chart_scale;
    let chart_term = arithmetic::term(memory.expression, open.chart * scale, air);
    let line = FittedLine {
        slope: own.line.slope * scale,
        intercept: own.line.intercept * scale,
        ..own.line
    };
    let last_line = averages::last_line(observed.papers.work_order, memory);
    let last_line = last_line.as_ref();
    memory.thinks(last_line.map_or_else(
        || "The order names no earlier line with which this one could be compared.".to_owned(),
        |last| {
            format!(
                "The corrected chart reading differs from the last line of {} by up to {:.1} % (at most {:.0} %).",
                last.date,
                100.0 * farthest_from(&line, last),
                100.0 * FARTHEST_FROM_LAST
            )
        },
    ));
    match last_line {
        Some(last) if far_from(&line, last) => {
            let chart_flow = (chart_term - last.intercept) / last.slope;
            let place = suspect::further_off(flow, chart_flow, air);
            memory.thinks(format!(
                "Fully open, the manometer gives {flow:.3} m3/min and the pen with the last line {chart_flow:.3} m3/min: \
                 the {} is further from what is usual.",
                place.words()
            ));
            memory.rejects(
                Suspicion::unknown(place),
                "the line is far from the last one, and no leak was found",
            );
            return false;
        }
        Some(_) if memory.habits.legs == Legs::Both => suspect::weak_blower(flow, air, memory),
        Some(_) | None => {}
    }
    observed.papers.work_order.last_line.is_some()
}

/// Whether slope or intercept differ so much from the last line that it needs a word.
fn has_moved(own: &Own, observed: &Observation<'_>, memory: &Memory) -> bool {
    averages::last_line(observed.papers.work_order, memory).is_some_and(|last| {
        (own.line.intercept - last.intercept).abs() > INTERCEPT_MOVED
            || (own.line.slope / last.slope - 1.0).abs() > SLOPE_MOVED
    })
}

/// Whether two lines give different flows.
fn far_from(line: &FittedLine, last: &LastLine) -> bool {
    farthest_from(line, last) > FARTHEST_FROM_LAST
}

/// By what part the corrected chart readings of two lines differ at most.
fn farthest_from(line: &FittedLine, last: &LastLine) -> f64 {
    let apart = |flow: &f64| (line.y_at(*flow) / (last.slope * flow + last.intercept) - 1.0).abs();
    COMPARED_STD_M3_MIN.iter().map(apart).fold(0.0, f64::max)
}

/// Calculates and writes the chart reading that gives the target flow at the conditions of the run.
fn set_point(own: &Own, observed: &Observation<'_>, memory: &mut Memory) {
    let order = observed.papers.work_order;
    let air = AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c);
    let target = match (order.target_flow_actual_m3_min, &air) {
        (Some(design), Ok(air)) if memory.habits.targets == Targets::Converted => {
            arithmetic::rounded(design * air.to_standard(), 3)
        }
        (Some(design), _) => design,
        (None, _) => order.target_flow_std_m3_min,
    };
    // The line is used as it was fitted, even if it falls.
    let chart = air.and_then(|air| {
        let unit = averages::used_in(Curve::new(1.0, 0.0, memory.expression)?, air, memory);
        unit.expression().chart_for(unit.slope() * own.line.y_at(target), air)
    });
    if let Ok(chart) = chart {
        memory.thinks(format!(
            "The line gives {target:.3} m3/min at {chart:.1} divisions: that is the set point."
        ));
        memory.set_point = Some(chart);
        memory.writes(Field::TargetFlow, format!("{target:.3}"));
        memory.writes(Field::SetPoint, format!("{chart:.1}"));
    }
}
