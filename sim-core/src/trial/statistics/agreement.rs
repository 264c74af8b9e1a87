//! How often two sittings of the same person come to the same decision.

/// Decisions of pairs of sittings, counted.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, serde::Serialize)]
pub struct DecisionTable {
    /// Passed both.
    pub both_passed: u64,
    /// Passed the first alone.
    pub first_only: u64,
    /// Passed the second alone.
    pub second_only: u64,
    /// Passed neither.
    pub neither: u64,
}

impl DecisionTable {
    /// Counts pairs of decisions.
    pub fn of(pairs: impl IntoIterator<Item = (bool, bool)>) -> Self {
        let mut table = Self::default();
        for pair in pairs {
            *match pair {
                (true, true) => &mut table.both_passed,
                (true, false) => &mut table.first_only,
                (false, true) => &mut table.second_only,
                (false, false) => &mut table.neither,
            } += 1;
        }
        table
    }

    /// Number of pairs.
    pub const fn pairs(&self) -> u64 {
        self.both_passed + self.first_only + self.second_only + self.neither
    }

    /// Pairs with the same decision.
    pub const fn agreed(&self) -> u64 {
        self.both_passed + self.neither
    }

    /// Cohen's kappa, (p_o - p_e)/(1 - p_e): the share p_o of equal decisions beyond the share p_e
    /// that chance alone would give. `None` without pairs, or if both sittings always come to one
    /// and the same decision.
    ///
    /// Source: J. Cohen, Educational and Psychological Measurement 20 (1960) 37-46 (MEMORY).
    pub fn kappa(&self) -> Option<f64> {
        let n = self.pairs() as f64;
        if self.pairs() == 0 {
            return None;
        }
        let observed = self.agreed() as f64 / n;
        let first = (self.both_passed + self.first_only) as f64 / n;
        let second = (self.both_passed + self.second_only) as f64 / n;
        let by_chance = first * second + (1.0 - first) * (1.0 - second);
        (1.0 - by_chance > 1e-12).then(|| (observed - by_chance) / (1.0 - by_chance))
    }
}

#[cfg(test)]
mod tests {
    use super::DecisionTable;

    #[test]
    fn kappa_by_hand() {
        // 20 both, 5 first, 10 second, 15 neither: p_o = 0.7; first 0.5, second 0.6: p_e = 0.5.
        let table = DecisionTable { both_passed: 20, first_only: 5, second_only: 10, neither: 15 };
        assert!((table.kappa().unwrap() - 0.4).abs() < 1e-12);
        assert_eq!((table.pairs(), table.agreed()), (50, 35));
    }

    #[test]
    fn decisions_that_are_all_alike_leave_nothing_beyond_chance() {
        let table = DecisionTable::of([(true, true), (true, true)]);
        assert_eq!((table.agreed(), table.kappa()), (2, None));
        assert_eq!(DecisionTable::default().kappa(), None);
        let mixed = DecisionTable::of([(true, false), (false, true), (false, false)]);
        assert_eq!((mixed.first_only, mixed.second_only, mixed.neither), (1, 1, 1));
    }
}
