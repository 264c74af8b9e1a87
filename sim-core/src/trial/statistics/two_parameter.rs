//! The two-parameter logistic model of items, fitted by marginal maximum likelihood.
//!
//! A person of ability θ keeps a rule with probability P(θ) = 1/(1 + exp(-a (θ - b))): b is the
//! ability at which half of the people keep it, a the slope there. Abilities are standard normal.
//! Where P is steep the rule says much about a person: its information is I(θ) = a² P (1 - P), and
//! 1/sqrt(Σ I) is the standard error of an ability.
//!
//! Source: A. Birnbaum in Lord and Novick, Statistical Theories of Mental Test Scores (1968),
//! chapters 17 to 20; the fit after R. D. Bock and M. Aitkin, Psychometrika 46 (1981) 443-459
//! (both MEMORY).

use crate::math;

/// Abilities at which the integrals over people are taken, -4.5 to 4.5.
const NODES: usize = 41;
const FARTHEST: f64 = 4.5;
/// Steepest slope (CHOSEN): rules that all better people keep have none that is finite.
const STEEPEST: f64 = 4.0;
/// Fewest people who kept an item, and fewest who broke it, for a fit (CHOSEN).
const FEWEST: usize = 5;
/// Rounds of the fit at most.
const ROUNDS: usize = 300;
/// The fit ends when no parameter moves by more than this.
const CLOSE: f64 = 1e-4;

/// An item in the logistic model, P = 1/(1 + exp(-(slope θ + intercept))).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogisticItem {
    /// Slope a.
    pub slope: f64,
    /// Intercept -a b.
    pub intercept: f64,
}

impl LogisticItem {
    /// The probability that a person of this ability keeps the rule.
    pub fn probability(&self, ability: f64) -> f64 {
        1.0 / (1.0 + math::exp(-(self.slope * ability + self.intercept)))
    }

    /// The ability at which half of the people keep the rule; `None` if the slope says nothing.
    pub fn location(&self) -> Option<f64> {
        (self.slope.abs() > 0.05).then(|| -self.intercept / self.slope)
    }

    /// Information about a person of this ability.
    pub fn information(&self, ability: f64) -> f64 {
        let kept = self.probability(ability);
        self.slope * self.slope * kept * (1.0 - kept)
    }
}

/// A fitted model.
#[derive(Debug, Clone, PartialEq)]
pub struct TwoParameterFit {
    /// Every item; `None` if too few kept it or broke it for a fit.
    pub items: Vec<Option<LogisticItem>>,
    /// The ability of every person: the mean of what the answers leave likely.
    pub abilities: Vec<f64>,
}

impl TwoParameterFit {
    /// Information of all items about a person of this ability.
    pub fn information(&self, ability: f64) -> f64 {
        self.items.iter().flatten().map(|item| item.information(ability)).sum()
    }
}

/// Fits the model to rows of items, one row for each person; `None` in a row is an item that was not
/// reached, which says nothing. Every row must be as long as the first.
pub fn fit(rows: &[&[Option<bool>]]) -> TwoParameterFit {
    let count = rows.first().map_or(0, |row| row.len());
    let mut items: Vec<Option<LogisticItem>> = (0..count).map(|item| begin(rows, item)).collect();
    let nodes = nodes();
    for _ in 0..ROUNDS {
        let logs = logs(&nodes, &items);
        let mut expected = vec![[[0.0; NODES]; 2]; count];
        for row in rows {
            let likely = posterior(&nodes, &logs, row);
            for ((counts, answer), item) in expected.iter_mut().zip(*row).zip(&items) {
                let (Some(kept), Some(_)) = (*answer, item) else { continue };
                let [broken_counts, kept_counts] = counts;
                let counts = if kept { kept_counts } else { broken_counts };
                for (count, share) in counts.iter_mut().zip(likely) {
                    *count += share;
                }
            }
        }
        let mut moved = 0.0_f64;
        for (item, counts) in items.iter_mut().zip(&expected) {
            let Some(item) = item else { continue };
            let next = maximised(*item, &nodes, counts);
            let change =
                (next.slope - item.slope).abs().max((next.intercept - item.intercept).abs());
            moved = moved.max(change);
            *item = next;
        }
        if moved < CLOSE {
            break;
        }
    }
    let logs = logs(&nodes, &items);
    let ability = |row: &&[Option<bool>]| {
        let likely = posterior(&nodes, &logs, row);
        nodes.iter().zip(likely).map(|(node, share)| node.ability * share).sum()
    };
    TwoParameterFit { items, abilities: rows.iter().map(ability).collect() }
}

/// An ability and its weight in the population.
#[derive(Debug, Clone, Copy)]
struct Node {
    ability: f64,
    log_weight: f64,
}

/// Evenly spaced abilities with the weights of the standard normal distribution.
fn nodes() -> [Node; NODES] {
    let step = 2.0 * FARTHEST / (NODES - 1) as f64;
    std::array::from_fn(|index| {
        let ability = step * index as f64 - FARTHEST;
        Node { ability, log_weight: -0.5 * ability * ability }
    })
}

/// Where the fit of an item begins: no slope beyond the usual, and the share that kept it.
fn begin(rows: &[&[Option<bool>]], item: usize) -> Option<LogisticItem> {
    let answers = rows.iter().filter_map(|row| row.get(item).copied().flatten());
    let (kept, broken): (Vec<bool>, Vec<bool>) = answers.partition(|&kept| kept);
    let (kept, broken) = (kept.len(), broken.len());
    (kept >= FEWEST && broken >= FEWEST)
        .then(|| LogisticItem { slope: 1.0, intercept: math::ln(kept as f64 / broken as f64) })
}

/// Logarithms of the probabilities of an item at every node: broken, kept.
type ItemLogs = Option<[[f64; NODES]; 2]>;

