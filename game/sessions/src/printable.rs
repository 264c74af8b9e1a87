//! Text from outside (file names, journals, scenarios, typed words), made safe to print.

use std::borrow::Cow;
use std::path::Path;

use sim_core::text::is_unprintable;
pub use sim_core::text::printable;

/// As [`printable`], for a text of several lines: its line breaks stay.
pub fn printable_lines(text: &str) -> Cow<'_, str> {
    if !text.contains(|c| c != '\n' && is_unprintable(c)) {
        return Cow::Borrowed(text);
    }
    let lines: Vec<Cow<'_, str>> = text.split('\n').map(printable).collect();
    Cow::Owned(lines.join("\n"))
}

/// JSON as it may be printed: the same characters are escaped in the way of JSON, so that the text
/// means what it meant. Outside its strings JSON has none of them but line breaks, which stay.
pub fn printable_json(json: &str) -> Cow<'_, str> {
    if !json.contains(|c| c != '\n' && is_unprintable(c)) {
        return Cow::Borrowed(json);
    }
    let mut safe = String::with_capacity(json.len());
    for c in json.chars() {
        if c != '\n' && is_unprintable(c) {
            safe.push_str(&format!("\\u{:04x}", u32::from(c)));
        } else {
            safe.push(c);
        }
    }
    Cow::Owned(safe)
}

/// The name of a file as it may be printed.
pub fn printable_path(path: &Path) -> String {
    printable(&path.to_string_lossy()).into_owned()
}

#[cfg(test)]
mod tests {
    use super::{printable, printable_json, printable_lines};

    /// Characters that act on a terminal instead of standing in a line.
    const ACTING: &str = "\0\t\n\r\u{1b}\u{7f}\u{85}\u{9b}\u{61c}\u{200e}\u{200f}\u{2028}\u{2029}\u{202a}\u{202e}\u{2066}\u{2069}";

    #[test]
    fn readable_text_stays_as_it_is() {
        for text in ["", "0.1.0", "Mühle – 2 µm, √(ΔH · P/760)", "½ 日本 עברית", r"C:\new"]
        {
            assert_eq!(printable(text), text);
            assert_eq!(printable_lines(text), text);
        }
    }

    #[test]
    fn a_character_that_acts_is_shown_by_its_number() {
        for c in ACTING.chars() {
            let shown = format!("a{}b", c.escape_unicode());
            assert_eq!(printable(&format!("a{c}b")), shown);
            assert_eq!(printable(&shown), shown, "made safe twice it stays the same");
        }
    }

    #[test]
    fn lines_stay_lines_and_nothing_else_does() {
        assert_eq!(printable_lines("a\u{1b}\nb\u{202e}\r\n"), "a\\u{1b}\nb\\u{202e}\\u{d}\n");
    }

    #[test]
    fn json_means_what_it_meant() {
        let json = serde_json::json!({ "text": ACTING, "more": ["½", "\\u0041"] });
        for written in [json.to_string(), format!("{json:#}")] {
            let safe = printable_json(&written);
            assert!(!safe.contains(|c| c != '\n' && sim_core::text::is_unprintable(c)), "{safe}");
            assert_eq!(serde_json::from_str::<serde_json::Value>(&safe).expect("JSON"), json);
        }
    }
}
