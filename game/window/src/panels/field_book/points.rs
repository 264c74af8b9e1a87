//! The table of points: a row for each, its notes under it.

use accesskit::Role;
use bevy::prelude::*;
use sim_core::field_book::{Field, PointNumber, Struck};
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::entry::{self, EntryNote};
use super::labels::label;
use super::width::page_width;
use crate::desk::{ActRequest, Book, Papers};
use crate::ui::access::spoken;
use crate::ui::controls;
use crate::ui::room::ByRoom;
use crate::ui::theme;
use crate::ui::tone::{Border, Tone};

/// What stands at the end of each row of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowEnd {
    /// The button that strikes out the point.
    StrikeOut,
    /// Nothing: the readings are struck out one by one.
    Nothing,
}

/// What the pressure of a point is read on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadOn {
    /// Both legs of a water manometer.
    Legs,
    /// The display of an electronic one.
    Display,
}

impl ReadOn {
    /// What is at hand on this bench.
    pub fn of(view: &View) -> Self {
        if view.manometer.display.is_some() { Self::Display } else { Self::Legs }
    }
}

/// Fewest rows of the table.
const FEWEST: usize = 7;
/// Least width of a cell, in heights of running text: a number of five signs has room in it.
const CELL: f32 = 3.95;
/// Width of a row's number, and of the button at its end, in the same unit.
const ENDS: [f32; 2] = [1.4, 1.7];
/// Room between cells, logical pixels.
const GAP_PX: f32 = 3.0;

/// A column of the table: the field that a point has in it.
pub type Column = fn(PointNumber) -> Field;

/// The columns, in the order in which they are filled.
const COLUMNS: [Column; 6] =
    [Field::Up, Field::Down, Field::DeltaH, Field::Chart, Field::PointFlow, Field::ChartTerm];
/// The columns where a display shows the whole pressure.
const WITH_DISPLAY: [Column; 4] = [Field::DeltaH, Field::Chart, Field::PointFlow, Field::ChartTerm];

/// The columns of the page.
pub const fn columns(read_on: ReadOn) -> &'static [Column] {
    match read_on {
        ReadOn::Legs => &COLUMNS,
        ReadOn::Display => &WITH_DISPLAY,
    }
}

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
pub fn spawn(leaf: &mut ChildSpawnerCommands, papers: &Papers, book: &Book, read_on: ReadOn) {
    leaf.spawn(sheet("points")).with_children(|leaf| {
        table(leaf, book, columns(read_on), rows(papers, book), RowEnd::StrikeOut);
    });
    let strike = "The button \u{d7} at the end of a row strikes out the whole point.";
    leaf.spawn(theme::italic(strike, theme::SMALL, Tone::InkSoft));
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
    let pressure = match read_on {
        ReadOn::Legs => "up, down: inches from zero, each leg; \u{394}H: inches of water",
        ReadOn::Display => "\u{394}H: inches of water, as the display shows it",
    };
    let units = format!(
        "{pressure}; chart: its own divisions; flow: std m\u{b3}/min; corr.: corrected chart reading"
    );
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

/// The cells of a row beside one another, or in two lines where the page is too narrow for them.
fn cells(count: usize) -> ByRoom {
    ByRoom::new(move |node, room| {
        let gaps = GAP_PX * count as f32 / 15.0 / room.scale;
        let room_for = (page_width(room) - ENDS[0] - ENDS[1] - gaps) / CELL;
        let beside = if room_for >= count as f32 { count } else { count.div_ceil(2) };
        let beside = u16::try_from(beside.max(1)).unwrap_or(1);
        node.grid_template_columns = RepeatedGridTrack::minmax(
            beside,
            MinTrackSizingFunction::Px(0.0),
            MaxTrackSizingFunction::Fraction(1.0),
        );
    })
}

/// The ends of a row, which grow with the text.
fn end(width: f32) -> impl Bundle {
    (
        Node { flex_shrink: 0.0, ..default() },
        ByRoom::new(move |node, room| node.width = px(width * 15.0 * room.scale)),
    )
}

/// A row: its number, its cells, and what stands at its end.
fn line(
    leaf: &mut ChildSpawnerCommands,
    (columns, end_of_row): (usize, RowEnd),
    number: &str,
    fill: impl FnOnce(&mut ChildSpawnerCommands),
    at_end: impl FnOnce(&mut ChildSpawnerCommands),
) {
    leaf.spawn((
        Node {
            column_gap: px(GAP_PX),
            align_items: AlignItems::Center,
            padding: UiRect::bottom(px(4)),
            border: UiRect::bottom(px(1)),
            flex_shrink: 0.0,
            ..default()
        },
        Border(Tone::Line),
        spoken(Role::Row, "", ""),
    ))
    .with_children(|row| {
        row.spawn((end(ENDS[0]), spoken(Role::RowHeader, "", ""))).with_children(|cell| {
            cell.spawn(theme::bold(number, theme::SMALL, Tone::InkSoft));
        });
        let grid = Node {
            display: Display::Grid,
            flex_grow: 1.0,
            flex_basis: px(0),
            min_width: px(0),
            column_gap: px(GAP_PX),
            row_gap: px(GAP_PX),
            ..default()
        };
        row.spawn((grid, cells(columns))).with_children(fill);
        if end_of_row == RowEnd::StrikeOut {
            row.spawn(end(ENDS[1])).with_children(at_end);
        }
    });
}

/// A table with a numbered row for each reading, and a column for each of its fields.
pub fn table(
    leaf: &mut ChildSpawnerCommands,
    book: &Book,
    columns: &[Column],
    rows: usize,
    end_of_row: RowEnd,
) {
    let form = (columns.len(), end_of_row);
    let Some(first) = PointNumber::all().next() else { return };
    let cell_of = |role| (Node { min_width: px(0), ..default() }, spoken(role, "", ""));
    let heads = |row: &mut ChildSpawnerCommands| {
        for column in columns {
            row.spawn(cell_of(Role::ColumnHeader)).with_children(|cell| {
                let name = head(column(first));
                cell.spawn(theme::bold(name, theme::SMALL, Tone::InkSoft));
            });
        }
    };
    line(leaf, form, "", heads, |_| {});
    for point in PointNumber::all().take(rows) {
        let fields = |row: &mut ChildSpawnerCommands| {
            for column in columns {
                let field = column(point);
                row.spawn(cell_of(Role::Cell)).with_children(|cell| {
                    cell.spawn(entry::input(book, field, &entry::spoken_label(field)));
                });
            }
        };
        line(leaf, form, &point.number().to_string(), fields, |cell| strike_out(cell, point));
        for column in columns {
            leaf.spawn((EntryNote(column(point)), theme::italic("", theme::SMALL, Tone::Caution)));
        }
    }
}
