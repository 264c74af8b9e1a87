//! The page of the run's volume: what the station's logger printed and the laboratory wrote, the parts
//! into which a run is split, and what was worked out.

use bevy::prelude::*;
use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::run::RunView;

use super::decision::{self, Question};
use super::entry::{self, EntryNote};
use super::labels::label;
use crate::desk::{ActRequest, Book, Papers};
use crate::ui::controls::button;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// Fewest rows of parts.
const FEWEST: usize = 3;

/// The page.
pub fn spawn(
    leaf: &mut ChildSpawnerCommands,
    (run, book): (&RunView, &Book),
    (papers, decisions): (&Papers, &decision::Drafts),
) {
    for field in [Field::RunMinutes, Field::MeanChart] {
        entry::spawn(leaf, book, field);
    }
    parts(leaf, book);
    for field in [
        Field::RunPressure,
        Field::RunTemperature,
        Field::RunFlow,
        Field::Volume,
        Field::Concentration,
    ] {
        entry::spawn(leaf, book, field);
    }
    decision::spawn(leaf, Question::Sample, (papers, decisions));
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
    laboratory(leaf, run);
    weather(leaf, run);
}

/// Means of parts, for a run whose flow changed much: one row more than those that are written.
fn parts(leaf: &mut ChildSpawnerCommands, book: &Book) {
    let written = PointNumber::all()
        .filter(|&part| {
            let has = |field| book.0.text(field).is_some();
            has(Field::PartChart(part)) || has(Field::PartMinutes(part))
        })
        .last()
        .map_or(0, |part| usize::from(part.number()));
    let words = "Where the flow changed much, give the mean of each part and its minutes:";
    leaf.spawn(theme::text(words, theme::SMALL, Tone::InkSoft));
    for part in PointNumber::all().take((written + 1).max(FEWEST)) {
        let fields = [Field::PartChart(part), Field::PartMinutes(part)];
        leaf.spawn(Node {
            column_gap: px(6),
            align_items: AlignItems::Center,
            flex_shrink: 0.0,
            ..default()
        })
        .with_children(|row| {
            row.spawn(Node { width: percent(7), flex_shrink: 0.0, ..default() }).with_children(
                |cell| {
                    let number = part.number().to_string();
                    cell.spawn(theme::text(number, theme::SMALL, Tone::InkSoft));
                },
            );
            for field in fields {
                row.spawn(Node {
                    flex_grow: 1.0,
                    flex_basis: px(0),
                    min_width: px(0),
                    ..default()
                })
                .with_children(|cell| {
                    cell.spawn(entry::input(book, field, &entry::spoken_label(field)));
                });
                row.spawn(theme::italic(label(field).1, theme::SMALL, Tone::InkSoft));
            }
        });
        for field in fields {
            leaf.spawn((EntryNote(field), theme::italic("", theme::SMALL, Tone::Caution)));
        }
    }
}

/// What the laboratory wrote on the envelope.
fn laboratory(leaf: &mut ChildSpawnerCommands, run: &RunView) {
    let words = match run.masses {
        None => "The laboratory weighs the filter once it lies folded in its envelope.".to_owned(),
        Some(masses) => {
            let number = run.sample.as_deref().or(run.filter.number.as_deref());
            let number = number.unwrap_or("without a number");
            format!(
                "The laboratory writes: filter {number}, before {:.4} g, after {:.4} g",
                masses.before_g, masses.after_g
            )
        }
    };
    paper(leaf, Sight::Filter, "hold the envelope under the loupe", |sheet| {
        sheet.spawn(theme::text(words, theme::SMALL, Tone::Ink));
    });
}

/// The logger's sheet.
fn weather(leaf: &mut ChildSpawnerCommands, run: &RunView) {
    if run.weather.is_empty() {
        let none = "The logger prints the weather of the run hour by hour. You find the sheet when \
            you come back.";
        leaf.spawn(theme::italic(none, theme::SMALL, Tone::InkSoft));
        return;
    }
    paper(leaf, Sight::WeatherSheet, "hold the sheet under the loupe", |sheet| {
        let head = ["day and time", "mmHg", "\u{b0}C"].map(str::to_owned);
        let rows = run.weather.iter().map(|line| {
            let time = line.time.to_string();
            let minutes = time.rsplit_once(':').map_or(time.as_str(), |(minutes, _)| minutes);
            [
                format!("{} {minutes}", line.date),
                format!("{:.1}", line.pressure_mmhg),
                format!("{:.1}", line.temperature_c),
            ]
        });
        for cells in std::iter::once(head).chain(rows) {
            sheet.spawn(Node { width: percent(100), flex_shrink: 0.0, ..default() }).with_children(
                |row| {
                    for (cell, width) in cells.into_iter().zip([54.0, 26.0, 20.0]) {
                        row.spawn(Node { width: percent(width), flex_shrink: 0.0, ..default() })
                            .with_children(|column| {
                                column.spawn(theme::text(cell, theme::SMALL, Tone::Ink));
                            });
                    }
                },
            );
        }
    });
}

/// A paper on the page, with the button that brings it under the loupe.
fn paper(
    leaf: &mut ChildSpawnerCommands,
    at: Sight,
    look: &str,
    print: impl FnOnce(&mut ChildSpawnerCommands),
) {
    let sheet = Node {
        padding: UiRect::axes(px(10), px(8)),
        flex_direction: FlexDirection::Column,
        row_gap: px(4),
        flex_shrink: 0.0,
        ..default()
    };
    leaf.spawn(theme::sheet(sheet)).with_children(|sheet| {
        print(sheet);
        sheet.spawn(Node::default()).with_children(|row| {
            row.spawn(button(look, ActRequest(Action::Look { at, eye_mm: 0.0 })));
        });
    });
}
