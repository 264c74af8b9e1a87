//! Reliability of the marks: what would come again.

use serde::Serialize;

use super::estimate::{Estimate, Share};
use super::seated::Seated;
use super::sitting::MarkedSitting;
use crate::trial::statistics::agreement::DecisionTable;
use crate::trial::statistics::bootstrap;
use crate::trial::statistics::correlation::{fisher_interval, pearson};
use crate::trial::statistics::moments::sd;
use crate::trial::statistics::reliability::{
    alpha, kr20, measurement_error_of_pairs, standard_error_of_measurement,
};

/// Share of people who must have reached a rule for it to be an item of KR-20, percent (CHOSEN).
const REACHED_PCT: u64 = 90;

/// Pairs of totals that are kept for a plot (CHOSEN: more only cover each other).
const SHOWN: usize = 300;

/// Reliability of the marks and of the decision.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReliabilityFigures {
    /// Cronbach's alpha over the six parts of the marks.
    pub alpha: Option<Estimate>,
    /// KR-20 over rules.
    pub kr20: Option<Estimate>,
    /// Number of rules in it: reached by at least 90 % of the people.
    pub kr20_items: u64,
    /// Number of people in it: those who reached all of these rules.
    pub kr20_people: u64,
    /// Correlation of the totals of both sittings.
    pub parallel: Option<Estimate>,
    /// Standard error of measurement by alpha, marks.
    pub error_by_alpha: Option<f64>,
    /// Standard error of measurement by the differences of both sittings, marks.
    pub error_by_sittings: Option<Estimate>,
    /// Decisions in both sittings.
    pub decisions: DecisionTable,
    /// Share of people with the same decision in both.
    pub agreement: Share,
    /// Cohen's kappa of the decisions.
    pub kappa: Option<Estimate>,
    /// The totals of both sittings of the first 300 people.
    pub totals_of_both: Vec<(f64, f64)>,
}

/// Reliability of the marks of people.
pub fn reliability(people: &[Seated], seed: u64) -> ReliabilityFigures {
    let marked: Vec<&MarkedSitting> = people.iter().filter_map(Seated::marked).collect();
    let totals: Vec<f64> = marked.iter().map(|marked| marked.total).collect();
    let both: Vec<(f64, f64)> = people
        .iter()
        .filter_map(Seated::both)
        .map(|(one, other)| (one.total, other.total))
        .collect();
    let alpha = of_parts(&marked, seed);
    let (kr20, kr20_items, kr20_people) = of_rules(&marked, seed);
    let pairs: Vec<(bool, bool)> =
        people.iter().map(|one| (one.sittings[0].passed(), one.sittings[1].passed())).collect();
    let decisions = DecisionTable::of(pairs.iter().copied());
    let kappa_of = |drawn: &[usize]| {
        DecisionTable::of(drawn.iter().filter_map(|&index| pairs.get(index).copied())).kappa()
    };
    let error_of = |drawn: &[usize]| {
        let drawn: Vec<(f64, f64)> =
            drawn.iter().filter_map(|&index| both.get(index).copied()).collect();
        measurement_error_of_pairs(&drawn)
    };
    ReliabilityFigures {
        alpha,
        kr20,
        kr20_items,
        kr20_people,
        parallel: pearson(&both).map(|r| Estimate::new(r, fisher_interval(r, both.len()))),
        error_by_alpha: alpha.map(|alpha| standard_error_of_measurement(sd(&totals), alpha.value)),
        error_by_sittings: measurement_error_of_pairs(&both).map(|error| {
            let interval = bootstrap::interval(seed, "error of measurement", both.len(), error_of);
            Estimate::new(error, interval)
        }),
        agreement: Share::new(decisions.agreed(), decisions.pairs()),
        kappa: decisions.kappa().map(|kappa| {
            Estimate::new(kappa, bootstrap::interval(seed, "kappa", pairs.len(), kappa_of))
        }),
        decisions,
        totals_of_both: both.get(..SHOWN).unwrap_or(&both).to_vec(),
    }
}

