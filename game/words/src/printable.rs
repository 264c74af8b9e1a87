//! Texts of other people on a line of a terminal.

/// A text that somebody else wrote (in a journal, a scenario, a file name or a sentence), as it can stand
/// on one line of a terminal.
///
/// A character that would steer the terminal, turn the direction of writing, or break the line is written
/// as its number, `\u{1b}`. Whoever made the text can then neither paint over what stands there nor make
/// words of their own look like the program's.
pub fn printable(text: &str) -> String {
    sim_core::text::printable(text).into_owned()
}

/// The same of a text that may have several lines of its own.
pub fn printable_lines(text: &str) -> String {
    text.lines().map(printable).collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_would_steer_a_terminal_is_written_as_its_number() {
        for (text, shown) in [
            ("plain words, ß ½ 漢字 é", "plain words, ß ½ 漢字 é"),
            ("\u{1b}[2Jgone", "\\u{1b}[2Jgone"),
            ("two\nlines\r\u{85}", "two\\u{a}lines\\u{d}\\u{85}"),
            ("\u{202e}desrever\u{202c}", "\\u{202e}desrever\\u{202c}"),
            ("\u{2067}a\u{2069}\u{61c}\u{200f}", "\\u{2067}a\\u{2069}\\u{61c}\\u{200f}"),
            ("a\u{2028}b\u{2029}c\u{9b}31m", "a\\u{2028}b\\u{2029}c\\u{9b}31m"),
            ("\u{7f}\u{0}\t", "\\u{7f}\\u{0}\\u{9}"),
        ] {
            assert_eq!(printable(text), shown);
        }
        assert_eq!(printable_lines("one\ntwo\u{7}"), "one\ntwo\\u{7}");
    }
}
