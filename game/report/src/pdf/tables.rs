//! Tables on paper: columns as wide as their words, a head on each sheet, rows that are not cut.

use super::flow::Flow;
use super::ink::{BLACK, BREADTH, Face, Ink, RULE, SIDE};
use super::structure::{Piece, Role};
use crate::document::{Column, Row, Stands, Table, Weight};
use crate::lettering;

/// Between two columns.
const GUTTER: f64 = 12.0;
/// So many rows of a table stand together at least, where it begins and where it ends.
const FEWEST: usize = 4;
/// A table that is lower than this stays whole, in heights of a sheet (CHOSEN: no more is left empty).
const SMALL: f64 = 0.3;
/// Above and below the words of a row.
const PAD: f64 = 2.2;

/// The height of what has to stand on one sheet where a table begins: a head with a row or two below
/// it, and the rest on the next sheet, is hard to read, and a small table stays whole.
pub fn least(table: &Table) -> f64 {
    let widths = widths(table);
    let of = |row: &Row| height(&lines(table, row, &widths));
    let head = if is_headed(table) { of(&head(table)) } else { 0.0 };
    let whole = head + table.rows.iter().map(of).sum::<f64>();
    if table.rows.len() < 2 * FEWEST || whole < SMALL * Flow::most() {
        whole.min(Flow::most())
    } else {
        head + table.rows.iter().take(FEWEST).map(of).sum::<f64>()
    }
}

fn is_headed(table: &Table) -> bool {
    table.columns.iter().any(|column| !column.head.is_empty())
}

fn head(table: &Table) -> Row {
    let cells = table.columns.iter().map(|column| column.head.clone()).collect();
    Row { cells, weight: Weight::Sum }
}

/// Sets a table.
pub fn table(flow: &mut Flow, table: &Table) {
    let widths = widths(table);
    let headed = is_headed(table);
    let head = head(table);
    let head_height = if headed { height(&lines(table, &head, &widths)) } else { 0.0 };
    let heights: Vec<f64> =
        table.rows.iter().map(|one| height(&lines(table, one, &widths))).collect();
    let count = heights.len();
    flow.need(least(table));
    if headed {
        let pieces = pieces(flow, table, |_| Role::ColumnHead);
        row(flow, table, (&head, &pieces), &widths, BLACK);
    }
    for (index, one) in table.rows.iter().enumerate() {
        // The last rows go over together: one alone on a sheet would be lost there.
        let together = if index + FEWEST == count { FEWEST } else { 1 };
        let tall: f64 = heights.iter().skip(index).take(together).sum();
        // A row taller than a sheet is the only one that is cut, between two of its lines.
        if flow.left() < tall && tall + head_height <= Flow::most() {
            flow.need(tall);
            if headed {
                // The same head again is there for the eye alone.
                row(flow, table, (&head, &[]), &widths, BLACK);
            }
        }
        let pieces = pieces(flow, table, |index| match table.columns.get(index) {
            Some(Column { stands: Stands::Left, .. }) if index == 0 => Role::RowHead,
            _ => Role::Cell,
        });
        row(flow, table, (one, &pieces), &widths, RULE);
    }
}

/// A row with a piece for each of its cells.
fn pieces(flow: &mut Flow, table: &Table, role: impl Fn(usize) -> Role) -> Vec<Piece> {
    let cells = 0..table.columns.len();
    flow.piece(Role::Row, |flow| cells.map(|index| flow.empty_piece(role(index))).collect())
}

