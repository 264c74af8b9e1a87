//! A field of the book: what is typed is written as typed when the field is left or Enter is
//! pressed; a problem with it stands beside it, and what it struck out stays to be seen.

use accesskit::Role;
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, FocusLost, FocusedInput, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui_widgets::SelectAllOnFocus;
use sim_core::field_book::{Field, number_as_written};
use sim_core::session::action::Action;
use sim_core::session::apply::LONGEST_TEXT;

use super::labels::{is_number, label};
use crate::desk::{Book, Desk, GoTo, Said};
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::theme::{self, Theme};

/// The field that an input writes into.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct EntryField(pub Field);

/// The note beside a field: what is wrong with it, and what was struck out.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct EntryNote(pub Field);

pub struct EntryPlugin;

impl Plugin for EntryPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(on_left).add_observer(on_enter).add_systems(
            Update,
            (note.run_if(resource_exists_and_changed::<Book>.or_else(any_added)), go_to)
                .in_set(Frame::Show),
        );
    }
}

fn any_added(added: Query<(), Added<EntryNote>>) -> bool {
    !added.is_empty()
}

/// A field with its label, unit and note, one line.
pub fn spawn(leaf: &mut ChildSpawnerCommands, theme: &Theme, book: &Book, field: Field) {
    let (name, unit) = label(field);
    leaf.spawn(Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(2),
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|column| {
        column.spawn(theme::text(name, theme::SMALL, theme.ink));
        column
            .spawn(Node { column_gap: px(6), align_items: AlignItems::Center, ..default() })
            .with_children(|row| {
                row.spawn(Node { flex_grow: 1.0, flex_basis: px(0), ..default() }).with_children(
                    |cell| {
                        cell.spawn(input(theme, book, field, &spoken_label(field)));
                    },
                );
                if !unit.is_empty() {
                    row.spawn(theme::italic(unit, theme::SMALL, theme.ink_soft));
                }
            });
        column.spawn((EntryNote(field), theme::italic("", theme::SMALL, theme.caution)));
    });
}

/// Label with unit, for readers.
pub fn spoken_label(field: Field) -> String {
    let (name, unit) = label(field);
    let point = match field {
        Field::Up(point)
        | Field::Down(point)
        | Field::DeltaH(point)
        | Field::Chart(point)
        | Field::PointFlow(point)
        | Field::ChartTerm(point) => format!("point {}, ", point.number()),
        Field::PartChart(part) | Field::PartMinutes(part) => format!("part {}, ", part.number()),
        Field::CheckUp(reading) | Field::CheckDown(reading) | Field::CheckChart(reading) => {
            format!("check {}, ", reading.number())
        }
        _ => String::new(),
    };
    if unit.is_empty() { format!("{point}{name}") } else { format!("{point}{name}, {unit}") }
}

/// The input alone.
pub fn input(theme: &Theme, book: &Book, field: Field, name: &str) -> impl Bundle {
    let written = book.0.text(field).unwrap_or_default();
    (
        EntryField(field),
        EditableText { max_characters: Some(LONGEST_TEXT), ..EditableText::new(written) },
        SelectAllOnFocus,
        spoken(Role::TextInput, name, written),
        TabIndex(0),
        theme::handwriting(theme),
        Node {
            width: percent(100),
            padding: UiRect::axes(px(4), px(3)),
            border: UiRect::all(px(1)),
            border_radius: BorderRadius::all(px(2)),
            ..default()
        },
        BorderColor::all(theme.line),
        BackgroundColor(theme.page),
        theme::ring(),
    )
}

/// The field in which a step is written gets the focus.
fn go_to(
    mut go: ResMut<GoTo>,
    fields: Query<(Entity, &EntryField)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let GoTo::Field(field) = *go else { return };
    if let Some((entity, _)) = fields.iter().find(|(_, entry)| entry.0 == field) {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}

/// Writes what stands in a field, if it is another text than the book has. A decision that is not
/// clear is asked back.
fn write(field: Field, typed: &EditableText, book: &Book, desk: &mut Desk, said: &mut Said) {
    let text = typed.value().to_string();
    if text.trim() == book.0.text(field).unwrap_or_default() {
        return;
    }
    if !field.is_decision() {
        desk.ask(Action::Write { field, text });
        return;
    }
    match words::decision(field, &text) {
        Ok((decision, reason)) => {
            if book.0.text(field) != Some(decision.entry(&reason).as_str()) {
                desk.ask(Action::Decide { decision, reason });
            }
        }
        Err(why) => said.0 = why,
    }
}

fn on_left(
    lost: On<FocusLost>,
    fields: Query<(&EntryField, &EditableText)>,
    book: Res<Book>,
    desk: Option<ResMut<Desk>>,
    mut said: ResMut<Said>,
) {
    if let (Ok((EntryField(field), typed)), Some(mut desk)) = (fields.get(lost.entity), desk) {
        write(*field, typed, &book, &mut desk, &mut said);
    }
}

fn on_enter(
    pressed: On<FocusedInput<KeyboardInput>>,
    fields: Query<(&EntryField, &EditableText)>,
    book: Res<Book>,
    desk: Option<ResMut<Desk>>,
    mut said: ResMut<Said>,
) {
    let input = &pressed.input;
    if input.logical_key != Key::Enter || input.state != ButtonState::Pressed {
        return;
    }
    if let (Ok((EntryField(field), typed)), Some(mut desk)) =
        (fields.get(pressed.focused_entity), desk)
    {
        write(*field, typed, &book, &mut desk, &mut said);
    }
}

/// What is to be said about a field.
pub fn said_about(book: &Book, field: Field) -> String {
    let mut said = Vec::new();
    if let (true, Some(text)) = (is_number(field), book.0.text(field))
        && let Err(problem) = number_as_written(text)
    {
        said.push(problem.to_string());
    }
    let mut earlier: Vec<&str> = book
        .0
        .entries()
        .iter()
        .filter(|entry| entry.field == field && !entry.text.trim().is_empty())
        .map(|entry| entry.text.trim())
        .collect();
    if book.0.text(field).is_some() {
        earlier.pop();
    }
    if !earlier.is_empty() {
        said.push(format!("struck out: {}", earlier.join(", ")));
    }
    said.join("; ")
}

fn note(book: Res<Book>, mut notes: Query<(&EntryNote, &mut Text, Option<&mut Node>)>) {
    for (EntryNote(field), mut text, node) in &mut notes {
        let said = said_about(&book, *field);
        let display = if said.is_empty() { Display::None } else { Display::Flex };
        if text.0 != said {
            text.0 = said;
        }
        if let Some(mut node) = node
            && node.display != display
        {
            node.display = display;
        }
    }
}
