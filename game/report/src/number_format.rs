//! How numbers are written in every report. What rounds to zero has no sign anywhere.

/// Written where a number is not known.
pub const UNKNOWN: &str = "–";

/// How a number is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NumberFormat {
    /// With so many decimals.
    Plain(usize),
    /// With so many decimals and its sign.
    Signed(usize),
}

impl NumberFormat {
    /// Writes a number.
    pub fn write(self, value: f64) -> String {
        let (text, decimals) = match self {
            Self::Plain(decimals) => (format!("{value:.decimals$}"), decimals),
            Self::Signed(decimals) => (format!("{value:+.decimals$}"), decimals),
        };
        let is_zero = !text.contains(|digit: char| ('1'..='9').contains(&digit));
        if is_zero && value.is_finite() { format!("{:.decimals$}", 0.0) } else { text }
    }

    /// Writes a number, or a dash where it is not known.
    pub fn write_known(self, value: Option<f64>) -> String {
        value.map_or_else(|| UNKNOWN.to_owned(), |value| self.write(value))
    }
}

/// A percentage with its sign, to two decimals.
pub fn signed_percent(value: f64) -> String {
    NumberFormat::Signed(2).write(value)
}

/// A duration as people say it: `48 min`, `5 h 12 min`.
pub fn duration(minutes: f64) -> String {
    let whole = minutes.max(0.0).round();
    let (hours, rest) = ((whole / 60.0).floor(), whole % 60.0);
    if hours > 0.0 { format!("{hours:.0} h {rest:.0} min") } else { format!("{rest:.0} min") }
}

#[cfg(test)]
mod tests {
    use super::{NumberFormat, duration, signed_percent};

    #[test]
    fn zero_has_no_sign() {
        assert_eq!(NumberFormat::Signed(2).write(-0.001), "0.00");
        assert_eq!(NumberFormat::Signed(2).write(1.005), "+1.00");
        assert_eq!(NumberFormat::Plain(1).write(-12.34), "-12.3");
        assert_eq!(NumberFormat::Plain(1).write(-0.0), "0.0");
        assert_eq!(NumberFormat::Plain(0).write(80.0), "80");
        assert_eq!(signed_percent(-29.1712), "-29.17");
        assert_eq!(signed_percent(3.0), "+3.00");
        assert_eq!(signed_percent(-0.0001), "0.00");
    }

    #[test]
    fn durations_are_written_as_people_say_them() {
        assert_eq!(duration(47.6), "48 min");
        assert_eq!(duration(60.0), "1 h 0 min");
        assert_eq!(duration(312.2), "5 h 12 min");
        assert_eq!(duration(-0.2), "0 min");
    }
}
