//! Seconds of a clock as date and time.

/// Seconds since 1970-01-01 00:00 UTC as date and time.
pub fn utc(unix_s: u64) -> String {
    let (days, second) = (unix_s / 86_400, unix_s % 86_400);
    let (year, month, day) = date(days);
    format!("{year:04}-{month:02}-{day:02} {:02}:{:02}", second / 3600, second / 60 % 60)
}

/// The same without its time.
pub fn utc_date(unix_s: u64) -> String {
    let (year, month, day) = date(unix_s / 86_400);
    format!("{year:04}-{month:02}-{day:02}")
}

/// The date so many days after 1970-01-01: first the year, then the month.
fn date(mut days: u64) -> (u64, u64, u64) {
    let leap = |year: u64| {
        year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
    };
    // The calendar repeats every 400 years, which are 146 097 days.
    let mut year = 1970 + 400 * (days / 146_097);
    days %= 146_097;
    while days >= 365 + u64::from(leap(year)) {
        days -= 365 + u64::from(leap(year));
        year += 1;
    }
    let lengths = [31, 28 + u64::from(leap(year)), 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let mut month = 1;
    for length in lengths {
        if days < length {
            break;
        }
        days -= length;
        month += 1;
    }
    (year, month, days + 1)
}

#[cfg(test)]
mod tests {
    use super::utc;

    #[test]
    fn seconds_become_date_and_time() {
        // Known moments of the count: its beginning, a billion seconds, a leap day, a new year.
        assert_eq!(utc(0), "1970-01-01 00:00");
        assert_eq!(utc(1_000_000_000), "2001-09-09 01:46");
        assert_eq!(utc(951_782_400), "2000-02-29 00:00");
        assert_eq!(utc(1_767_225_599), "2025-12-31 23:59");
    }
}
