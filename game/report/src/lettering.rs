//! How wide words are: IBM Plex Sans, shaped as it will be set.

use std::sync::OnceLock;

use rustybuzz::{Face, UnicodeBuffer};

/// The faces that reports are set in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// For text.
    Regular,
    /// For headings and what counts.
    SemiBold,
}

impl Style {
    /// The font's file.
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../../../assets/fonts/IBMPlexSans-Regular.ttf"),
            Self::SemiBold => include_bytes!("../../../assets/fonts/IBMPlexSans-SemiBold.ttf"),
        }
    }

    fn face(self) -> Option<&'static Face<'static>> {
        static REGULAR: OnceLock<Option<Face<'static>>> = OnceLock::new();
        static SEMI_BOLD: OnceLock<Option<Face<'static>>> = OnceLock::new();
        let kept = match self {
            Self::Regular => &REGULAR,
            Self::SemiBold => &SEMI_BOLD,
        };
        kept.get_or_init(|| Face::from_slice(self.bytes(), 0)).as_ref()
    }
}

/// Width of words set in one line, in the unit of `size`.
pub fn width(style: Style, size: f64, words: &str) -> f64 {
    let Some(face) = style.face() else { return 0.5 * size * words.chars().count() as f64 };
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(words);
    let shaped = rustybuzz::shape(face, &[], buffer);
    let advance: f64 = shaped.glyph_positions().iter().map(|at| f64::from(at.x_advance)).sum();
    advance * size / f64::from(face.units_per_em())
}

/// Words broken into lines not wider than `most`; a word that is wider is broken itself.
pub fn wrapped(style: Style, size: f64, words: &str, most: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words.split_whitespace() {
        for piece in pieces(style, size, word, most) {
            let longer = if line.is_empty() { piece.clone() } else { format!("{line} {piece}") };
            if line.is_empty() || width(style, size, &longer) <= most {
                line = longer;
            } else {
                lines.push(std::mem::replace(&mut line, piece));
            }
        }
    }
    lines.push(line);
    lines
}

/// A word, in pieces where it is wider than a line.
pub fn pieces(style: Style, size: f64, word: &str, most: f64) -> Vec<String> {
    if width(style, size, word) <= most {
        return vec![word.to_owned()];
    }
    let mut pieces = Vec::new();
    let mut piece = String::new();
    for letter in word.chars() {
        piece.push(letter);
        if piece.chars().count() > 1 && width(style, size, &piece) > most {
            piece.pop();
            pieces.push(std::mem::replace(&mut piece, letter.to_string()));
        }
    }
    pieces.push(piece);
    pieces
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    #[test]
    fn lines_are_no_wider_than_they_may_be() {
        let words =
            "The wrong one gives a fine line, r = 0.998, and 40c0b2a8ffee40c0b2a8ffee40c0b2a8ffee.";
        let lines = wrapped(Style::Regular, 10.0, words, 90.0);
        assert!(lines.iter().all(|line| width(Style::Regular, 10.0, line) <= 90.0), "{lines:?}");
        let together: String = lines.concat().split_whitespace().collect();
        assert_eq!(together, words.split_whitespace().collect::<String>());
    }

    #[test]
    fn every_sign_that_a_report_writes_is_in_the_font() {
        for style in [Style::Regular, Style::SemiBold] {
            let face = style.face().unwrap();
            for sign in "m³/min °C ± − – Δ √ ≤ ✓ · ½ µ • “ ”".chars().filter(|sign| *sign != ' ')
            {
                assert!(face.glyph_index(sign).is_some(), "{sign} in {style:?}");
            }
        }
    }
}
