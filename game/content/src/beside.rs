//! Values of a sentence in the units that are set, beside those in which it speaks.

use super::units::{FlowUnit, PressureUnit, TemperatureUnit, Units, plain};

/// What a number before a unit is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Of {
    Temperature,
    Pressure,
    Flow,
}

/// Units as the program's own sentences write them; the longer before those that end like them.
const WRITTEN: [(&str, Of); 7] = [
    ("mmHg", Of::Pressure),
    ("degrees Celsius", Of::Temperature),
    ("\u{b0}C", Of::Temperature),
    ("std m\u{b3}/min", Of::Flow),
    ("std m3/min", Of::Flow),
    ("m\u{b3}/min", Of::Flow),
    ("m3/min", Of::Flow),
];

/// A text whose values stay on one line with their units.
pub fn kept_together(text: &str) -> String {
    let mut kept = text.to_owned();
    for digit in '0'..='9' {
        for (unit, _) in WRITTEN {
            kept = kept.replace(&format!("{digit} {unit}"), &format!("{digit}\u{a0}{unit}"));
        }
    }
    kept
}

impl Units {
    /// A sentence of the program's in which values stand in the units of the instruments or of the
    /// book: where other units are set, the value in these stands beside it in brackets. Both are
    /// needed where a sentence speaks of what was read or written. What somebody else said stands in
    /// quotation marks and is left as it was said.
    pub fn beside(self, text: &str) -> String {
        let mut said = String::with_capacity(text.len());
        for (part, whose) in parts(text) {
            match whose {
                Whose::Quoted => said.push_str(part),
                Whose::Own => self.beside_own(part, &mut said),
            }
        }
        said
    }

    /// The same of a text without quotations.
    fn beside_own(self, text: &str, said: &mut String) {
        let mut rest = text;
        while let Some((at, unit, of)) = first_unit(rest) {
            let (before, behind) = rest.split_at(at);
            let after = behind.strip_prefix(unit).unwrap_or_default();
            said.push_str(before);
            said.push_str(unit);
            if let Some(beside) = self.converted(before, of, after) {
                said.push_str(" (");
                said.push_str(&beside);
                said.push(')');
            }
            rest = after;
        }
        said.push_str(rest);
    }

    /// The number, or the span of numbers, that ends a text, in the unit that is set; `None` where
    /// it is set as it stands or there is no number.
    fn converted(self, before: &str, of: Of, after: &str) -> Option<String> {
        let same = match of {
            Of::Temperature => self.temperature == TemperatureUnit::Celsius,
            Of::Pressure => self.pressure == PressureUnit::MmHg,
            Of::Flow => self.flow == FlowUnit::M3Min,
        };
        if same {
            return None;
        }
        let (ahead, last) = last_number(before)?;
        if of == Of::Temperature && is_difference(ahead, last, after) {
            return self.temperature_difference(last);
        }
        let spanned = ahead.strip_suffix(" to ").and_then(last_number);
        let least = match spanned {
            Some((_, first)) => format!("{} to ", without_unit(&self.one(first, of)?)),
            None => String::new(),
        };
        Some(format!("{least}{}", self.one(last, of)?))
    }

    /// One number as it was written.
    fn one(self, written: &str, of: Of) -> Option<String> {
        let (sign, value, decimals) = number(written)?;
        Some(match of {
            Of::Temperature => self.temperature(value, decimals),
            Of::Pressure => format!("{sign}{}", self.pressure(value, decimals)),
            Of::Flow => format!("{sign}{}", self.flow(value, decimals)),
        })
    }

    /// A difference of temperatures, which has no zero of its own: only the size of the degree counts.
    fn temperature_difference(self, written: &str) -> Option<String> {
        let (sign, value, decimals) = number(written)?;
        let degrees = value * FAHRENHEIT_A_KELVIN;
        // A degree of the other scale is smaller: a digit more says as much.
        let said: f64 = plain(degrees, decimals).parse().ok()?;
        let whole = (said - degrees).abs() < 1e-6;
        let decimals = if whole { decimals } else { decimals + 1 };
        Some(format!("{sign}{} {}", plain(degrees, decimals), self.temperature.name()))
    }
}

