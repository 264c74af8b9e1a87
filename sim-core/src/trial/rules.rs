//! How well each rule distinguishes good sessions from bad ones: difficulty and discrimination of
//! classical test theory.

use serde::Serialize;

use super::tally::Tally;
use crate::procedure::{ProcedureRule, RULES};

/// The figures of a rule over all sessions of a trial.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RuleFigures {
    /// Its id.
    pub rule: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Sessions in which it was kept.
    pub kept: u64,
    /// Sessions in which it was reached and could be judged.
    pub of: u64,
    /// Difficulty p: the proportion of those in which it was kept. A low p means a hard rule. It is 0
    /// if the rule was never reached.
    pub difficulty: f64,
    /// Point-biserial discrimination; none if all kept it, nobody kept it, or all marks are equal.
    pub discrimination: Option<f64>,
}

/// Difficulty and discrimination of every rule, in the order of the work.
///
/// Difficulty p = k/n: of the n sessions in which the rule was reached, k kept it; a session that never
/// came to it says nothing about it. Discrimination is the point-biserial
/// correlation between keeping it (1 or 0) and the rest x of the marks, which is the total without
/// the parts to which the rule contributes ([`super::rest::Rest`]):
///
/// ```text
/// r = (M1 - M0)/s sqrt(p (1 - p))
///   = (n Σk x - k Σx)/sqrt(k (n - k) (n Σx² - (Σx)²))
/// ```
///
/// M1 and M0 are the mean rests of the sessions that kept and that broke it, s the standard
/// deviation of all rests with n as divisor, Σk the sum over the sessions that kept it. The value
/// is between -1 and 1: near 1 the rule distinguishes good sessions from bad ones, near 0 it does
/// not, below 0 it punishes good sessions. The figures hold for the mix of operators that took
/// part.
///
/// Source: classical test theory, item difficulty and corrected item-total correlation, as in Lord
/// and Novick, Statistical Theories of Mental Test Scores (1968), chapter 15 (MEMORY).
pub fn rule_figures<'a>(tallies: impl IntoIterator<Item = &'a Tally>) -> Vec<RuleFigures> {
    let mut all = Tally::default();
    for tally in tallies {
        all.merge(tally);
    }
    let figures = |rule: &'static ProcedureRule| {
        let count = all.rules.get(rule.id).copied().unwrap_or_default();
        let of = count.reached;
        let kept = of.saturating_sub(count.broken);
        let sum = count.rests.sum;
        let kept_rest = sum.saturating_sub(count.broken_rest);
        let difficulty = if of == 0 { 0.0 } else { kept as f64 / of as f64 };
        let discrimination = point_biserial(of, kept, kept_rest, sum, count.rests.spread(of));
        RuleFigures { rule: rule.id, title: rule.title, kept, of, difficulty, discrimination }
    };
    RULES.iter().map(|rule| figures(rule)).collect()
}

/// (n Σk x - k Σx)/sqrt(k (n - k) spread), spread = n Σx² - (Σx)².
fn point_biserial(n: u64, kept: u64, kept_sum: u64, sum: u64, spread: u128) -> Option<f64> {
    if kept == 0 || kept >= n || spread == 0 {
        return None;
    }
    let above = i128::from(n) * i128::from(kept_sum) - i128::from(kept) * i128::from(sum);
    let shares = kept as f64 * (n - kept) as f64;
    let r = above as f64 / (shares.sqrt() * (spread as f64).sqrt());
    Some(r.clamp(-1.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::super::rest::Rest;
    use super::point_biserial;
    use crate::procedure::RULES;

    #[test]
    fn a_point_biserial_by_hand() {
        // Five sessions: kept with 90, 80, 70; broken with 60, 50. Mean 70, s² = 1000/5 = 200.
        // M1 = 80, M0 = 55, p = 0.6: r = 25/sqrt(200) sqrt(0.24) = 0.866025.
        let marks: [u64; 5] = [90, 80, 70, 60, 50];
        let (sum, squares) = (350, marks.iter().map(|x| x * x).sum::<u64>());
        let spread = u128::from(5 * squares - sum * sum);
        let r = point_biserial(5, 3, 240, sum, spread).unwrap();
        assert!((r - 0.75_f64.sqrt()).abs() < 1e-12, "{r}");
        // Kept by the two worst instead: M1 = 55, M0 = 80, p = 0.4.
        let r = point_biserial(5, 2, 110, sum, spread).unwrap();
        assert!((r + 0.75_f64.sqrt()).abs() < 1e-12, "{r}");
    }

    #[test]
    fn who_all_keep_a_rule_are_not_told_apart_by_it() {
        assert_eq!(point_biserial(5, 5, 350, 350, 5000), None);
        assert_eq!(point_biserial(5, 0, 0, 350, 5000), None);
        assert_eq!(point_biserial(5, 3, 210, 350, 0), None);
        assert_eq!(point_biserial(0, 0, 0, 0, 0), None);
    }

    #[test]
    fn rules_that_feed_two_parts_exist() {
        let of = |rest| RULES.iter().filter(|rule| Rest::of(rule) == rest).count();
        assert_eq!((of(Rest::Fit), of(Rest::Judgement)), (3, 6));
        assert!(of(Rest::Safety) > 0 && of(Rest::Procedure) > 0);
    }
}
