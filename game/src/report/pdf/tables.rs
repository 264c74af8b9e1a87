//! Tables on paper: columns as wide as their words, a head on each sheet, rows that are not cut.

use super::flow::Flow;
use super::ink::{BLACK, BREADTH, Face, Ink, RULE, SIDE};
use crate::report::document::{Row, Stands, Table, Weight};
use crate::report::lettering;

/// Between two columns.
const GUTTER: f64 = 12.0;
/// So many rows stand below a head at least, if there are so many.
const FEWEST: usize = 4;
/// Above and below the words of a row.
const PAD: f64 = 2.2;

/// Sets a table.
pub fn table(flow: &mut Flow, table: &Table) {
    let widths = widths(table);
    let headed = table.columns.iter().any(|column| !column.head.is_empty());
    let head = Row {
        cells: table.columns.iter().map(|column| column.head.clone()).collect(),
        weight: Weight::Sum,
    };
    let head_height = if headed { height(&lines(table, &head, &widths)) } else { 0.0 };
    // A head with a row or two below it, and the rest on the next sheet, is hard to read.
    let first = table.rows.iter().take(FEWEST);
    let first: f64 = first.map(|one| height(&lines(table, one, &widths))).sum();
    flow.need((head_height + first).min(Flow::most()));
    if headed {
        row(flow, table, &head, &widths, BLACK);
    }
    for one in &table.rows {
        let tall = height(&lines(table, one, &widths));
        // A row taller than a sheet is the only one that is cut, between two of its lines.
        if flow.left() < tall && tall + head_height <= Flow::most() {
            flow.need(tall);
            if headed {
                row(flow, table, &head, &widths, BLACK);
            }
        }
        row(flow, table, one, &widths, RULE);
    }
}

/// Sets a row and the rule below it.
fn row(
    flow: &mut Flow,
    table: &Table,
    row: &Row,
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
        for ((cell, column), width) in cells.iter().zip(&table.columns).zip(widths) {
            if let Some(words) = cell.get(index).filter(|words| !words.is_empty()) {
                let slack = width - lettering::width(face.style, face.size, words);
                let x = if column.stands == Stands::Right { left + slack } else { left };
                let baseline = flow.y() + face.rise();
                flow.put(Ink::Words { x, baseline, face, words: words.clone() });
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
