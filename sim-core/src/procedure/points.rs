//! Phase E, the points: how many, where, and how long the flow was steady.

use super::evidence::{Evidence, PointTaken, TraineeDecision};
use super::outcome::Outcome;
use super::own_sums::own_delta_h;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::{FEWEST_POINTS, range_is_covered};
use crate::session::action::Action;
use crate::time::spoken;

/// Number of points that leaves a margin for one that must be discarded.
pub(crate) const MARGIN: usize = 7;
/// Spread of the points below which they make no line, m3/min (CHOSEN: a third of the range).
const CROWDED_M3_MIN: f64 = 0.2;
/// Opening of the knob that counts as fully open.
const OPEN: f64 = 0.99;
/// How far the target may be outside the points, m3/min (CHOSEN).
const REACH_M3_MIN: f64 = 0.05;
/// Shortest time at a flow before it is read, s.
const SETTLE_S: f64 = 120.0;

/// At least five points.
///
/// Broken by four; kept by five or more, or by stopping because of thunder or of a fault that rules out
/// a calibration. Fewer than three make no line at all, and decide.
pub static ENOUGH: ProcedureRule = ProcedureRule {
    id: "points-enough",
    title: "At least five points",
    why: "A line through three or four points hides a bad one.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::AddPoints,
    test: |evidence| {
        let points = evidence.points();
        let last = points.iter().map(|point| point.last).max_by_key(|at| at.index);
        let accepted = evidence.verdict() == TraineeDecision::Accepted;
        if last.is_none() && !accepted {
            return Outcome::NotReached;
        }
        let count = points.iter().filter(|point| is_whole(evidence, point)).count();
        if count >= FEWEST_POINTS {
            return Outcome::Kept;
        }
        if evidence.rightly_stopped() {
            return Outcome::NotReached;
        }
        let slip = Slip::at(
            last.map_or(evidence.end_tick, |at| at.tick()),
            format!("{count} complete points, but at least {FEWEST_POINTS} are needed"),
        );
        Outcome::broken(if count >= 3 { slip.mild() } else { slip })
    },
};

/// As many points as ordered; seven leave a margin if the work order gives no number.
///
/// Broken by five where seven are ordered; kept by the number ordered, or by leaving before a
/// thunderstorm.
pub static AS_ORDERED: ProcedureRule = ProcedureRule {
    id: "points-as-ordered",
    title: "As many points as ordered; seven leave a margin",
    why: "A point that must be discarded should not cost a second climb.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::AddPoints,
    test: |evidence| {
        let points = evidence.points();
        let Some(last) = points.iter().max_by_key(|point| point.last.index) else {
            return Outcome::NotReached;
        };
        let ordered = match usize::from(evidence.setup.work_order.points) {
            0 => MARGIN,
            ordered => ordered,
        };
        let count = points.iter().filter(|point| is_whole(evidence, point)).count();
        if count >= ordered {
            return Outcome::Kept;
        }
        // Fewer than five break the other rule.
        if count < FEWEST_POINTS || evidence.rightly_stopped() {
            return Outcome::NotReached;
        }
        let text = format!("{count} complete points, but {ordered} are wanted");
        Outcome::broken(Slip::at(last.last.tick(), text))
    },
};

/// Whether a point has a chart reading, and legs or their sum.
fn is_whole(evidence: &Evidence<'_>, point: &PointTaken<'_>) -> bool {
    point.chart.is_some() && own_delta_h(evidence, point.number).is_some()
}

