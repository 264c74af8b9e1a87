//! Which points are added when there are too few, or when they are too close together.

use super::context::CostContext;
use crate::calibration::FEWEST_POINTS;
use crate::procedure::points::MARGIN;
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::flow::plates::Plate;

/// Openings from which added points are chosen, and the flow at each relative to that at full opening
/// (CHOSEN with the design of the bench, computed for sea level).
const OPENINGS: [(f64, f64); 9] = [
    (1.0, 1.0),
    (0.7, 0.942),
    (0.55, 0.888),
    (0.45, 0.826),
    (0.4, 0.787),
    (0.35, 0.739),
    (0.31, 0.693),
    (0.29, 0.667),
    (0.27, 0.639),
];
/// Points that are added when there are enough but they are too close together: one at each end.
const ENDS: usize = 2;

/// Openings of the points to be added: as many as are missing, each as far as possible from all others.
pub(super) fn missing_openings(context: &CostContext<'_>) -> Vec<f64> {
    let ordered = match usize::from(context.evidence.setup.work_order.points) {
        0 => MARGIN,
        ordered => ordered.max(FEWEST_POINTS),
    };
    let crowded = context.findings.iter().any(|finding| finding.rule == "points-spread");
    let missing = ordered.saturating_sub(context.points.len());
    let wanted = if crowded { missing.max(ENDS) } else { missing };
    let flow = |opening: f64| {
        let above = OPENINGS.windows(2).find_map(|pair| match *pair {
            [(more, more_flow), (less, less_flow)] if (less..=more).contains(&opening) => {
                Some(less_flow + (more_flow - less_flow) * (opening - less) / (more - less))
            }
            _ => None,
        });
        above.unwrap_or(opening)
    };
    // On a controller the flow is the same at every opening; then the openings are spread instead.
    let mut taken: Vec<f64> =
        context.points.iter().map(|point| flow(point.first.facts().opening)).collect();
    let choice: Vec<(f64, f64)> = match context.evidence.setup.rig.calibrator.kind {
        CalibratorKind::VariableOpening => OPENINGS.to_vec(),
        CalibratorKind::FixedPlates => {
            Plate::ALL.into_iter().map(Plate::open_share).map(|open| (open, flow(open))).collect()
        }
    };
    let mut openings = Vec::new();
    for _ in 0..wanted.min(choice.len()) {
        let gap = |flow: f64| {
            taken.iter().map(|other| (other - flow).abs()).fold(f64::INFINITY, f64::min)
        };
        let farthest = choice.iter().max_by(|one, other| gap(one.1).total_cmp(&gap(other.1)));
        if let Some(&(opening, flow)) = farthest {
            openings.push(opening);
            taken.push(flow);
        }
    }
    openings
}