/// Sets a row, each cell as its piece, and the rule below it.
fn row(
    flow: &mut Flow,
    table: &Table,
    (row, pieces): (&Row, &[Piece]),
    widths: &[f64],
    colour: plotters::style::RGBColor,
) {
    let cells = lines(table, row, widths);
    let face = face(row);
    let most = cells.iter().map(Vec::len).max().unwrap_or(0);
    flow.down(PAD);
    for index in 0..most {
        flow.need(face.lead());
        let mut left = SIDE;
        for (at, ((cell, column), width)) in
            cells.iter().zip(&table.columns).zip(widths).enumerate()
        {
            // An empty cell is put there too: without it those behind it would belong to other heads.
            if let Some(words) = cell.get(index) {
                let slack = width - lettering::width(face.style, face.size, words);
                let x = if column.stands == Stands::Right { left + slack } else { left };
                let baseline = flow.y() + face.rise();
                let ink = Ink::Words { x, baseline, face, words: words.clone() };
                flow.put_as(ink, pieces.get(at).copied());
            }
            left += width + GUTTER;
        }
        flow.down(face.lead());
    }
    flow.down(PAD);
    let y = flow.y();
    let right = SIDE + widths.iter().sum::<f64>() + GUTTER * widths.len().saturating_sub(1) as f64;
    let width = if colour == BLACK { 0.9 } else { 0.4 };
    flow.put(Ink::Line { from: (SIDE, y), to: (right, y), width, colour });
}

const fn face(row: &Row) -> Face {
    match row.weight {
        Weight::Plain => Face::CELL,
        Weight::Sum => Face::CELL_STRONG,
    }
}

/// The lines of each cell.
fn lines(table: &Table, row: &Row, widths: &[f64]) -> Vec<Vec<String>> {
    let face = face(row);
    row.cells
        .iter()
        .zip(&table.columns)
        .zip(widths)
        .map(|((cell, column), width)| match column.stands {
            Stands::Left | Stands::Anyhow => {
                lettering::wrapped(face.style, face.size, cell, width + 0.01)
            }
            Stands::Right if row.weight == Weight::Sum => {
                lettering::wrapped(face.style, face.size, cell, width + 0.01)
            }
            Stands::Right => vec![cell.clone()],
        })
        .collect()
}

fn height(lines: &[Vec<String>]) -> f64 {
    let most = lines.iter().map(Vec::len).max().unwrap_or(0);
    2.0 * PAD + Face::CELL.lead() * most as f64
}

/// The width of each column: what its words want where that is no more than its share of the room;
/// the others share what is left, and none gets less than its longest word.
fn widths(table: &Table) -> Vec<f64> {
    let wants: Vec<(f64, f64)> = (0..table.columns.len()).map(|index| want(table, index)).collect();
    let mut room = BREADTH - GUTTER * table.columns.len().saturating_sub(1) as f64;
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
    // From the least that keeps words whole, each grows by its share of what it would want.
    let share = ((room - least) / (natural - least).max(1e-9)).clamp(0.0, 1.0);
    let squeeze = if least > room { room / least } else { 1.0 };
    let shared = |(natural, least): (f64, f64)| squeeze * (least + share * (natural - least));
    let zipped = widths.iter().zip(&wants);
    zipped.map(|(width, want)| width.unwrap_or_else(|| shared(*want))).collect()
}

/// The width that a column wants, and the least that breaks no word and no number.
fn want(table: &Table, index: usize) -> (f64, f64) {
    let Some(column) = table.columns.get(index) else { return (0.0, 0.0) };
    let longest = |words: &str, face: Face| {
        let each =
            words.split_whitespace().map(|word| lettering::width(face.style, face.size, word));
        each.fold(0.0, f64::max)
    };
    let whole = |words: &str, face: Face| lettering::width(face.style, face.size, words);
    let mut natural = whole(&column.head, Face::CELL_STRONG);
    let mut least = longest(&column.head, Face::CELL_STRONG);
    for row in &table.rows {
        let Some(cell) = row.cells.get(index) else { continue };
        let face = face(row);
        natural = natural.max(whole(cell, face));
        least = least.max(match column.stands {
            Stands::Left => longest(cell, face),
            Stands::Right => whole(cell, face),
            Stands::Anyhow => 60.0,
        });
    }
    (natural, least)
}
