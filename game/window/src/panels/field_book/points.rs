//! The table of points: a row for each, its notes under it.

use accesskit::Role;
use bevy::prelude::*;
use sim_core::field_book::{Field, PointNumber, Struck};
use sim_core::session::action::Action;

use super::entry::{self, EntryNote};
use super::labels::label;
use crate::desk::{ActRequest, Book, Papers};
use crate::ui::access::spoken;
use crate::ui::controls;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What stands at the end of each row of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowEnd {
    /// The button that strikes out the point.
    StrikeOut,
    /// Nothing: the readings are struck out one by one.
    Nothing,
}

/// Fewest rows of the table.
const FEWEST: usize = 7;

/// The columns, in the order in which they are filled.
const COLUMNS: [fn(PointNumber) -> Field; 6] =
    [Field::Up, Field::Down, Field::DeltaH, Field::Chart, Field::PointFlow, Field::ChartTerm];

/// Rows that are shown: those ordered, one more than those written, and no fewer than seven.
fn rows(papers: &Papers, book: &Book) -> usize {
    let written = book.0.points().last().map_or(0, |point| usize::from(point.number()));
    usize::from(papers.work_order.points).max(written + 1).max(FEWEST)
}

/// What stands over a column: it has less room than a line of its own.
const fn head(field: Field) -> &'static str {
    match field {
        Field::ChartTerm(_) => "corr.",
        _ => label(field).0,
    }
}

/// The page.
pub fn spawn(leaf: &mut ChildSpawnerCommands, papers: &Papers, book: &Book) {
    leaf.spawn(sheet("points")).with_children(|leaf| {
        table(leaf, book, &COLUMNS, rows(papers, book), RowEnd::StrikeOut);
    });
    let strike = "The button \u{d7} at the end of a row strikes out the whole point.";
    leaf.spawn(theme::italic(strike, theme::SMALL, Tone::InkSoft));
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
    let units = "up, down: inches from zero, each leg; \u{394}H: inches of water; chart: its own \
        divisions; flow: std m\u{b3}/min; corr.: corrected chart reading";
    leaf.spawn(theme::italic(units, theme::SMALL, Tone::InkSoft));
}

/// What a table stands on, to readers under a name.
pub fn sheet(name: &str) -> impl Bundle {
    let node = Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(8),
        flex_shrink: 0.0,
        ..default()
    };
    (node, spoken(Role::Table, name, ""))
}

/// The button that strikes out a point.
fn strike_out(cell: &mut ChildSpawnerCommands, point: PointNumber) {
    let request = ActRequest(Action::Strike { what: Struck::Point(point) });
    let name = format!("strike out point {}", point.number());
    cell.spawn(controls::face(&name, request, Tone::PaperShade))
        .insert(Node {
            width: percent(100),
            padding: UiRect::vertical(px(3)),
            border: UiRect::all(px(1)),
            border_radius: BorderRadius::all(px(2)),
            justify_content: JustifyContent::Center,
            ..default()
        })
        .with_child(theme::text("\u{d7}", theme::SMALL, Tone::Ink));
}

/// A table with a numbered row for each reading, and a column for each of its fields.
pub fn table(
    leaf: &mut ChildSpawnerCommands,
    book: &Book,
    columns: &[fn(PointNumber) -> Field],
    rows: usize,
    end: RowEnd,
) {
    let line = || Node {
        column_gap: px(3),
        align_items: AlignItems::Center,
        flex_shrink: 0.0,
        ..default()
    };
    let cell = || Node { flex_grow: 1.0, flex_basis: px(0), min_width: px(0), ..default() };
    let number = || Node { width: percent(7), flex_shrink: 0.0, ..default() };
    let strike = || Node { width: percent(6), flex_shrink: 0.0, ..default() };
    let cell_of = |role| (cell(), spoken(role, "", ""));
    leaf.spawn((line(), spoken(Role::Row, "", ""))).with_children(|row| {
        row.spawn(number());
        let Some(first) = PointNumber::all().next() else { return };
        for column in columns {
            row.spawn(cell_of(Role::ColumnHeader)).with_children(|cell| {
                let name = head(column(first));
                cell.spawn(theme::text(name, theme::SMALL, Tone::InkSoft));
            });
        }
        if end == RowEnd::StrikeOut {
            row.spawn(strike());
        }
    });
    for point in PointNumber::all().take(rows) {
        leaf.spawn((line(), spoken(Role::Row, "", ""))).with_children(|row| {
            row.spawn((number(), spoken(Role::RowHeader, "", ""))).with_children(|cell| {
                let text = point.number().to_string();
                cell.spawn(theme::text(text, theme::SMALL, Tone::InkSoft));
            });
            for column in columns {
                let field = column(point);
                row.spawn(cell_of(Role::Cell)).with_children(|cell| {
                    cell.spawn(entry::input(book, field, &entry::spoken_label(field)));
                });
            }
            if end == RowEnd::StrikeOut {
                row.spawn(strike()).with_children(|cell| strike_out(cell, point));
            }
        });
        for column in columns {
            leaf.spawn((EntryNote(column(point)), theme::italic("", theme::SMALL, Tone::Caution)));
        }
    }
}