/// Degrees Fahrenheit in a kelvin, exactly.
const FAHRENHEIT_A_KELVIN: f64 = 1.8;
/// Words before a temperature that make it a difference.
const BEFORE_DIFFERENCE: [&str; 4] = ["by", "within", "off", "differ"];
/// Words behind a temperature that make it a difference.
const AFTER_DIFFERENCE: [&str; 9] =
    ["high", "low", "higher", "lower", "warmer", "colder", "off", "apart", "too"];

/// Whether a number before degrees is how far two temperatures are apart.
fn is_difference(ahead: &str, written: &str, after: &str) -> bool {
    let bare = |word: &str| word.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase();
    let last = ahead.split_whitespace().next_back().map(bare).unwrap_or_default();
    let next = after.split_whitespace().next().map(bare).unwrap_or_default();
    // A unit for each hour is a rate, and what follows a number closely belongs to it.
    let rate = after.starts_with('/');
    written.starts_with('\u{b1}')
        || ahead.ends_with('+')
        || rate
        || BEFORE_DIFFERENCE.contains(&last.as_str())
        || AFTER_DIFFERENCE.contains(&next.as_str())
}

/// Whose words a part of a text is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Whose {
    /// The program's own.
    Own,
    /// Somebody else's, with their quotation marks.
    Quoted,
}

/// A text cut into the program's own words and quotations.
fn parts(text: &str) -> Vec<(&str, Whose)> {
    let mut parts = Vec::new();
    let mut rest = text;
    while let Some((from, to)) = first_quotation(rest) {
        let (own, behind) = rest.split_at(from);
        let (quoted, after) = behind.split_at(to - from);
        parts.extend([(own, Whose::Own), (quoted, Whose::Quoted)]);
        rest = after;
    }
    parts.push((rest, Whose::Own));
    parts
}

/// From where to where the first quotation stands, bytes, its marks included. An apostrophe within a word
/// is no mark, and neither is a mark without its other half.
fn first_quotation(text: &str) -> Option<(usize, usize)> {
    text.char_indices().find_map(|(from, mark)| {
        let closing = match mark {
            '\u{201c}' => '\u{201d}',
            '\u{2018}' => '\u{2019}',
            '"' | '`' | '\'' => mark,
            _ => return None,
        };
        let before = text.get(..from)?.chars().next_back();
        if before.is_some_and(char::is_alphanumeric) {
            return None;
        }
        let inside = text.get(from + mark.len_utf8()..)?;
        let ends = |&(at, c): &(usize, char)| {
            let next = inside.get(at + c.len_utf8()..).and_then(|rest| rest.chars().next());
            c == closing && !next.is_some_and(char::is_alphanumeric)
        };
        let (at, _) = inside.char_indices().find(ends)?;
        Some((from, from + mark.len_utf8() + at + closing.len_utf8()))
    })
}

/// A number as it was written: the sign of a difference, the value, and its decimals.
fn number(written: &str) -> Option<(&'static str, f64, usize)> {
    let digits = written.trim_start_matches('\u{b1}');
    let sign = if digits.len() < written.len() { "\u{b1}" } else { "" };
    let value: f64 = digits.replace('\u{2212}', "-").parse().ok()?;
    let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    Some((sign, value, decimals))
}

/// Where the first unit stands.
fn first_unit(text: &str) -> Option<(usize, &'static str, Of)> {
    WRITTEN
        .into_iter()
        .filter_map(|(unit, of)| Some((text.find(unit)?, unit, of)))
        .min_by_key(|&(at, unit, _)| (at, usize::MAX - unit.len()))
}

