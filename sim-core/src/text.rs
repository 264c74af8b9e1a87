//! Text from outside the program, made safe to print.

use std::borrow::Cow;

use serde::de::{Error, Unexpected};

/// A text that is safe to print on one line of a terminal or a page.
///
/// Text from a journal, a scenario, a file name or a typed word may contain characters that act: a
/// control character can clear a terminal, a bidirectional one can make a line look different from
/// what it is, and a line or paragraph separator breaks a line in two. Each of these characters,
/// including line breaks and tabs, is replaced by its number, as in `\u{1b}`. To print a text of
/// several lines, call this function for each line.
///
/// ```
/// use sim_core::text::printable;
///
/// assert_eq!(printable("leaking valve, 2 µm"), "leaking valve, 2 µm");
/// assert_eq!(printable("0.1\u{1b}[2J\u{202e}"), r"0.1\u{1b}[2J\u{202e}");
/// ```
pub fn printable(text: &str) -> Cow<'_, str> {
    if !text.contains(is_unprintable) {
        return Cow::Borrowed(text);
    }
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        if is_unprintable(c) { safe.extend(c.escape_unicode()) } else { safe.push(c) }
    }
    Cow::Owned(safe)
}

/// The error about a value that is written in a scenario or a journal and does not exist, such as
/// the 31st of April. `expected` completes the words "write …". What was found and what is expected
/// are handed to the reader apart, so that a front end can say them without taking a message apart.
pub(crate) fn no_such_value<E: Error>(written: &str, expected: &str) -> E {
    E::invalid_value(Unexpected::Other(&format!("`{written}`")), &expected)
}

/// Whether a character does something other than show a sign in its line.
pub fn is_unprintable(c: char) -> bool {
    c.is_control() || is_bidi_control(c) || matches!(c, '\u{2028}' | '\u{2029}')
}

/// Whether a character changes the direction of writing, which can make a line look different from
/// what it is.
pub(crate) fn is_bidi_control(c: char) -> bool {
    matches!(
        c,
        '\u{061c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
    )
}

#[cfg(test)]
mod tests {
    use super::printable;

    #[test]
    fn what_can_be_read_stays_as_it_is() {
        for text in ["", "0.1.0", "Mühle – 2 µm, √(ΔH · P/760)", "½ 日本 עברית"] {
            assert_eq!(printable(text), text);
        }
    }

    #[test]
    fn what_would_act_on_the_page_is_shown_by_its_number() {
        let acting = "\0\t\n\r\u{1b}\u{7f}\u{85}\u{9b}\u{61c}\u{200e}\u{200f}\u{202a}\u{202e}\u{2028}\u{2029}\u{2066}\u{2069}";
        for c in acting.chars() {
            let safe = printable(&format!("a{c}b")).into_owned();
            assert_eq!(safe, format!("a{}b", c.escape_unicode()));
            assert_eq!(printable(&safe), safe, "made safe twice it stays the same");
        }
    }
}
