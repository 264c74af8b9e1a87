//! The report's document set on the page of the window: the same headings, tables, findings and plots
//! as on paper, with a button at each finding that goes to its moment.

use accesskit::Role;
use bevy::prelude::*;
use bevy::text::LineBreak;
use report::document::{
    Block, CellAlign, FindingBlock, PassOrNot, RichText, Row, RowKind, Table, TextRun,
};
use words::units::Units;

use super::scrub::ScrubRequest;
use super::table::{column, line};
use crate::panels::plot;
use crate::ui::access::spoken;
use crate::ui::caution::caution;
use crate::ui::controls::face;
use crate::ui::theme::{self, Theme};

/// Room that a column of words takes against one of numbers.
const WORDS: f32 = 2.2;
/// Room for a letter in a table, logical pixels at usual type: wide enough for the widest words.
const LETTER_PX: f32 = 13.0;

/// What is set, and how.
#[derive(Clone, Copy)]
pub struct Setting<'a> {
    /// Colours.
    pub theme: &'a Theme,
    /// The units beside those of the report.
    pub units: Units,
    /// How much larger than usual type is.
    pub larger: f32,
}

/// Sets blocks, each section on a sheet of its own.
pub fn blocks(root: &mut ChildSpawnerCommands, set: Setting<'_>, blocks: &[Block]) {
    let is_head = |block: &&Block| matches!(block, Block::Heading(_));
    let mut rest = blocks;
    while let Some(first) = rest.first() {
        let (head, body) = match first {
            Block::Heading(words) => (Some(words), rest.get(1..).unwrap_or_default()),
            _ => (None, rest),
        };
        let length = body.iter().position(|block| is_head(&block)).unwrap_or(body.len());
        let (section, behind) = body.split_at(length);
        if let Some(words) = head {
            let theme = set.theme;
            root.spawn((
                theme::bold(words.clone(), theme::HEAD, theme.ink),
                spoken(Role::Heading, words.clone(), ""),
            ));
        }
        if !section.is_empty() {
            let node = Node {
                flex_direction: FlexDirection::Column,
                padding: UiRect::axes(px(14), px(10)),
                row_gap: px(7),
                flex_shrink: 0.0,
                ..default()
            };
            root.spawn(theme::sheet(set.theme, node)).with_children(|sheet| {
                for one in section {
                    block(sheet, set, one);
                }
            });
        }
        rest = behind;
    }
}

fn block(sheet: &mut ChildSpawnerCommands, set: Setting<'_>, block: &Block) {
    let theme = set.theme;
    let said = |words: &str| set.units.beside(words);
    match block {
        Block::Heading(words) | Block::Subheading(words) => {
            sheet.spawn(theme::bold(said(words), theme::BODY, theme.ink));
        }
        Block::Paragraph(words) => paragraph(sheet, set, "", words),
        Block::Note(words) => {
            sheet.spawn(theme::italic(said(words), theme::SMALL, theme.ink_soft));
        }
        Block::Caution(words) => caution(sheet, theme, &said(words)),
        Block::Result(outcome, words) => {
            let color = match outcome {
                PassOrNot::Passed => theme.ink,
                PassOrNot::NotPassed => theme.caution,
            };
            sheet.spawn(theme::bold(said(words), theme::HEAD, color));
        }
        Block::List(points) => {
            for point in points {
                paragraph(sheet, set, "\u{2022} ", point);
            }
        }
        Block::Table(one) => table(sheet, set, one),
        Block::Finding(one) => finding(sheet, set, one),
        Block::Plot { plot, caption, description } => {
            plot::spawn(sheet, plot, description);
            sheet.spawn(theme::italic(said(caption), theme::SMALL, theme.ink_soft));
        }
    }
}

/// A paragraph; one that begins in bold has its beginning on a line of its own weight.
fn paragraph(sheet: &mut ChildSpawnerCommands, set: Setting<'_>, before: &str, words: &RichText) {
    let theme = set.theme;
    match words.0.as_slice() {
        [TextRun::Strong(strong), rest @ ..] => {
            let rest: String = rest.iter().map(TextRun::words).collect();
            sheet.spawn(theme::bold(
                set.units.beside(&format!("{before}{strong}")),
                theme::BODY,
                theme.ink,
            ));
            if !rest.trim().is_empty() {
                sheet.spawn(theme::text(set.units.beside(rest.trim()), theme::BODY, theme.ink));
            }
        }
        _ => {
            let words = set.units.beside(&format!("{before}{}", words.words()));
            sheet.spawn(theme::text(words, theme::BODY, theme.ink));
        }
    }
}

