//! A report taken apart again: the rows of the tables of its page, and the lines of its paper.

use std::path::Path;

use super::desk::tool;

/// A row of a table of a page: what stands first in it, and its cells by the heads of their columns.
pub struct PageRow {
    /// What stands first in it, where that is a name.
    pub name: String,
    cells: Vec<(String, String)>,
}

impl PageRow {
    /// The cell below a head.
    pub fn cell(&self, column: &str) -> Option<&str> {
        self.cells.iter().find(|(head, _)| head == column).map(|(_, text)| text.as_str())
    }

    /// Every cell that is not empty, from the left.
    pub fn all(&self) -> Vec<&str> {
        let cells = self.cells.iter().map(|(_, text)| text.as_str());
        std::iter::once(self.name.as_str()).chain(cells).filter(|text| !text.is_empty()).collect()
    }
}

/// Every row of every table of a page, heads left out.
pub fn rows_of_page(page: &str) -> Vec<PageRow> {
    let row = |text: &str| {
        let text = text.split_once("</tr>").map_or(text, |(row, _)| row);
        let name = between(text, "<th scope=\"row\">", "</th>").unwrap_or_default();
        let cells = text.split("<td").skip(1).filter_map(|cell| {
            let (attributes, rest) = cell.split_once('>')?;
            let head = between(attributes, "data-label=\"", "\"")?;
            Some((plain(&head), plain(rest.split_once("</td>")?.0)))
        });
        PageRow { name: plain(&name), cells: cells.collect() }
    };
    page.split("<tr").skip(1).map(row).filter(|row| !row.cells.is_empty()).collect()
}

/// What stands between an element's beginning and its end, wherever it occurs, as plain words.
pub fn each_between(page: &str, open: &str, close: &str) -> Vec<String> {
    let pieces = page.split(open).skip(1);
    pieces.filter_map(|piece| Some(without_tags(piece.split_once(close)?.0))).collect()
}

/// What stands first between two texts.
pub fn between(text: &str, open: &str, close: &str) -> Option<String> {
    let (_, rest) = text.split_once(open)?;
    Some(rest.split_once(close)?.0.to_owned())
}

/// Text of a page as it is read.
pub fn plain(text: &str) -> String {
    let signs = [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&apos;", "'"), ("&#39;", "'")];
    let text = signs.iter().fold(text.to_owned(), |text, (coded, sign)| text.replace(coded, sign));
    text.replace("&amp;", "&")
}

fn without_tags(text: &str) -> String {
    let pieces = text.split('<').enumerate().map(|(index, piece)| match index {
        0 => piece,
        _ => piece.split_once('>').map_or("", |(_, words)| words),
    });
    words(&plain(&pieces.collect::<String>()))
}

/// Words with one space between them.
pub fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A piece of a line of paper: words that stand together.
#[derive(Debug, Clone, PartialEq)]
struct Piece {
    left: f64,
    right: f64,
    words: String,
}

/// What is written on the sheets of a PDF, line by line from the top.
pub struct Lines(Vec<Vec<Piece>>);

/// Between two words of a cell there is less than this, and between two cells more, pt.
const GAP: f64 = 6.0;

impl Lines {
    /// The lines of a file, from where each of its words stands.
    #[track_caller]
    pub fn of(path: &Path) -> Self {
        let boxes = tool("pdftotext", &["-bbox", path.to_str().unwrap(), "-"]);
        let number = |word: &str, name: &str| -> f64 {
            between(word, &format!("{name}=\""), "\"").unwrap().parse().unwrap()
        };
        let mut lines = Vec::new();
        for page in boxes.split("<page ").skip(1) {
            let mut words: Vec<(f64, Piece)> = Vec::new();
            for word in page.split("<word ").skip(1) {
                let text = plain(&between(word, ">", "</word>").unwrap());
                let [left, right] = ["xMin", "xMax"].map(|name| number(word, name));
                words.push((number(word, "yMax"), Piece { left, right, words: text }));
            }
            words.sort_by(|one, other| one.0.total_cmp(&other.0));
            // Words of one line have the same foot, but for the roundings of the file.
            for line in words.chunk_by(|one, other| other.0 - one.0 < 0.5) {
                lines.push(joined(line.iter().map(|(_, piece)| piece.clone()).collect()));
            }
        }
        Self(lines)
    }

    /// Whether a row of a table stands there: its cells beside each other, whatever lines each of
    /// them takes.
    pub fn have_row(&self, cells: &[&str]) -> bool {
        let wanted: Vec<String> = cells.iter().map(|cell| unspaced(cell)).collect();
        (0..self.0.len()).any(|at| self.row_at(at, &wanted))
    }

    fn row_at(&self, at: usize, wanted: &[String]) -> bool {
        let Some(first) = self.0.get(at).filter(|line| line.len() == wanted.len()) else {
            return false;
        };
        first.iter().zip(wanted).all(|(piece, wanted)| {
            let Some(mut rest) = wanted.strip_prefix(&unspaced(&piece.words)) else { return false };
            for line in self.0.iter().skip(at + 1) {
                // What goes on stands below, at the same left edge.
                let below = line.iter().find(|below| (below.left - piece.left).abs() < 0.5);
                let more = below.and_then(|below| rest.strip_prefix(&unspaced(&below.words)));
                match more.filter(|_| !rest.is_empty()) {
                    Some(more) => rest = more,
                    None => break,
                }
            }
            rest.is_empty()
        })
    }

    /// All of it as one text, without the feet of the sheets.
    pub fn words(&self) -> String {
        let foot = |line: &&Vec<Piece>| {
            line.last().is_some_and(|piece| {
                let numbers = piece.words.strip_prefix("page ").unwrap_or_default();
                numbers.split(" of ").all(|number| number.parse::<u16>().is_ok())
            })
        };
        let lines = self.0.iter().filter(|line| !foot(line)).flatten();
        words(&lines.map(|piece| piece.words.as_str()).collect::<Vec<_>>().join(" "))
    }
}

/// Words of a line as the pieces that stand together.
fn joined(mut words: Vec<Piece>) -> Vec<Piece> {
    words.sort_by(|one, other| one.left.total_cmp(&other.left));
    let mut pieces: Vec<Piece> = Vec::new();
    for word in words {
        match pieces.last_mut().filter(|piece| word.left - piece.right < GAP) {
            Some(piece) => {
                piece.words = format!("{} {}", piece.words, word.words);
                piece.right = word.right;
            }
            None => pieces.push(word),
        }
    }
    pieces
}

/// Words without their spaces: where a line breaks, nobody knows whether there was one.
fn unspaced(text: &str) -> String {
    text.split_whitespace().collect()
}
