//! When a habit falls away, and when it comes back.
//!
//! A habit falls away as soon as something that addresses it is good enough or passed. What is learnt in
//! that way holds for [`HOLDS`] times as long as the Leitner box of that step waits; whoever does the
//! step again in that time holds on to it, and for longer with each box. Otherwise the habit comes back
//! until the next practice (all CHOSEN).

use std::collections::BTreeMap;

use super::addressed::{ADDRESSED, AddressedHabit};
use crate::plan::spacing::{DAY_S, LeitnerBox};

/// So many times the days of its box something is remembered (CHOSEN).
pub const HOLDS: u64 = 2;

/// The habits of one learner.
#[derive(Debug, Clone)]
pub struct HabitMemory {
    /// The habits that the learner came with.
    came_with: Vec<&'static str>,
    /// Until when each is kept down, seconds since 1970-01-01 00:00 UTC.
    held_until: BTreeMap<&'static str, u64>,
}

impl HabitMemory {
    /// A learner with these habits.
    pub const fn new(came_with: Vec<&'static str>) -> Self {
        Self { came_with, held_until: BTreeMap::new() }
    }

    /// Something was practised with success at this moment; its step lies in this box now.
    pub fn practised(
        &mut self,
        now_s: u64,
        leitner: LeitnerBox,
        addresses: impl Fn(&AddressedHabit) -> bool,
    ) {
        let until = now_s.saturating_add(HOLDS * leitner.days() * DAY_S);
        for row in ADDRESSED.iter().filter(|row| addresses(row)) {
            let held = self.held_until.entry(row.habit).or_insert(until);
            *held = (*held).max(until);
        }
    }

    /// The habits at a moment, in the order of the table.
    pub fn habits(&self, now_s: u64) -> Vec<&'static str> {
        let is_held =
            |habit: &&&str| self.held_until.get(**habit).is_some_and(|until| now_s <= *until);
        self.came_with.iter().filter(|habit| !is_held(habit)).copied().collect()
    }

    /// The same as the name of a scripted operator.
    pub fn operator(&self, now_s: u64) -> String {
        let habits = self.habits(now_s);
        if habits.is_empty() { "careful".to_owned() } else { habits.join("+") }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::DrillKind;

    #[test]
    fn a_habit_falls_away_when_it_is_addressed_and_comes_back_when_it_is_not_practised() {
        let mut memory = HabitMemory::new(vec!["one-leg", "sees-faults"]);
        assert_eq!(memory.operator(0), "one-leg+sees-faults");
        memory.practised(0, LeitnerBox::FIRST, |row| row.by_drill(DrillKind::Difference));
        assert_eq!(memory.operator(0), "sees-faults");
        // The first box waits a day, and it is remembered for two.
        assert_eq!(memory.operator(2 * DAY_S), "sees-faults");
        assert_eq!(memory.operator(2 * DAY_S + 1), "one-leg+sees-faults");
        memory.practised(3 * DAY_S, LeitnerBox::FIRST, |row| row.by_drill(DrillKind::Station));
        assert_eq!(memory.operator(3 * DAY_S), "one-leg");
    }

    #[test]
    fn nobody_picks_up_a_habit_that_they_did_not_come_with() {
        let mut memory = HabitMemory::new(Vec::new());
        memory.practised(0, LeitnerBox::FIRST, |_| true);
        assert_eq!(memory.operator(900 * DAY_S), "careful");
    }
}