fn logs(nodes: &[Node; NODES], items: &[Option<LogisticItem>]) -> Vec<ItemLogs> {
    let of = |item: &LogisticItem| {
        let kept = nodes.map(|node| log_logistic(item.slope * node.ability + item.intercept));
        let broken = nodes.map(|node| log_logistic(-item.slope * node.ability - item.intercept));
        [broken, kept]
    };
    items.iter().map(|item| item.as_ref().map(of)).collect()
}

/// ln(1/(1 + exp(-x))), without overflow.
fn log_logistic(x: f64) -> f64 {
    if x > 0.0 { -math::ln(1.0 + math::exp(-x)) } else { x - math::ln(1.0 + math::exp(x)) }
}

/// How likely each ability is after a person's answers; the sum is 1.
fn posterior(nodes: &[Node; NODES], logs: &[ItemLogs], row: &[Option<bool>]) -> [f64; NODES] {
    let mut log_likely = nodes.map(|node| node.log_weight);
    for (item, answer) in logs.iter().zip(row) {
        let (Some([broken, kept]), Some(answer)) = (item, answer) else { continue };
        for (sum, log) in log_likely.iter_mut().zip(if *answer { kept } else { broken }) {
            *sum += log;
        }
    }
    let most = log_likely.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let likely = log_likely.map(|log| math::exp(log - most));
    let sum: f64 = likely.iter().sum();
    likely.map(|share| share / sum)
}

/// The item that fits expected counts best, by Newton's method for a weighted logistic regression.
fn maximised(
    item: LogisticItem,
    nodes: &[Node; NODES],
    [broken, kept]: &[[f64; NODES]; 2],
) -> LogisticItem {
    let mut item = item;
    for _ in 0..8 {
        let (mut by_slope, mut by_intercept) = (0.0, 0.0);
        let (mut aa, mut ac, mut cc) = (0.0, 0.0, 0.0);
        for (node, (broken, kept)) in nodes.iter().zip(broken.iter().zip(kept)) {
            let expected = item.probability(node.ability);
            let rest = kept - (kept + broken) * expected;
            let weight = (kept + broken) * expected * (1.0 - expected);
            by_slope += rest * node.ability;
            by_intercept += rest;
            aa += weight * node.ability * node.ability;
            ac += weight * node.ability;
            cc += weight;
        }
        let determinant = aa * cc - ac * ac;
        if determinant <= 1e-12 {
            return item;
        }
        let step = |one: f64| (one / determinant).clamp(-1.0, 1.0);
        let slope = step(cc * by_slope - ac * by_intercept);
        let intercept = step(aa * by_intercept - ac * by_slope);
        item.slope = (item.slope + slope).clamp(-STEEPEST, STEEPEST);
        item.intercept = (item.intercept + intercept).clamp(-20.0, 20.0);
        if slope.abs().max(intercept.abs()) < 1e-9 {
            break;
        }
    }
    item
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::Stream;

    const TRUE: [LogisticItem; 6] = [
        LogisticItem { slope: 0.8, intercept: 1.0 },
        LogisticItem { slope: 1.5, intercept: 0.0 },
        LogisticItem { slope: 1.0, intercept: -1.0 },
        LogisticItem { slope: 2.0, intercept: 1.5 },
        LogisticItem { slope: 1.2, intercept: 0.5 },
        LogisticItem { slope: 0.6, intercept: -0.5 },
    ];

    /// Answers of people of known ability, each item left out by one in ten.
    fn answers(people: usize) -> (Vec<f64>, Vec<[Option<bool>; 6]>) {
        let mut stream = Stream::new(9, "answers");
        let mut abilities = Vec::new();
        let mut rows = Vec::new();
        for _ in 0..people {
            let ability = stream.normal();
            let row = TRUE.map(|item| {
                let kept = stream.unit() < item.probability(ability);
                (stream.unit() > 0.1).then_some(kept)
            });
            abilities.push(ability);
            rows.push(row);
        }
        (abilities, rows)
    }

    #[test]
    fn known_items_are_found_again() {
        let (abilities, rows) = answers(4000);
        let rows: Vec<&[Option<bool>]> = rows.iter().map(|row| &row[..]).collect();
        let fitted = fit(&rows);
        for (found, item) in fitted.items.iter().zip(TRUE) {
            let found = found.unwrap();
            assert!((found.slope - item.slope).abs() < 0.3, "{found:?} for {item:?}");
            assert!((found.intercept - item.intercept).abs() < 0.2, "{found:?} for {item:?}");
        }
        let pairs: Vec<(f64, f64)> =
            abilities.into_iter().zip(fitted.abilities.iter().copied()).collect();
        let r = super::super::correlation::pearson(&pairs).unwrap();
        assert!(r > 0.6, "{r}");
    }

    #[test]
    fn information_is_greatest_where_half_keep_the_rule() {
        let item = LogisticItem { slope: 1.6, intercept: 0.8 };
        let at = item.location().unwrap();
        assert!((at + 0.5).abs() < 1e-12 && (item.probability(at) - 0.5).abs() < 1e-12);
        assert!((item.information(at) - 0.64).abs() < 1e-12);
        assert!(item.information(at + 1.0) < 0.64 && item.information(at - 1.0) < 0.64);
    }

    #[test]
    fn an_item_that_all_keep_has_no_fit() {
        let rows = vec![vec![Some(true), None]; 20];
        let rows: Vec<&[Option<bool>]> = rows.iter().map(|row| &row[..]).collect();
        let fitted = fit(&rows);
        assert_eq!(fitted.items, [None, None]);
        assert!(fitted.abilities.iter().all(|ability| ability.abs() < 1e-12));
        assert_eq!(fit(&[]).items, []);
    }
}
