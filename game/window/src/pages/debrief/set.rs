//! The report's document set on the page of the window: the same headings, tables, findings and plots
//! as on paper, with a button at each finding that goes to its moment.

use accesskit::Role;
use bevy::prelude::*;
use bevy::text::LineBreak;
use content::document::{
    Block, CellAlign, FindingBlock, PassOrNot, RichText, Row, RowKind, Table, TextRun,
};

use super::scrub::ScrubRequest;
use super::section;
use super::table::{column, line};
use crate::panels::plot;
use crate::ui::access::{heading, spoken};
use crate::ui::caution::caution_in_units;
use crate::ui::controls::face;
use crate::ui::in_units::InUnits;
use crate::ui::text_size::ByTextSize;
use crate::ui::theme;
use crate::ui::tone::{Border, Tone};

/// Room that a column of words takes against one of numbers.
const WORDS: f32 = 2.2;
/// Letters of a checksum, which is whole wherever there is room for it.
const CHECKSUM: f32 = 64.0;
/// Room for a letter in a table, logical pixels at usual type: wide enough for the widest words.
const LETTER_PX: f32 = 13.0;

/// Sets blocks, each section on a sheet of its own.
pub fn blocks(root: &mut ChildSpawnerCommands, blocks: &[Block]) {
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
            section::spawn(root, words);
        }
        if !section.is_empty() {
            let node = Node {
                flex_direction: FlexDirection::Column,
                padding: UiRect::axes(px(14), px(10)),
                row_gap: px(7),
                flex_shrink: 0.0,
                ..default()
            };
            root.spawn(theme::sheet(node)).with_children(|sheet| {
                for one in section {
                    block(sheet, one);
                }
            });
        }
        rest = behind;
    }
}

fn block(sheet: &mut ChildSpawnerCommands, block: &Block) {
    match block {
        Block::Heading(words) | Block::Subheading(words) => {
            let role = heading(words.as_str(), 3);
            sheet.spawn((bold(words.as_str(), theme::BODY, Tone::Ink), role));
        }
        Block::Paragraph(words) => paragraph(sheet, "", words),
        Block::Note(words) => {
            sheet.spawn(italic(words.as_str()));
        }
        Block::Caution(words) => caution_in_units(sheet, words),
        Block::Result(outcome, words) => {
            let tone = match outcome {
                PassOrNot::Passed => Tone::Ink,
                PassOrNot::NotPassed => Tone::Caution,
            };
            sheet.spawn(bold(words.as_str(), theme::HEAD, tone));
        }
        Block::List(points) => {
            for point in points {
                paragraph(sheet, "\u{2022} ", point);
            }
        }
        Block::Table(one) => table(sheet, one),
        Block::Finding(one) => finding(sheet, one),
        Block::Plot { plot, caption, description } => {
            plot::spawn(sheet, plot, description);
            sheet.spawn(italic(caption.as_str()));
        }
    }
}

/// A paragraph; one that begins in bold has its beginning on a line of its own weight.
fn paragraph(sheet: &mut ChildSpawnerCommands, before: &str, words: &RichText) {
    match words.0.as_slice() {
        [TextRun::Strong(strong), rest @ ..] => {
            let rest: String = rest.iter().map(TextRun::words).collect();
            sheet.spawn(bold(format!("{before}{strong}"), theme::BODY, Tone::Ink));
            if !rest.trim().is_empty() {
                sheet.spawn(text(rest.trim(), theme::BODY, Tone::Ink));
            }
        }
        _ => {
            let words = format!("{before}{}", words.words());
            sheet.spawn(text(words, theme::BODY, Tone::Ink));
        }
    }
}

/// A finding, or a fault, opened to its evidence.
fn finding(sheet: &mut ChildSpawnerCommands, one: &FindingBlock) {
    let node = Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(2),
        padding: UiRect { left: px(10), bottom: px(6), ..default() },
        border: UiRect::left(px(2)),
        flex_shrink: 0.0,
        ..default()
    };
    sheet.spawn((node, Border(Tone::Line))).with_children(|sheet| {
        let severity = match one.severity.as_str() {
            "" => String::new(),
            severity => format!(" ({severity})"),
        };
        let title = format!("{}. {}{severity}", one.number, one.title);
        sheet.spawn(bold(title, theme::BODY, Tone::Ink));
        sheet.spawn(text(one.evidence.as_str(), theme::BODY, Tone::Ink));
        for (name, words) in &one.lines {
            sheet.spawn(text(format!("{name}: {words}"), theme::SMALL, Tone::InkSoft));
        }
        if let Some(tick) = one.moment {
            let label = format!("finding {}: show this moment", one.number);
            let request = ScrubRequest::At(tick);
            let mut button = sheet.spawn(face(&label, request, Tone::PaperShade));
            button.with_child(theme::text("show this moment", theme::SMALL, Tone::Ink));
            button.entry::<Node>().and_modify(|mut node| {
                node.align_self = AlignSelf::Start;
                node.margin = UiRect::top(px(3));
            });
        }
    });
}

