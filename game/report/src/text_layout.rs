//! How wide words are and where their lines break: IBM Plex Sans, shaped as the PDF and the plots set
//! it. Everything on paper is measured and broken here.

use std::sync::OnceLock;

use rustybuzz::{Face, UnicodeBuffer};

/// The typefaces that reports are set in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Typeface {
    /// For text.
    Regular,
    /// For headings and emphasis.
    SemiBold,
}

impl Typeface {
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
pub fn width(typeface: Typeface, size: f64, words: &str) -> f64 {
    let Some(face) = typeface.face() else { return 0.5 * size * words.chars().count() as f64 };
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(words);
    let shaped = rustybuzz::shape(face, &[], buffer);
    let advance: f64 = shaped.glyph_positions().iter().map(|at| f64::from(at.x_advance)).sum();
    advance * size / f64::from(face.units_per_em())
}

/// Words of one typeface in a line.
#[derive(Debug, Clone, PartialEq)]
pub struct SetRun {
    /// The typeface.
    pub typeface: Typeface,
    /// From the left edge of the line.
    pub x: f64,
    /// The words; a space at their end separates them from the next run.
    pub words: String,
}

/// A line while it is filled: runs of one typeface each.
type OpenLine = Vec<(Typeface, String)>;

/// Runs of words broken into lines not wider than `most`. Lines break at spaces; a word that is wider
/// than a line is broken itself.
pub fn lines(runs: &[(Typeface, &str)], size: f64, most: f64) -> Vec<Vec<SetRun>> {
    let mut lines = Vec::new();
    let mut line = OpenLine::new();
    for word in words(runs) {
        if !line.is_empty() {
            let longer = with(&line, &word);
            if line_width(&longer, size) <= most {
                line = longer;
                continue;
            }
            lines.push(std::mem::take(&mut line));
        }
        line = word;
        while line_width(&line, size) > most {
            let Some((first, rest)) = cut(&line, size, most) else { break };
            lines.push(first);
            line = rest;
        }
    }
    lines.push(line);
    lines.into_iter().map(|line| placed(line, size)).collect()
}

/// Words of one typeface broken into lines not wider than `most`.
pub fn wrapped(typeface: Typeface, size: f64, words: &str, most: f64) -> Vec<String> {
    let text = |line: Vec<SetRun>| line.into_iter().map(|run| run.words).collect();
    lines(&[(typeface, words)], size, most).into_iter().map(text).collect()
}

/// Words cut short with an ellipsis where one line has no room for all of them.
pub fn shortened(typeface: Typeface, size: f64, words: &str, most: f64) -> String {
    if width(typeface, size, words) <= most {
        return words.to_owned();
    }
    let mut kept = words.to_owned();
    while kept.pop().is_some() {
        let shorter = format!("{}\u{2026}", kept.trim_end());
        if width(typeface, size, &shorter) <= most {
            return shorter;
        }
    }
    String::new()
}

/// The words of some runs. A word may change its typeface on the way: there is no space between.
fn words(runs: &[(Typeface, &str)]) -> Vec<OpenLine> {
    let mut words = vec![OpenLine::new()];
    for (typeface, run) in runs {
        for (index, piece) in run.split(char::is_whitespace).enumerate() {
            if index > 0 {
                words.push(OpenLine::new());
            }
            if let Some(word) = words.last_mut().filter(|_| !piece.is_empty()) {
                word.push((*typeface, piece.to_owned()));
            }
        }
    }
    words.retain(|word| !word.is_empty());
    with_units(words)
}

/// The same words, with the unit of a number joined to it: a line does not break between the two.
fn with_units(words: Vec<OpenLine>) -> Vec<OpenLine> {
    let mut joined: Vec<OpenLine> = Vec::with_capacity(words.len());
    for word in words {
        match joined.last_mut() {
            Some(number) if is_unit_of(&word, number) => *number = with(number, &word),
            _ => joined.push(word),
        }
    }
    joined
}

/// Units that stay with their number.
const UNITS: [&str; 11] = ["%", "°C", "mmHg", "m³", "m³/min", "min", "h", "s", "in", "K", "m"];

/// Whether a word is the unit of a number.
fn is_unit_of(word: &OpenLine, number: &OpenLine) -> bool {
    let unit = match word.as_slice() {
        [(_, unit)] => unit.trim_end_matches(['.', ',', ';', ':', ')']),
        _ => return false,
    };
    let ends_in_digit = |words: &String| words.ends_with(|last: char| last.is_ascii_digit());
    UNITS.contains(&unit) && number.last().is_some_and(|(_, words)| ends_in_digit(words))
}

/// A line with another word added.
fn with(line: &OpenLine, word: &OpenLine) -> OpenLine {
    let mut line = line.clone();
    for (index, (typeface, piece)) in word.iter().enumerate() {
        if let Some((_, last)) = line.last_mut().filter(|_| index == 0) {
            last.push(' ');
        }
        match line.last_mut().filter(|(last, _)| last == typeface) {
            Some((_, last)) => last.push_str(piece),
            None => line.push((*typeface, piece.clone())),
        }
    }
    line
}

fn line_width(line: &OpenLine, size: f64) -> f64 {
    line.iter().map(|(typeface, words)| width(*typeface, size, words)).sum()
}

/// A word that is wider than a line, cut in two: after a sign that parts its pieces if there is one
/// late enough, and else after the last letter that fits. The first piece is never empty.
fn cut(word: &OpenLine, size: f64, most: f64) -> Option<(OpenLine, OpenLine)> {
    let letters: Vec<(Typeface, char)> = word
        .iter()
        .flat_map(|(typeface, words)| words.chars().map(move |letter| (*typeface, letter)))
        .collect();
    let first = |count: usize| joined(letters.get(..count).unwrap_or_default());
    // How many letters fit: widths grow with every letter.
    let (mut fits, mut too_many) = (1, letters.len());
    while too_many > fits + 1 {
        let middle = usize::midpoint(fits, too_many);
        if line_width(&first(middle), size) <= most {
            fits = middle;
        } else {
            too_many = middle;
        }
    }
    let parts =
        |at: &usize| letters.get(at - 1).is_some_and(|(_, letter)| "/\\_- ".contains(*letter));
    let count = (fits / 2 + 1..=fits).rev().find(parts).unwrap_or(fits);
    let rest = letters.get(count..).filter(|rest| !rest.is_empty())?;
    Some((first(count), joined(rest)))
}

/// Letters as runs.
fn joined(letters: &[(Typeface, char)]) -> OpenLine {
    let runs = letters.chunk_by(|one, other| one.0 == other.0);
    runs.filter_map(|run| Some((run.first()?.0, run.iter().map(|(_, letter)| letter).collect())))
        .collect()
}

fn placed(line: OpenLine, size: f64) -> Vec<SetRun> {
    let mut x = 0.0;
    let run = |(typeface, words): (Typeface, String)| {
        let run = SetRun { typeface, x, words };
        x += width(typeface, size, &run.words);
        run
    };
    line.into_iter().map(run).collect()
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    #[test]
    fn lines_are_no_wider_than_they_may_be() {
        let words =
            "The wrong one gives a fine line, r = 0.998, and 40c0b2a8ffee40c0b2a8ffee40c0b2a8ffee.";
        let lines = wrapped(Typeface::Regular, 10.0, words, 90.0);
        assert!(lines.iter().all(|line| width(Typeface::Regular, 10.0, line) <= 90.0), "{lines:?}");
        let together: String = lines.concat().split_whitespace().collect();
        assert_eq!(together, words.split_whitespace().collect::<String>());
    }

    #[test]
    fn runs_share_their_lines_and_long_words_are_broken_in_every_typeface() {
        let long = "journals/2026/".repeat(12);
        let runs = [
            (Typeface::SemiBold, long.as_str()),
            (Typeface::Regular, ": it is a copy of "),
            (Typeface::SemiBold, "another"),
        ];
        let lines = lines(&runs, 9.0, 120.0);
        for line in &lines {
            let last = line.last().unwrap();
            let right = last.x + width(last.typeface, 9.0, last.words.trim_end());
            assert!(right <= 120.0 + 1e-9, "{line:?}");
        }
        assert!(lines.first().unwrap().first().unwrap().words.ends_with('/'), "{lines:?}");
        let set: String = lines.iter().flatten().map(|run| run.words.as_str()).collect();
        let wanted: String = runs.iter().map(|run| run.1).collect();
        let unspaced = |text: &str| text.split_whitespace().collect::<String>();
        assert_eq!(unspaced(&set), unspaced(&wanted));
        // The colon follows the bold word without a space, and stands in its own typeface.
        let colon = lines.iter().flatten().find(|run| run.words.contains(':')).unwrap();
        assert_eq!(colon.typeface, Typeface::Regular);
        assert!(colon.words.starts_with(':'));
    }

    #[test]
    fn a_unit_stays_with_its_number() {
        let words = "at 749 mmHg and 4 °C. After 20 min, 1.2 m³/min";
        for most in 20..120 {
            for line in wrapped(Typeface::Regular, 10.0, words, f64::from(most)) {
                let ends_in_number = line.ends_with(|letter: char| letter.is_ascii_digit());
                // Only a line that is too narrow for both parts them.
                assert!(!ends_in_number || most < 60, "{line} in {most}");
            }
        }
        let together: String = wrapped(Typeface::Regular, 10.0, words, 70.0).join(" ");
        assert_eq!(together, words);
    }

    #[test]
    fn what_has_no_room_in_one_line_is_cut_short() {
        let long = "Copper Canyon, upper station, on the roof of the old assay office";
        let short = shortened(Typeface::Regular, 8.0, long, 100.0);
        assert!(short.ends_with('…') && width(Typeface::Regular, 8.0, &short) <= 100.0, "{short}");
        assert_eq!(shortened(Typeface::Regular, 8.0, "roof", 100.0), "roof");
    }

    #[test]
    fn every_sign_that_a_report_writes_is_in_the_font() {
        for typeface in [Typeface::Regular, Typeface::SemiBold] {
            let face = typeface.face().unwrap();
            for sign in "m³/min °C ± − – Δ √ ≤ ✓ · ½ µ • … “ ”".chars().filter(|sign| *sign != ' ')
            {
                assert!(face.glyph_index(sign).is_some(), "{sign} in {typeface:?}");
            }
        }
    }
}