/// A text without the number that ends it, and that number.
fn last_number(text: &str) -> Option<(&str, &str)> {
    let trimmed = text.trim_end();
    let part = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '\u{2212}' | '\u{b1}');
    let start =
        trimmed.char_indices().rev().take_while(|(_, c)| part(*c)).last().map(|(at, _)| at)?;
    let (ahead, number) = trimmed.split_at(start);
    number.chars().any(|c| c.is_ascii_digit()).then_some((ahead, number))
}

/// A value without its unit.
fn without_unit(value: &str) -> &str {
    value.split(' ').next().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::kept_together;
    use crate::units::choices::{OTHER, USUAL};

    #[test]
    fn a_sentence_keeps_its_values_and_has_the_others_beside_them() {
        let text = "wrote 761 mmHg, the station had 748.2 mmHg at 31.5 \u{b0}C";
        assert_eq!(USUAL.beside(text), text);
        assert_eq!(
            OTHER.beside(text),
            "wrote 761 mmHg (1015 hPa), the station had 748.2 mmHg (997.5 hPa) at 31.5 \u{b0}C \
             (88.7 \u{b0}F)"
        );
        assert_eq!(
            OTHER.beside("points from 1.1 to 1.7 m\u{b3}/min"),
            "points from 1.1 to 1.7 m\u{b3}/min (38.8 to 60.0 ft\u{b3}/min)"
        );
        assert_eq!(
            OTHER.beside("within \u{b1}15 \u{b0}C"),
            "within \u{b1}15 \u{b0}C (\u{b1}27 \u{b0}F)"
        );
        assert_eq!(OTHER.beside("mmHg are asked for"), "mmHg are asked for");
        assert_eq!(OTHER.beside("m\u{b3}"), "m\u{b3}");
    }

    #[test]
    fn a_difference_has_no_zero_of_its_own() {
        for (text, said) in [
            (
                "the thermometer reads 2 \u{b0}C high",
                "the thermometer reads 2 \u{b0}C (3.6 \u{b0}F) high",
            ),
            ("it is 0.5 \u{b0}C too low", "it is 0.5 \u{b0}C (0.9 \u{b0}F) too low"),
            ("off by 10 \u{b0}C", "off by 10 \u{b0}C (18 \u{b0}F)"),
            ("+1.5 \u{b0}C", "+1.5 \u{b0}C (2.7 \u{b0}F)"),
            ("6 \u{b0}C/h", "6 \u{b0}C (10.8 \u{b0}F)/h"),
            ("1.25 \u{b0}C apart", "1.25 \u{b0}C (2.25 \u{b0}F) apart"),
            (
                "it shows 2 \u{b0}C, highly unlikely",
                "it shows 2 \u{b0}C (36 \u{b0}F), highly unlikely",
            ),
            ("-3.5 \u{b0}C", "-3.5 \u{b0}C (25.7 \u{b0}F)"),
        ] {
            assert_eq!(OTHER.beside(text), said);
        }
    }

    #[test]
    fn what_somebody_else_said_is_left_alone() {
        for text in [
            "At the thermometer: \u{201c}reads 2 \u{b0}C high\u{201d}",
            "reported 'reads 2 \u{b0}C high', noted",
            "written as `12 \u{b0}C`",
            "'the station's 760 mmHg'",
            "marked \"12 \u{b0}C\"",
            "\u{2018}760 mmHg\u{2019}",
        ] {
            assert_eq!(OTHER.beside(text), text);
        }
        assert_eq!(
            OTHER.beside("`12 C` at the sampler's 20 \u{b0}C and 'one"),
            "`12 C` at the sampler's 20 \u{b0}C (68 \u{b0}F) and 'one"
        );
    }

    #[test]
    fn a_value_stays_with_its_unit() {
        let kept = kept_together("run at 760.0 mmHg and 17 \u{b0}C, 1.13 std m3/min; mmHg alone");
        assert_eq!(
            kept,
            "run at 760.0\u{a0}mmHg and 17\u{a0}\u{b0}C, 1.13\u{a0}std m3/min; mmHg alone"
        );
    }
}