/// A finding, or a fault, opened to its evidence.
fn finding(sheet: &mut ChildSpawnerCommands, set: Setting<'_>, one: &FindingBlock) {
    let theme = set.theme;
    let node = Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(2),
        padding: UiRect { left: px(10), bottom: px(6), ..default() },
        border: UiRect::left(px(2)),
        flex_shrink: 0.0,
        ..default()
    };
    sheet.spawn((node, BorderColor::all(theme.line))).with_children(|sheet| {
        let severity = match one.severity.as_str() {
            "" => String::new(),
            severity => format!(" ({severity})"),
        };
        let title = set.units.beside(&format!("{}. {}{severity}", one.number, one.title));
        sheet.spawn(theme::bold(title, theme::BODY, theme.ink));
        sheet.spawn(theme::text(set.units.beside(&one.evidence), theme::BODY, theme.ink));
        for (name, words) in &one.lines {
            let words = set.units.beside(&format!("{name}: {words}"));
            sheet.spawn(theme::text(words, theme::SMALL, theme.ink_soft));
        }
        if let Some(tick) = one.moment {
            let label = format!("finding {}: go to its moment", one.number);
            let request = ScrubRequest::At(tick);
            let mut button = sheet.spawn(face(theme, &label, request, theme.paper_shade));
            button.with_child(theme::text("go to its moment", theme::SMALL, theme.ink));
            button.entry::<Node>().and_modify(|mut node| {
                node.align_self = AlignSelf::Start;
                node.margin = UiRect::top(px(3));
            });
        }
    });
}

/// A table, its columns as wide as what stands in them.
fn table(sheet: &mut ChildSpawnerCommands, set: Setting<'_>, table: &Table) {
    let (widths, letters) = widths(table);
    // A small table that filled the page would part what belongs together.
    let most = px(letters * LETTER_PX * set.larger);
    // The row settles the width before the height is asked for: a width that is cut down afterwards
    // leaves words that are broken then without room.
    sheet.spawn(line()).with_children(|row| {
        let node = Node {
            flex_direction: FlexDirection::Column,
            row_gap: px(6),
            flex_basis: most,
            min_width: px(0),
            ..default()
        };
        row.spawn(node).with_children(|sheet| rows(sheet, set, table, &widths));
    });
}

fn rows(sheet: &mut ChildSpawnerCommands, set: Setting<'_>, table: &Table, widths: &[f32]) {
    if table.columns.iter().any(|column| !column.head.is_empty()) {
        let heads: Vec<String> = table.columns.iter().map(|column| column.head.clone()).collect();
        cells(sheet, set, table, widths, &heads, None);
    }
    for Row { cells: words, kind } in &table.rows {
        let said: Vec<String> = words.iter().map(|words| set.units.beside(words)).collect();
        cells(sheet, set, table, widths, &said, Some(*kind));
    }
}

/// A row; one without a kind is the head.
fn cells(
    sheet: &mut ChildSpawnerCommands,
    set: Setting<'_>,
    table: &Table,
    widths: &[f32],
    words: &[String],
    kind: Option<RowKind>,
) {
    let theme = set.theme;
    sheet.spawn(line()).with_children(|row| {
        for ((width, of), words) in widths.iter().zip(&table.columns).zip(words) {
            let mut node = column(*width);
            if of.align == CellAlign::Right {
                node.justify_content = JustifyContent::End;
            }
            row.spawn(node).with_children(|cell| {
                let mut text = match kind {
                    None => cell.spawn(theme::italic(words.clone(), theme::SMALL, theme.ink_soft)),
                    Some(RowKind::Plain) => {
                        cell.spawn(theme::text(words.clone(), theme::BODY, theme.ink))
                    }
                    Some(RowKind::Total) => {
                        cell.spawn(theme::bold(words.clone(), theme::BODY, theme.ink))
                    }
                };
                // A checksum has no spaces at which it could be broken.
                text.insert(TextLayout::linebreak(LineBreak::WordOrCharacter));
            });
        }
    });
}

/// How wide each column is, percent, by the most that stands in it, within limits; and how many
/// letters wide the whole is.
fn widths(table: &Table) -> (Vec<f32>, f32) {
    let most = |index: usize| {
        let cells = table.rows.iter().filter_map(|row| row.cells.get(index));
        cells.map(|cell| cell.chars().count()).max().unwrap_or_default()
    };
    let wanted: Vec<f32> = table
        .columns
        .iter()
        .enumerate()
        .map(|(index, column)| {
            let head = column.head.chars().count();
            let length = most(index).max(head.min(14)) as f32;
            match column.align {
                CellAlign::Right => length.clamp(7.0, 16.0),
                CellAlign::Left | CellAlign::BreakAnywhere => length.clamp(8.0, 18.0 * WORDS),
            }
        })
        .collect();
    let whole: f32 = wanted.iter().sum();
    (wanted.into_iter().map(|width| 100.0 * width / whole.max(1.0)).collect(), whole)
}

#[cfg(test)]
mod tests {
    use super::widths;
    use report::document::{CellAlign, Table};

    #[test]
    fn columns_fill_the_row_and_words_have_more_room_than_numbers() {
        let mut table = Table::new([("what", CellAlign::Left), ("m\u{b3}", CellAlign::Right)]);
        table.row(["by the own readings, all of it undone".to_owned(), "2013.1".to_owned()]);
        let (widths, _) = widths(&table);
        assert!((widths.iter().sum::<f32>() - 100.0).abs() < 1e-3);
        assert!(widths[0] > 3.0 * widths[1], "{widths:?}");
    }
}
