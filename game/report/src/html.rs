//! A document as one self-contained HTML page, with its fonts and plots inside: no script, nothing from
//! outside.

use content::document::{
    CellAlign, Column, FindingBlock, PassOrNot, RichText, Row, RowKind, Table, TextRun,
};
use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::document::{Block, Document};
use super::plots::{Plot, PlotColors, PlotStyle};
use super::text_layout::Typeface;

/// How a page looks, on a screen, on a telephone and on paper.
pub const STYLE: &str = include_str!("page.css");

/// Width of plots on a page, and on a telephone.
const WIDTHS: [u32; 2] = [760, 340];

/// A word with more letters than this may be broken (CHOSEN: longer than any word of a report).
const LONG_WORD: usize = 28;

/// A third column with no more letters than this has room on a telephone (CHOSEN).
const SHORT: usize = 24;

/// The page.
///
/// # Errors
///
/// When a plot cannot be drawn.
pub fn page(document: &Document) -> Result<String, String> {
    let blocks = document.blocks.iter().map(block).collect::<Result<Vec<_>, _>>()?;
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (document.title) }
                // Without it a browser would ask the site for an icon.
                link rel="icon" href="data:,";
                style { (PreEscaped(type_faces())) (PreEscaped(STYLE)) }
            }
            body {
                header { h1 { (document.title) } }
                main { @for block in &blocks { (block) } }
                footer { p { (document.footer) } }
            }
        }
    };
    Ok(markup.into_string())
}

fn block(block: &Block) -> Result<Markup, String> {
    Ok(match block {
        Block::Heading(words) => html! { h2 { (words) } },
        Block::Subheading(words) => html! { h3 { (words) } },
        Block::Paragraph(words) => html! { p { (text(words)) } },
        Block::Note(words) => html! { p class="note" { (words) } },
        Block::Caution(words) => html! { p class="caution" { (words) } },
        Block::Result(PassOrNot::Passed, words) => html! { p class="result passed" { (words) } },
        Block::Result(PassOrNot::NotPassed, words) => {
            html! { p class="result notpassed" { (words) } }
        }
        Block::List(items) => html! { ul { @for item in items { li { (text(item)) } } } },
        Block::Table(one) => table(one),
        Block::Finding(one) => finding(one),
        Block::Plot { plot, caption, description } => figure(plot, caption, description)?,
    })
}

fn text(words: &RichText) -> Markup {
    html! {
        @for span in &words.0 {
            @match span {
                TextRun::Plain(words) => (words),
                TextRun::Strong(words) => strong { (words) },
            }
        }
    }
}

fn finding(one: &FindingBlock) -> Markup {
    html! {
        section class="finding" {
            h3 {
                span class="number" { (one.number) "." } " " (one.title) " "
                @if !one.severity.is_empty() { span class="tag" { (one.severity) } }
            }
            p { (one.evidence) }
            dl { @for (name, words) in &one.lines { div { dt { (name) } dd { (words) } } } }
        }
    }
}

fn figure(plot: &Plot, caption: &str, description: &str) -> Result<Markup, String> {
    let draw = |width: u32| plot.svg(&PlotStyle::new(width, plot.height(width), PlotColors::PAGE));
    let [wide, narrow] = WIDTHS.map(draw);
    let (wide, narrow) = (wide?, narrow?);
    Ok(html! {
        figure {
            div class="wide" role="img" aria-label=(description) { (PreEscaped(wide)) }
            div class="narrow" role="img" aria-label=(description) { (PreEscaped(narrow)) }
            figcaption { (caption) }
        }
    })
}

fn table(one: &Table) -> Markup {
    let headed = one.columns.iter().any(|column| !column.head.is_empty());
    let class = match (headed, one.columns.len() > 3 || ends_in_sentences(one)) {
        (false, _) => "facts",
        (true, true) => "many",
        (true, false) => "few",
    };
    html! {
        table class=(class) {
            @if headed {
                thead {
                    tr { @for column in &one.columns { th class=[align_class(column)] scope="col" { (column.head) } } }
                }
            }
            tbody { @for line in &one.rows { (row(one, line)) } }
        }
    }
}

/// Words of a cell. A column is never narrower than its longest word: one that no page has room for may
/// be broken anywhere, as the whole of some columns may.
fn breakable(cell: &str, column: &Column) -> Markup {
    let is_long =
        |word: &str| column.align != CellAlign::BreakAnywhere && word.chars().count() > LONG_WORD;
    html! {
        @if cell.split_whitespace().any(is_long) {
            @for word in cell.split_inclusive(' ') {
                @if is_long(word.trim_end()) { span class="long" { (word) } } @else { (word) }
            }
        } @else { (cell) }
    }
}

/// Whether the third column of a table is too wide for a telephone.
fn ends_in_sentences(table: &Table) -> bool {
    let is_long = |row: &Row| row.cells.last().is_some_and(|cell| cell.chars().count() > SHORT);
    table.columns.len() == 3 && table.rows.iter().any(is_long)
}

fn row(table: &Table, row: &Row) -> Markup {
    let class = (row.kind == RowKind::Total).then_some("sum");
    html! {
        tr class=[class] {
            @for (index, (cell, column)) in row.cells.iter().zip(&table.columns).enumerate() {
                @if index == 0 && column.align == CellAlign::Left {
                    th scope="row" { (breakable(cell, column)) }
                } @else {
                    td class=[align_class(column)] data-label=(column.head) { (breakable(cell, column)) }
                }
            }
        }
    }
}

const fn align_class(column: &Column) -> Option<&'static str> {
    match column.align {
        CellAlign::Left => None,
        CellAlign::Right => Some("n"),
        CellAlign::BreakAnywhere => Some("hash"),
    }
}

/// The fonts themselves, so that the page looks the same on every machine.
pub fn type_faces() -> String {
    let face = |style: Typeface, weight: u16| {
        let data = base64(style.bytes());
        format!(
            "@font-face {{ font-family: \"IBM Plex Sans\"; font-weight: {weight}; \
             src: url(data:font/ttf;base64,{data}) format(\"truetype\"); }}\n"
        )
    };
    face(Typeface::Regular, 400) + &face(Typeface::SemiBold, 600)
}

/// Bytes in the letters of base 64 (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let byte = |index: usize| u32::from(three.get(index).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for place in 0..4 {
            let letter = (bits >> (18 - 6 * place) & 63) as usize;
            let known = LETTERS.get(letter).filter(|_| place <= three.len());
            text.push(known.map_or('=', |&letter| char::from(letter)));
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::base64;

    #[test]
    fn base_64_is_that_of_the_standard() {
        // The test vectors of RFC 4648, section 10 (read).
        let vectors =
            [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foob", "Zm9vYg==")];
        for (plain, coded) in vectors {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
