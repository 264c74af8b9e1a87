//! The bench's own time: whole ticks since the session began, never a wall clock.

use serde::{Deserialize, Deserializer, Serialize};

use crate::digest::digest_names;
use crate::text::{no_such_value, printable};

/// Ticks in one second of bench time.
pub const TICKS_PER_SECOND: u64 = 20;

/// Length of one tick, s.
pub const TICK_SECONDS: f64 = 0.05;

/// A moment, counted in ticks from the start of the session.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Tick(pub u64);

digest_names!(Tick);

impl Tick {
    /// The tick at a whole number of seconds.
    pub const fn from_seconds(seconds: u64) -> Self {
        Self(seconds.saturating_mul(TICKS_PER_SECOND))
    }

    /// Seconds since the session began.
    pub fn seconds(self) -> f64 {
        self.0 as f64 * TICK_SECONDS
    }

    /// Whole seconds since the session began.
    pub const fn whole_seconds(self) -> u64 {
        self.0 / TICKS_PER_SECOND
    }

    /// The tick that is `ticks` later.
    pub const fn later(self, ticks: u64) -> Self {
        Self(self.0.saturating_add(ticks))
    }

    /// Seconds from `earlier` to this tick; zero if `earlier` is later.
    pub fn seconds_since(self, earlier: Self) -> f64 {
        Self(self.0.saturating_sub(earlier.0)).seconds()
    }
}

/// A length of bench time as people say it: "48 h 10 min", "2 min 5 s", "40 s". Above ten hours the
/// seconds are left out.
pub fn spoken(seconds: u64) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    let seconds = if hours < 10 { seconds } else { 0 };
    let parts: Vec<String> = [(hours, "h"), (minutes, "min"), (seconds, "s")]
        .into_iter()
        .filter(|&(count, _)| count > 0)
        .map(|(count, unit)| format!("{count} {unit}"))
        .collect();
    if parts.is_empty() { "0 s".to_owned() } else { parts.join(" ") }
}

/// A time of day on the station's watch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "String")]
pub struct TimeOfDay {
    seconds: u32,
}

impl TimeOfDay {
    /// A time of day from hour (0 to 23), minute and second.
    ///
    /// # Errors
    ///
    /// When a part is out of its range.
    pub fn new(hour: u32, minute: u32, second: u32) -> Result<Self, TimeOfDayError> {
        if hour < 24 && minute < 60 && second < 60 {
            Ok(Self { seconds: hour * 3600 + minute * 60 + second })
        } else {
            Err(TimeOfDayError(format!("{hour}:{minute:02}:{second:02}")))
        }
    }

    /// The time of day `tick` after this one, wrapping at midnight.
    pub fn after(self, tick: Tick) -> Self {
        let seconds = (u64::from(self.seconds) + tick.whole_seconds()) % 86_400;
        Self { seconds: seconds as u32 }
    }

    /// Hours since midnight, with their fraction.
    pub fn hours(self) -> f64 {
        f64::from(self.seconds) / 3600.0
    }

    /// Hour, minute and second.
    pub const fn parts(self) -> (u32, u32, u32) {
        (self.seconds / 3600, self.seconds / 60 % 60, self.seconds % 60)
    }
}

impl std::fmt::Display for TimeOfDay {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (hour, minute, second) = self.parts();
        write!(f, "{hour:02}:{minute:02}:{second:02}")
    }
}

/// The text is not a time of day.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a time of day: write it as 08:30 or 08:30:00", printable(.0))]
pub struct TimeOfDayError(String);

impl TryFrom<String> for TimeOfDay {
    type Error = TimeOfDayError;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        let parts: Option<Vec<u32>> = text
            .split(':')
            .map(|part| if part.len() <= 2 { part.parse().ok() } else { None })
            .collect();
        match parts.as_deref() {
            Some(&[hour, minute]) => Self::new(hour, minute, 0).map_err(|_| TimeOfDayError(text)),
            Some(&[hour, minute, second]) => {
                Self::new(hour, minute, second).map_err(|_| TimeOfDayError(text))
            }
            _ => Err(TimeOfDayError(text)),
        }
    }
}

impl<'de> Deserialize<'de> for TimeOfDay {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        Self::try_from(String::deserialize(reader)?).map_err(|TimeOfDayError(text)| {
            no_such_value(&text, "a time of day, such as 08:30 or 08:30:00")
        })
    }
}

impl From<TimeOfDay> for String {
    fn from(time: TimeOfDay) -> Self {
        time.to_string()
    }
}

/// A calendar date (proleptic Gregorian), written `2026-03-17`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(into = "String")]
pub struct Date {
    year: i32,
    month: u8,
    day: u8,
}

