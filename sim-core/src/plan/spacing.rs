//! When something that was learnt is due again: Leitner's boxes.
//!
//! What is good enough for the first time goes into the first box. Each time that it is done again and
//! still good enough it goes one box up, and each time that it is not it goes back to the first. A
//! higher box waits longer (S. Leitner, "So lernt man lernen", Herder, Freiburg 1972, MEMORY). Leitner
//! made each box larger than the one before and took a box up when it was full; that a box waits a
//! fixed number of days, and how many, is CHOSEN: a day, half a week, one week, two weeks, a month.

/// Days that each box waits (CHOSEN).
pub const BOX_DAYS: [u64; 5] = [1, 3, 7, 14, 30];

/// Where the rule comes from, as a page gives it.
pub const SOURCE: &str = "Leitner's boxes (S. Leitner, So lernt man lernen, 1972): one box up each time it is still good \
    enough, back to the first if it is not. The boxes wait 1, 3, 7, 14 and 30 days (chosen for this bench).";

/// Seconds of a day.
pub const DAY_S: u64 = 86_400;

/// A box: what lies in it is due again after so many days.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct LeitnerBox(u8);

impl LeitnerBox {
    /// The first box.
    pub const FIRST: Self = Self(0);

    /// Its number, from 1.
    pub const fn number(self) -> u8 {
        self.0 + 1
    }

    /// The box after it was done again.
    #[must_use]
    pub const fn after(self, kept: Kept) -> Self {
        match kept {
            Kept::Yes if (self.0 as usize) + 1 < BOX_DAYS.len() => Self(self.0 + 1),
            Kept::Yes => self,
            Kept::No => Self::FIRST,
        }
    }

    /// Days that it waits.
    pub fn days(self) -> u64 {
        BOX_DAYS.get(usize::from(self.0)).copied().unwrap_or(1)
    }

    /// When what was put into it at this moment is due again.
    pub fn due(self, put_unix_s: u64) -> u64 {
        put_unix_s.saturating_add(self.days() * DAY_S)
    }
}

/// Whether something was still good enough when it was done again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// It was.
    Yes,
    /// It was not.
    No,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_goes_up_and_what_is_lost_goes_back() {
        let mut one = LeitnerBox::FIRST;
        let mut days = vec![one.days()];
        for _ in 0..6 {
            one = one.after(Kept::Yes);
            days.push(one.days());
        }
        assert_eq!(days, [1, 3, 7, 14, 30, 30, 30]);
        assert_eq!(one.number(), 5);
        assert_eq!(one.after(Kept::No), LeitnerBox::FIRST);
        assert_eq!(LeitnerBox::FIRST.due(10), 10 + DAY_S);
        assert_eq!(one.due(u64::MAX), u64::MAX);
    }
}
