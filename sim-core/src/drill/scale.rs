//! Where something stands against the marks of a scale: what an eye sees before it counts.

use serde::Serialize;

/// A scale: the step between its marks, and between its numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Marks {
    /// From mark to mark.
    pub(super) mark: f64,
    /// From number to number.
    pub(super) number: f64,
    /// The finest step of a sharp eye.
    pub(super) eye: f64,
}

/// Where something stands against a scale, as far as a sharp eye can tell. Whoever counts from the number
/// has the reading.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AgainstScale {
    /// The nearest printed number at or under it, with its sign.
    pub number: f64,
    /// The step from mark to mark.
    pub mark: f64,
    /// Marks from that number on, up to the one at or under it.
    pub marks_past: u32,
    /// Whether it stands midway to the next mark.
    pub midway: bool,
}

impl Marks {
    /// Where a value stands.
    pub(super) fn against(self, value: f64) -> AgainstScale {
        let steps = (value / self.eye).round();
        let (per_mark, per_number) = (self.mark / self.eye, self.number / self.eye);
        let number = (steps / per_number.round()).floor() * per_number.round();
        let beyond = steps - number;
        let marks = (beyond / per_mark.round()).floor();
        AgainstScale {
            number: (number / per_number.round()).round() * self.number + 0.0,
            mark: self.mark,
            marks_past: marks as u32,
            midway: beyond - marks * per_mark.round() > 0.5,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_counts_from_the_number_has_the_reading_to_half_a_mark() {
        for marks in [
            Marks { mark: 0.1, number: 1.0, eye: 0.05 },
            Marks { mark: 1.0, number: 10.0, eye: 0.5 },
            Marks { mark: 0.5, number: 5.0, eye: 0.5 },
        ] {
            for step in -900..900 {
                let value = f64::from(step) * 0.0137;
                let seen = marks.against(value);
                let half = if seen.midway { 0.5 } else { 0.0 };
                let counted = seen.number + (f64::from(seen.marks_past) + half) * marks.mark;
                assert!((counted - value).abs() <= 0.5 * marks.eye + 1e-9, "{value}: {seen:?}");
                assert!(
                    f64::from(seen.marks_past) * marks.mark < marks.number,
                    "{value}: {seen:?}"
                );
            }
        }
    }
}