/// The points cover the range of flows, and the target is among them.
///
/// Looks at the flow through the calibrator at each point, as a perfect reader finds it by the
/// certificate: the lowest is not above 1.1 standard m3/min and the highest not below 1.7, or as high
/// as the blower goes with the knob fully open. It decides only where the line is worth little: if the
/// target lies outside the points, or if they lie within a third of the range. Broken by five points between 1.5 and 1.7; kept by 1.70, 1.55, 1.40,
/// 1.25, 1.10, or by leaving before a thunderstorm.
pub static SPREAD: ProcedureRule = ProcedureRule {
    id: "points-spread",
    title: "Points over a range that includes 1.1 to 1.7 m³/min",
    why: "A line is good where its points are, and worthless beyond them.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.8"),
    phase: WorkPhase::Points,
    repair: Repair::AddPoints,
    test: |evidence| {
        let points = evidence.points();
        let Some(last) = points.iter().max_by_key(|point| point.last.index) else {
            return Outcome::NotReached;
        };
        if points.len() < 3 || evidence.rightly_stopped() {
            return Outcome::NotReached;
        }
        let flow = |point: &PointTaken<'_>| {
            evidence.setup.as_certified(point.first.facts().calibrator_flow_std_m3_min)
        };
        let least = points.iter().map(flow).fold(f64::INFINITY, f64::min);
        let most = points.iter().map(flow).fold(f64::NEG_INFINITY, f64::max);
        let fully_open = points.iter().any(|point| point.first.facts().opening >= OPEN);
        let target = evidence.setup.work_order.target_flow_std_m3_min;
        let reached = (least - REACH_M3_MIN..=most + REACH_M3_MIN).contains(&target);
        if range_is_covered(least, most, fully_open) && reached {
            return Outcome::Kept;
        }
        let text = format!(
            "points from {least:.2} to {most:.2} m³/min; the range from 1.1 to 1.7 m³/min is to be \
             covered, and the target is {target:.2} m³/min"
        );
        let slip = Slip::at(last.last.tick(), text);
        let spoilt = !reached || most - least < CROWDED_M3_MIN;
        Outcome::broken(if spoilt { slip } else { slip.mild() })
    },
};

/// The flow is steady for at least two minutes before it is read.
///
/// Broken by reading 20 s after the knob was turned; kept by 120 s.
pub static TWO_MINUTES: ProcedureRule = ProcedureRule {
    id: "two-minutes",
    title: "Two minutes at each flow",
    why: "Speed, exhaust temperature and pen follow the knob slowly.",
    severity: Severity::Data,
    // Two minutes or one cost a few hundredths of a percent of the volume.
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.6"),
    phase: WorkPhase::Points,
    repair: Repair::WaitTwoMinutes,
    test: |evidence| {
        Outcome::over(evidence.points(), |point| {
            let steady_s = point.first.facts().steady_s;
            let text = format!(
                "read {} after the flow changed; {} is required",
                spoken(steady_s as u64),
                spoken(SETTLE_S as u64)
            );
            (steady_s < SETTLE_S - 1.0)
                .then(|| Slip::at_point(point.first.tick(), point.number.number(), text))
        })
    },
};

/// Each point is marked on the chart while its flow is steady.
///
/// Broken by a chart without marks; kept by a mark before or after the reading, and by a last point
/// that thunder interrupted.
pub static CHART_MARKED: ProcedureRule = ProcedureRule {
    id: "chart-marked",
    title: "Mark each point on the chart",
    why: "The chart is the proof of the readings, and without marks nobody can find them on it.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::None,
    test: |evidence| {
        let mut points = evidence.points();
        points.sort_by_key(|point| point.first.index);
        let begins: Vec<_> = points.iter().map(PointTaken::flow_since).collect();
        let whole = points.iter().enumerate().filter(|(_, point)| !evidence.broken_off(point));
        Outcome::over(whole, |(index, point)| {
            let from = point.flow_since();
            let until = begins.get(index + 1).copied().filter(|next| *next > from);
            let marked = evidence.events.iter().any(|moment| {
                matches!(moment.action, Action::MarkChart { .. })
                    && moment.tick >= from
                    && until.is_none_or(|until| moment.tick <= until)
            });
            let text = "no mark on the chart at this point";
            (!marked).then(|| Slip::at_point(point.last.tick(), point.number.number(), text))
        })
    },
};