/// Alpha over the parts, of the people with whom every part was assessed.
fn of_parts(marked: &[&MarkedSitting], seed: u64) -> Option<Estimate> {
    let whole: Vec<[f64; 6]> = marked.iter().filter_map(|marked| marked.whole()).collect();
    let rows: Vec<&[f64]> = whole.iter().map(|parts| &parts[..]).collect();
    let of = |drawn: &[usize]| {
        let rows: Vec<&[f64]> =
            drawn.iter().filter_map(|&index| rows.get(index).copied()).collect();
        alpha(&rows)
    };
    let value = alpha(&rows)?;
    Some(Estimate::new(value, bootstrap::interval(seed, "alpha", rows.len(), of)))
}

/// KR-20 over the rules that nearly everybody reached, with the numbers of its items and people.
fn of_rules(marked: &[&MarkedSitting], seed: u64) -> (Option<Estimate>, u64, u64) {
    let count = marked.first().map_or(0, |marked| marked.items.len());
    let reached = |item: usize| {
        let answers = marked.iter().filter_map(|marked| marked.items.get(item));
        let reached = answers.filter(|outcome| outcome.score().is_some()).count() as u64;
        reached * 100 >= REACHED_PCT * marked.len() as u64 && reached > 0
    };
    let items: Vec<usize> = (0..count).filter(|&item| reached(item)).collect();
    let scores = |marked: &&MarkedSitting| -> Option<Vec<bool>> {
        items.iter().map(|&item| marked.items.get(item)?.score()).collect()
    };
    let complete: Vec<Vec<bool>> = marked.iter().filter_map(scores).collect();
    let rows: Vec<&[bool]> = complete.iter().map(Vec::as_slice).collect();
    let of = |drawn: &[usize]| {
        let rows: Vec<&[bool]> =
            drawn.iter().filter_map(|&index| rows.get(index).copied()).collect();
        kr20(&rows)
    };
    let estimate = kr20(&rows)
        .map(|value| Estimate::new(value, bootstrap::interval(seed, "KR-20", rows.len(), of)));
    (estimate, items.len() as u64, rows.len() as u64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::people::outcome::ItemOutcome::{Broken, CannotJudge, Kept, NotReached};
    use crate::trial::people::seated::made_up;

    /// Twenty people: all reach the first rule, nineteen the second, seventeen the third.
    fn twenty() -> Vec<Seated> {
        let one = |number: u64| {
            let good = number.is_multiple_of(2);
            let first = if good { Kept } else { Broken };
            let second = match number {
                0 => NotReached,
                _ if good => Kept,
                _ => CannotJudge,
            };
            let third = if number < 3 { NotReached } else { Kept };
            let total = if good { 90.0 } else { 60.0 };
            made_up::person(number, [total, total - 2.0], &[first, second, third])
        };
        (0..20).map(one).collect()
    }

    #[test]
    fn items_of_kr20_are_the_rules_that_nearly_everybody_reached() {
        let found = reliability(&twenty(), 1);
        assert_eq!((found.kr20_items, found.kr20_people), (2, 19));
        // Both items agree in all nineteen people.
        assert!((found.kr20.unwrap().value - 1.0).abs() < 1e-12);
    }

    #[test]
    fn two_sittings_that_differ_by_two_marks() {
        let found = reliability(&twenty(), 1);
        // sqrt(2²/2), and the same order of people in both.
        assert!((found.error_by_sittings.unwrap().value - 2.0_f64.sqrt()).abs() < 1e-12);
        assert!(found.parallel.unwrap().value > 1.0 - 1e-12);
        assert_eq!((found.agreement.count, found.agreement.of), (20, 20));
        assert!((found.kappa.unwrap().value - 1.0).abs() < 1e-12);
        assert_eq!(found.totals_of_both.len(), 20);
    }
}
