//! The pass mark: what each would do, and which one costs least.

use serde::Serialize;

use super::estimate::{Estimate, Share};
use super::seated::Seated;
use super::sitting::{MarkedSitting, ROUNDING};
use super::volumes::{BOUNDS_PCT, VolumeFigures, with_volume};
use crate::trial::statistics::bootstrap;

/// Volumes that are off by more than this, percent, are what a false pass costs.
pub const COSTLY_PCT: f64 = 5.0;
/// Number of pass marks that are tried: 0 to 100.
const MARKS: usize = 101;

/// What wrong decisions cost, in any unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DecisionCosts {
    /// Somebody passes whose volumes are off by more than 5 %.
    pub false_pass: f64,
    /// Somebody fails whose volumes are not.
    pub false_fail: f64,
}

impl Default for DecisionCosts {
    /// A bad calibration spoils weeks of samples; a good operator who fails comes back for a morning
    /// (CHOSEN).
    fn default() -> Self {
        Self { false_pass: 10.0, false_fail: 1.0 }
    }
}

/// What a pass mark would do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CurvePoint {
    /// The pass mark.
    pub pass_mark: f64,
    /// People who would pass.
    pub passed: Share,
    /// False passes and false fails for every bound.
    pub volumes: Vec<VolumeFigures>,
    /// Mean loss for each person with a volume; none if nobody has one.
    pub loss: Option<f64>,
}

/// The pass mark that costs least.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ProposedMark {
    /// The pass mark with its interval. Of equally good ones the nearest to the scenario's own.
    pub pass_mark: Estimate,
    /// Its mean loss for each person with a volume.
    pub loss: f64,
    /// The mean loss at the scenario's own pass mark, rounded up to a whole one.
    pub loss_at_own: f64,
}

/// What every whole pass mark would do.
pub fn curve(people: &[Seated], costs: DecisionCosts) -> Vec<CurvePoint> {
    let outcomes = Outcomes::of(people);
    let losses = outcomes.losses(0..outcomes.0.len(), costs);
    let point = |(index, loss): (usize, Option<f64>)| {
        let mark = index as f64;
        let passes = |one: &Seated| one.marked().is_some_and(|marked| marked.passes_at(mark));
        let decided =
            with_volume(people).map(move |(marked, error_pct)| (error_pct, marked.passes_at(mark)));
        let volumes = BOUNDS_PCT.iter().map(|&bound| VolumeFigures::of(bound, decided.clone()));
        CurvePoint {
            pass_mark: mark,
            passed: Share::of(people.iter().map(passes)),
            volumes: volumes.collect(),
            loss,
        }
    };
    losses.into_iter().enumerate().map(point).collect()
}

/// The pass mark that minimises the loss; none if no volume follows from any sitting.
pub fn proposed(people: &[Seated], costs: DecisionCosts, seed: u64) -> Option<ProposedMark> {
    let own = people.iter().find_map(Seated::marked)?.pass_mark;
    let outcomes = Outcomes::of(people);
    let count = outcomes.0.len();
    let losses = outcomes.losses(0..count, costs);
    let best = cheapest(&losses, own)?;
    let of = |drawn: &[usize]| {
        let losses = outcomes.losses(drawn.iter().copied(), costs);
        cheapest(&losses, own).map(|mark| mark as f64)
    };
    let interval = bootstrap::interval(seed, "pass mark", count, of);
    let at = |mark: usize| losses.get(mark).copied().flatten();
    Some(ProposedMark {
        pass_mark: Estimate::new(best as f64, interval),
        loss: at(best)?,
        loss_at_own: at((own.ceil().max(0.0) as usize).min(MARKS - 1))?,
    })
}

/// Of the cheapest marks the nearest to the scenario's own; of two equally near the higher.
fn cheapest(losses: &[Option<f64>], own: f64) -> Option<usize> {
    let least = losses.iter().flatten().copied().fold(f64::INFINITY, f64::min);
    let near = |mark: &usize| (*mark as f64 - own).abs();
    losses
        .iter()
        .enumerate()
        .filter(|(_, loss)| loss.is_some_and(|loss| loss <= least + 1e-12))
        .map(|(mark, _)| mark)
        .min_by(|one, other| near(one).total_cmp(&near(other)).then(other.cmp(one)))
}

/// For each person with a volume: from which mark on the person fails, and whether the volume is off.
struct Outcomes(Vec<(usize, bool)>);

impl Outcomes {
    fn of(people: &[Seated]) -> Self {
        let one = |(marked, error_pct): (&MarkedSitting, f64)| {
            let last = (marked.total + ROUNDING).floor().max(0.0);
            let until = (last as usize).min(MARKS - 1) + 1;
            (if marked.only_marks_decide { until } else { 0 }, error_pct.abs() > COSTLY_PCT)
        };
        Self(with_volume(people).map(one).collect())
    }

    /// Mean loss of some of these people at every pass mark.
    fn losses(&self, drawn: impl Iterator<Item = usize>, costs: DecisionCosts) -> Vec<Option<f64>> {
        // How many fail from each mark on, of good and of bad volumes.
        let mut fail_from = [[0_u64; MARKS + 1]; 2];
        let (mut people, mut bad) = (0_u64, 0_u64);
        for (from, off) in drawn.filter_map(|index| self.0.get(index)) {
            people += 1;
            bad += u64::from(*off);
            let [of_good, of_bad] = &mut fail_from;
            let counts = if *off { of_bad } else { of_good };
            if let Some(count) = counts.get_mut(*from) {
                *count += 1;
            }
        }
        let [of_good, of_bad] = fail_from;
        let (mut good_failed, mut bad_failed) = (0, 0);
        let each = of_good.iter().zip(&of_bad).take(MARKS).map(|(good, off)| {
            good_failed += good;
            bad_failed += off;
            let false_passes = (bad - bad_failed) as f64;
            let loss = costs.false_pass * false_passes + costs.false_fail * good_failed as f64;
            (people > 0).then(|| loss / people as f64)
        });
        each.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn losses_by_hand() {
        // Good volumes fail from 81 and from 91 on, a bad one from 71 on, another never passes.
        let outcomes = Outcomes(vec![(81, false), (91, false), (71, true), (0, true)]);
        let costs = DecisionCosts { false_pass: 10.0, false_fail: 1.0 };
        let losses: Vec<f64> = outcomes.losses(0..4, costs).into_iter().flatten().collect();
        assert_eq!(losses.len(), MARKS);
        let near = |mark: usize, loss: f64| (losses[mark] - loss).abs() < 1e-12;
        assert!(near(0, 2.5) && near(70, 2.5) && near(71, 0.0) && near(80, 0.0));
        assert!(near(81, 0.25) && near(90, 0.25) && near(91, 0.5) && near(100, 0.5));
    }

    #[test]
    fn of_equally_good_marks_the_nearest_is_proposed() {
        let losses: Vec<Option<f64>> = (0..MARKS)
            .map(|mark| Some(if (70..=90).contains(&mark) { 0.0 } else { 1.0 }))
            .collect();
        assert_eq!(cheapest(&losses, 75.0), Some(75));
        assert_eq!(cheapest(&losses, 60.0), Some(70));
        assert_eq!(cheapest(&losses, 95.5), Some(90));
        assert_eq!(cheapest(&[None, None], 75.0), None);
    }
}
