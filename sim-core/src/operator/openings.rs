//! The knob's openings for evenly spaced flows.

use super::arithmetic;
use super::memory::Memory;

/// Flow of the last point, m3/min (the points include 1.1 to 1.7: READ, 40 CFR Part 50 App. B, 9.3.8).
const LOWEST_STD_M3_MIN: f64 = 1.13;
/// How far the last point is below a lower ordered flow, m3/min: more than the knob misses it by.
const BELOW_TARGET_STD_M3_MIN: f64 = 0.03;
/// Flow against opening, each divided by its value when fully open (the bench's own design,
/// computed for sea level; at 1600 m it differs by 0.005).
const FLOW_BY_OPENING: [(f64, f64); 8] = [
    (1.0, 1.0),
    (0.7, 0.928),
    (0.5, 0.829),
    (0.4, 0.749),
    (0.3, 0.638),
    (0.235, 0.543),
    (0.2, 0.483),
    (0.1, 0.274),
];

/// How far a point may be from the flow that it was to give, as a part of it, and still be a guide for
/// the next one: whatever is farther off was misread, or is no flow at all.
const ALLOWED_FOR: core::ops::RangeInclusive<f64> = 0.9..=1.1;

/// The knob's opening for a point: the flows are evenly spaced from fully open to the lowest. What the
/// opening of the last point gave more or less than usual, the next one allows for.
pub(super) fn of_point(
    (taken, wanted): (u8, u8),
    target_std_m3_min: f64,
    last_opening: Option<f64>,
    memory: &Memory,
) -> f64 {
    let (Some(first), Some(standard), Some(air)) =
        (memory.points.first(), memory.standard, memory.air())
    else {
        return 1.0;
    };
    let flow = |delta_h_in: f64| arithmetic::flow(delta_h_in, air, standard);
    let open = flow(first.delta_h_in);
    let lowest_flow = lowest_std_m3_min(target_std_m3_min);
    let lowest = if open > 0.5 { (lowest_flow / open).clamp(0.55, 0.8) } else { 0.65 };
    let step = f64::from(taken) / f64::from(wanted.saturating_sub(1).max(1));
    let part = 1.0 - (1.0 - lowest) * step;
    let last = memory.points.last().zip(last_opening);
    let share = last.map_or(1.0, |(last, at)| flow(last.delta_h_in) / (open * part_at(at)));
    opening_for(part / if ALLOWED_FOR.contains(&share) { share } else { 1.0 })
}

/// Flow of the last point, m3/min: a lower ordered flow has to lie between the points as well.
fn lowest_std_m3_min(target_std_m3_min: f64) -> f64 {
    if target_std_m3_min < LOWEST_STD_M3_MIN {
        target_std_m3_min - BELOW_TARGET_STD_M3_MIN
    } else {
        LOWEST_STD_M3_MIN
    }
}

/// The opening at which the flow is this fraction of the flow when fully open, in hundredths.
fn opening_for(part: f64) -> f64 {
    let turned = FLOW_BY_OPENING.map(|(opening, part)| (part, opening));
    arithmetic::rounded(between(&turned, part).min(1.0), 2)
}

/// The flow at an opening, as a fraction of the flow when fully open.
fn part_at(opening: f64) -> f64 {
    between(&FLOW_BY_OPENING, opening)
}

/// What a falling table gives for a number, in a straight line between its rows; below the last row,
/// what that row gives.
fn between(table: &[(f64, f64); 8], x: f64) -> f64 {
    for (&(more, more_y), &(less, less_y)) in table.iter().zip(table.iter().skip(1)) {
        if x >= less {
            return less_y + (more_y - less_y) * (x - less) / (more - less);
        }
    }
    let [.., (_, least)] = *table;
    least
}

#[cfg(test)]
mod tests {
    use super::{lowest_std_m3_min, opening_for, part_at};

    #[test]
    fn an_ordered_flow_below_the_usual_points_lies_between_them() {
        assert!((lowest_std_m3_min(1.2) - 1.13).abs() < 1e-12);
        assert!((lowest_std_m3_min(1.13) - 1.13).abs() < 1e-12);
        assert!(lowest_std_m3_min(1.05) < 1.04);
    }

    #[test]
    fn openings_follow_the_table() {
        assert!((opening_for(1.0) - 1.0).abs() < 1e-9);
        assert!((opening_for(0.749) - 0.4).abs() < 1e-9);
        assert!((opening_for(0.9) - 0.64).abs() < 1e-9);
        assert!((opening_for(0.01) - 0.1).abs() < 1e-9);
        for part in [0.65, 0.7, 0.8, 0.9, 1.0] {
            assert!((part_at(opening_for(part)) - part).abs() < 0.006, "{part}");
        }
    }
}
