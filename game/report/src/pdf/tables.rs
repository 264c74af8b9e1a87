//! Tables on pages: columns as wide as their words, a head on each page, rows that are not cut.

use content::document::{CellAlign, Column, Row, RowKind, Table};
use plotters::style::RGBColor;

use super::super::text_layout;
use super::page::{BLACK, Font, PageItem, PageSize, RULE, SIDE};
use super::page_flow::PageFlow;
use super::tags::{Role, TagId};

/// Between two columns.
const GUTTER: f64 = 12.0;
/// At least so many rows are kept together where a table begins and where it ends.
const FEWEST: usize = 4;
/// A table that is lower than this stays whole, in heights of a page (CHOSEN: no more is left empty).
const SMALL: f64 = 0.3;
/// No column is kept wide for one long word beyond this share of the page (CHOSEN): the word is broken.
const WIDEST_WORD: f64 = 0.4;
/// Above and below the words of a row.
const PAD: f64 = 2.2;

/// The height that a table needs on the page where it begins. A head with only a row or two below it is
/// hard to read, and a small table stays whole.
pub fn least(table: &Table, size: PageSize) -> f64 {
    let widths = widths(table, size);
    let of = |row: &Row| height(&lines(row, &widths));
    let head = if is_headed(table) { of(&head(table)) } else { 0.0 };
    let whole = head + table.rows.iter().map(of).sum::<f64>();
    if table.rows.len() < 2 * FEWEST || whole < SMALL * size.depth() {
        whole.min(size.depth())
    } else {
        head + table.rows.iter().take(FEWEST).map(of).sum::<f64>()
    }
}

fn is_headed(table: &Table) -> bool {
    table.columns.iter().any(|column| !column.head.is_empty())
}

fn head(table: &Table) -> Row {
    let cells = table.columns.iter().map(|column| column.head.clone()).collect();
    Row { cells, kind: RowKind::Total }
}

/// Sets a table.
pub fn table(flow: &mut PageFlow, table: &Table) {
    let widths = widths(table, flow.size());
    let headed = is_headed(table);
    let head = head(table);
    let head_height = if headed { height(&lines(&head, &widths)) } else { 0.0 };
    let heights: Vec<f64> = table.rows.iter().map(|one| height(&lines(one, &widths))).collect();
    let count = heights.len();
    flow.need(least(table, flow.size()));
    if headed {
        let tags = tags(flow, table, |_| Role::ColumnHead);
        row(flow, table, (&head, &tags), &widths, BLACK);
    }
    for (index, one) in table.rows.iter().enumerate() {
        // The last rows stay together: one alone on a page would be overlooked.
        let together = if index + FEWEST == count { FEWEST } else { 1 };
        let tall: f64 = heights.iter().skip(index).take(together).sum();
        // Only a row taller than a page is cut, between two of its lines.
        if flow.left() < tall && tall + head_height <= flow.size().depth() {
            flow.need(tall);
            if headed {
                // The repeated head is there for the eye alone.
                row(flow, table, (&head, &[]), &widths, BLACK);
            }
        }
        let tags = tags(flow, table, |index| match table.columns.get(index) {
            Some(Column { align: CellAlign::Left, .. }) if index == 0 => Role::RowHead,
            _ => Role::Cell,
        });
        row(flow, table, (one, &tags), &widths, RULE);
    }
}

/// A row with a tag for each of its cells.
fn tags(flow: &mut PageFlow, table: &Table, role: impl Fn(usize) -> Role) -> Vec<TagId> {
    let cells = 0..table.columns.len();
    flow.tagged(Role::Row, |flow| cells.map(|index| flow.empty_tag(role(index))).collect())
}