/// A table, its columns as wide as what stands in them.
fn table(sheet: &mut ChildSpawnerCommands, table: &Table) {
    let (widths, letters) = widths(table);
    // The row settles the width before the height is asked for: a width that is cut down afterwards
    // leaves words that are broken then without room.
    sheet.spawn(line()).with_children(|row| {
        let node = Node {
            flex_direction: FlexDirection::Column,
            row_gap: px(6),
            min_width: px(0),
            ..default()
        };
        // A small table that filled the page would part what belongs together.
        let wide = move |node: &mut Node, scale: f32| {
            node.flex_basis = px(letters * LETTER_PX * scale);
        };
        let heads = table.columns.iter().map(|column| column.head.as_str());
        let heads: Vec<&str> = heads.filter(|head| !head.is_empty()).collect();
        let name = if heads.is_empty() { "particulars".to_owned() } else { heads.join(", ") };
        let role = spoken(Role::Table, name, "");
        row.spawn((node, role, ByTextSize::new(wide)))
            .with_children(|sheet| rows(sheet, table, &widths));
    });
}

fn rows(sheet: &mut ChildSpawnerCommands, table: &Table, widths: &[f32]) {
    if table.columns.iter().any(|column| !column.head.is_empty()) {
        let heads: Vec<String> = table.columns.iter().map(|column| column.head.clone()).collect();
        cells(sheet, table, widths, &heads, None);
    }
    for Row { cells: words, kind } in &table.rows {
        cells(sheet, table, widths, words, Some(*kind));
    }
}

/// A row; one without a kind is the head.
fn cells(
    sheet: &mut ChildSpawnerCommands,
    table: &Table,
    widths: &[f32],
    words: &[String],
    kind: Option<RowKind>,
) {
    let cell_role = if kind.is_none() { Role::ColumnHeader } else { Role::Cell };
    sheet.spawn((line(), spoken(Role::Row, "", ""))).with_children(|row| {
        for ((width, of), words) in widths.iter().zip(&table.columns).zip(words) {
            let mut node = column(*width);
            if of.align == CellAlign::Right {
                node.justify_content = JustifyContent::End;
            }
            row.spawn((node, spoken(cell_role, "", ""))).with_children(|cell| {
                let mut words_of = match kind {
                    None => {
                        let words = words.as_str();
                        cell.spawn(theme::italic(words, theme::SMALL, Tone::InkSoft))
                    }
                    Some(RowKind::Plain) => {
                        cell.spawn(text(words.as_str(), theme::BODY, Tone::Ink))
                    }
                    Some(RowKind::Total) => {
                        cell.spawn(bold(words.as_str(), theme::BODY, Tone::Ink))
                    }
                };
                // A checksum has no spaces at which it could be broken.
                words_of.insert(TextLayout::linebreak(LineBreak::WordOrCharacter));
            });
        }
    });
}

/// Running text with values in it.
fn text(words: impl Into<String>, size: f32, tone: Tone) -> impl Bundle {
    (theme::text("", size, tone), InUnits(words.into()))
}

/// Heavy text with values in it.
fn bold(words: impl Into<String>, size: f32, tone: Tone) -> impl Bundle {
    (theme::bold("", size, tone), InUnits(words.into()))
}

/// A remark with values in it.
fn italic(words: impl Into<String>) -> impl Bundle {
    (theme::italic("", theme::SMALL, Tone::InkSoft), InUnits(words.into()))
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
                CellAlign::Left => length.clamp(8.0, 18.0 * WORDS),
                CellAlign::BreakAnywhere => length.clamp(8.0, CHECKSUM),
            }
        })
        .collect();
    let whole: f32 = wanted.iter().sum();
    (wanted.into_iter().map(|width| 100.0 * width / whole.max(1.0)).collect(), whole)
}

#[cfg(test)]
mod tests {
    use super::widths;
    use content::document::{CellAlign, Table};

    #[test]
    fn columns_fill_the_row_and_words_have_more_room_than_numbers() {
        let mut table = Table::new([("what", CellAlign::Left), ("m\u{b3}", CellAlign::Right)]);
        table.row(["by the own readings, all of it undone".to_owned(), "2013.1".to_owned()]);
        let (widths, _) = widths(&table);
        assert!((widths.iter().sum::<f32>() - 100.0).abs() < 1e-3);
        assert!(widths[0] > 3.0 * widths[1], "{widths:?}");
    }

    #[test]
    fn a_checksum_is_given_room_for_all_of_its_digits() {
        let columns = [("", CellAlign::Left), ("", CellAlign::BreakAnywhere)];
        let mut table = Table::new(columns);
        table.row(["Journal, head of its chain".to_owned(), "a".repeat(64)]);
        let (widths, letters) = widths(&table);
        assert!(widths[1] * letters / 100.0 > 63.9, "{widths:?} of {letters}");
    }
}