/// The text is not a date.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a date: write it as 2026-03-17 (year, month, day)", printable(.0))]
pub struct DateError(String);

impl Date {
    /// A date from year (1900 to 2200), month and day.
    ///
    /// # Errors
    ///
    /// When there is no such day.
    pub fn new(year: i32, month: u8, day: u8) -> Result<Self, DateError> {
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let length = match month {
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            1..=12 => 31,
            _ => 0,
        };
        if (1900..=2200).contains(&year) && (1..=length).contains(&day) {
            Ok(Self { year, month, day })
        } else {
            Err(DateError(format!("{year:04}-{month:02}-{day:02}")))
        }
    }

    /// Year, month and day.
    pub const fn parts(self) -> (i32, u8, u8) {
        (self.year, self.month, self.day)
    }

    /// Days since 1 March of the year 0: only differences mean anything.
    pub fn day_number(self) -> i64 {
        let (y, m) = if self.month > 2 {
            (i64::from(self.year), i64::from(self.month) - 3)
        } else {
            (i64::from(self.year) - 1, i64::from(self.month) + 9)
        };
        365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + i64::from(self.day) - 1
    }

    /// Day of the week, 0 (Monday) to 6.
    pub fn weekday(self) -> u8 {
        // 1 March of the year 0 was a Wednesday.
        (self.day_number() + 2).rem_euclid(7) as u8
    }

    /// The first of January of a year.
    pub(crate) const fn first_of(year: i32) -> Self {
        Self { year, month: 1, day: 1 }
    }

    /// The date this many days later (0 or more; ten years at most).
    pub fn later(self, days: i64) -> Self {
        let mut date = self;
        for _ in 0..days.clamp(0, 3653) {
            let (year, month, day) = date.parts();
            date = Self::new(year, month, day + 1)
                .or_else(|_| Self::new(year, month + 1, 1))
                .or_else(|_| Self::new(year + 1, 1, 1))
                .unwrap_or(date);
        }
        date
    }

    /// The date this many days earlier (0 or more; ten years at most).
    pub fn earlier(self, days: i64) -> Self {
        let mut date = self;
        for _ in 0..days.clamp(0, 3653) {
            let (year, month, day) = date.parts();
            let end_of =
                |month: u8| (28..=31).rev().find_map(|day| Self::new(year, month, day).ok());
            date = Self::new(year, month, day.saturating_sub(1))
                .ok()
                .or_else(|| end_of(month.saturating_sub(1)))
                .or_else(|| Self::new(year.saturating_sub(1), 12, 31).ok())
                .unwrap_or(date);
        }
        date
    }

    /// Days from `earlier` to this date; negative when `earlier` is later.
    pub fn days_since(self, earlier: Self) -> i64 {
        self.day_number() - earlier.day_number()
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl TryFrom<String> for Date {
    type Error = DateError;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        let mut parts = text.splitn(3, '-');
        let parsed = (|| {
            let year = parts.next()?.parse().ok()?;
            let month = parts.next()?.parse().ok()?;
            let day = parts.next()?.parse().ok()?;
            Self::new(year, month, day).ok()
        })();
        parsed.ok_or(DateError(text))
    }
}

impl<'de> Deserialize<'de> for Date {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        Self::try_from(String::deserialize(reader)?).map_err(|DateError(text)| {
            no_such_value(&text, "a date (year, month, day), such as 2026-03-17")
        })
    }
}

impl From<Date> for String {
    fn from(date: Date) -> Self {
        date.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn so_many_days_earlier_is_so_many_days_ago() {
        for today in [Date::new(2026, 3, 1).unwrap(), Date::new(2024, 3, 1).unwrap()] {
            for days in [0, 1, 2, 28, 29, 59, 60, 61, 366, 490] {
                let then = today.earlier(days);
                assert_eq!(today.days_since(then), days);
                assert_eq!(then.later(days), today);
            }
        }
    }

    #[test]
    fn a_length_of_time_is_said_as_people_say_it() {
        for (seconds, said) in [
            (0, "0 s"),
            (40, "40 s"),
            (125, "2 min 5 s"),
            (3600, "1 h"),
            (4 * 3600 + 61, "4 h 1 min 1 s"),
            (48 * 3600 + 10 * 60 + 20, "48 h 10 min"),
        ] {
            assert_eq!(spoken(seconds), said);
        }
    }

    #[test]
    fn days_back_are_days_on_again() {
        let date = Date::new(2024, 3, 1).unwrap();
        for days in [0, 1, 59, 60, 61, 426, 1000] {
            let earlier = date.earlier(days);
            assert_eq!(date.days_since(earlier), days);
            assert_eq!(earlier.later(days), date);
        }
        assert_eq!(date.earlier(1), Date::new(2024, 2, 29).unwrap());
    }
}