/// Sets a row, each cell with its tag, and the rule below it.
fn row(
    flow: &mut PageFlow,
    table: &Table,
    (row, tags): (&Row, &[TagId]),
    widths: &[f64],
    colour: RGBColor,
) {
    let cells = lines(row, widths);
    let font = font(row);
    let most = cells.iter().map(Vec::len).max().unwrap_or(0);
    flow.down(PAD);
    for index in 0..most {
        flow.need(font.lead());
        let mut left = SIDE;
        for (at, ((cell, column), width)) in
            cells.iter().zip(&table.columns).zip(widths).enumerate()
        {
            // Empty cells are placed too: without them the next ones would belong to other heads.
            if let Some(words) = cell.get(index) {
                let slack = width - text_layout::width(font.typeface, font.size, words);
                let x = if column.align == CellAlign::Right { left + slack } else { left };
                let baseline = flow.y() + font.rise();
                let item = PageItem::Words { x, baseline, font, words: words.clone() };
                flow.put_as(item, tags.get(at).copied());
            }
            left += width + GUTTER;
        }
        flow.down(font.lead());
    }
    flow.down(PAD);
    let y = flow.y();
    let right = SIDE + widths.iter().sum::<f64>() + GUTTER * widths.len().saturating_sub(1) as f64;
    let width = if colour == BLACK { 0.9 } else { 0.4 };
    flow.put(PageItem::Rule { from: (SIDE, y), to: (right, y), width, colour });
}

const fn font(row: &Row) -> Font {
    match row.kind {
        RowKind::Plain => Font::CELL,
        RowKind::Total => Font::CELL_STRONG,
    }
}

/// The lines of each cell.
fn lines(row: &Row, widths: &[f64]) -> Vec<Vec<String>> {
    let font = font(row);
    row.cells
        .iter()
        .zip(widths)
        .map(|(cell, width)| text_layout::wrapped(font.typeface, font.size, cell, width + 0.01))
        .collect()
}

fn height(lines: &[Vec<String>]) -> f64 {
    let most = lines.iter().map(Vec::len).max().unwrap_or(0);
    2.0 * PAD + Font::CELL.lead() * most as f64
}

/// The width of each column: its natural width where that is no more than its share of the page. The
/// others share what is left, and none is narrower than its longest word.
fn widths(table: &Table, size: PageSize) -> Vec<f64> {
    let widest = WIDEST_WORD * size.breadth();
    let want = |index| {
        let (natural, least) = want(table, index);
        (natural, least.min(widest))
    };
    let wants: Vec<(f64, f64)> = (0..table.columns.len()).map(want).collect();
    let mut room = size.breadth() - GUTTER * table.columns.len().saturating_sub(1) as f64;
    let mut widths: Vec<Option<f64>> = vec![None; wants.len()];
    loop {
        let open = widths.iter().filter(|width| width.is_none()).count();
        let fair = room / open.max(1) as f64;
        let next =
            wants.iter().zip(&widths).position(|(want, width)| width.is_none() && want.0 <= fair);
        let Some((width, want)) =
            next.and_then(|index| Some((widths.get_mut(index)?, wants.get(index)?)))
        else {
            break;
        };
        *width = Some(want.0);
        room -= want.0;
    }
    let open =
        || wants.iter().zip(&widths).filter(|(_, width)| width.is_none()).map(|(want, _)| want);
    let natural: f64 = open().map(|want| want.0).sum();
    let least: f64 = open().map(|want| want.1).sum();
    // Beyond the least width that keeps words whole, each grows by its share of its natural width.
    let share = ((room - least) / (natural - least).max(1e-9)).clamp(0.0, 1.0);
    let squeeze = if least > room { room / least } else { 1.0 };
    let shared = |(natural, least): (f64, f64)| squeeze * (least + share * (natural - least));
    let zipped = widths.iter().zip(&wants);
    zipped.map(|(width, want)| width.unwrap_or_else(|| shared(*want))).collect()
}

/// The natural width of a column, and the least that breaks no word and no number.
fn want(table: &Table, index: usize) -> (f64, f64) {
    let Some(column) = table.columns.get(index) else { return (0.0, 0.0) };
    let longest = |words: &str, font: Font| {
        let each =
            words.split_whitespace().map(|word| text_layout::width(font.typeface, font.size, word));
        each.fold(0.0, f64::max)
    };
    let whole = |words: &str, font: Font| text_layout::width(font.typeface, font.size, words);
    let mut natural = whole(&column.head, Font::CELL_STRONG);
    let mut least = longest(&column.head, Font::CELL_STRONG);
    for row in &table.rows {
        let Some(cell) = row.cells.get(index) else { continue };
        let font = font(row);
        natural = natural.max(whole(cell, font));
        least = least.max(match column.align {
            CellAlign::Left => longest(cell, font),
            CellAlign::Right => whole(cell, font),
            CellAlign::BreakAnywhere => 60.0,
        });
    }
    (natural, least)
}
