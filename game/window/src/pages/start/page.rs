//! The first sheet: the caution, the scenarios, and the sessions that can be gone on with or looked at
//! again.

use bevy::input_focus::InputFocus;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;
use sessions::{KeptSession, KeptState, ScenarioCard};

use super::library::{Library, Shelf};
use super::note::{self, StartNote};
use super::opening::OpeningPlugin;
use super::requests::StartRequest;
use super::seed;
use crate::panels::help::HELP;
use crate::ui::background::Background;
use crate::ui::caution::caution;
use crate::ui::controls::{Request, button, face};
use crate::ui::order::Frame;
use crate::ui::overlay::{self, FocusFirst, SheetRequest};
use crate::ui::screen::{Screen, clear};
use crate::ui::settings::Kept;
use crate::ui::settings_sheet::SETTINGS;
use crate::ui::store::Store;
use crate::ui::text_size::ByTextSize;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// The caution that stands at the start of every session.
pub const CAUTION: &str = "This is a training aid, not a procedure. The site's own rules, the instrument's \
    instructions, local codes and licensed practice come first.";

fn head(root: &mut ChildSpawnerCommands) {
    root.spawn(overlay::title_row()).with_children(|row| {
        row.spawn(theme::bold("Steady Draw", theme::TITLE, Tone::Ink));
        row.spawn(overlay::choices()).with_children(|row| {
            // After the list: both have a key of their own.
            row.spawn(button("F1 help", SheetRequest(HELP))).insert(TabIndex(2));
            row.spawn(button("F2 settings", SheetRequest(SETTINGS))).insert(TabIndex(2));
        });
    });
}

/// Sessions of one kind.
fn shelf(root: &mut ChildSpawnerCommands, library: &Library, shelf: Shelf, height: ByTextSize) {
    let mut list = library.shelf(shelf).peekable();
    if list.peek().is_none() {
        return;
    }
    let heading = match shelf {
        Shelf::Unfinished => "Continue",
        Shelf::Ended => "Past sessions",
        Shelf::Closed => "Sessions that this version cannot open",
    };
    root.spawn(theme::bold(heading, theme::HEAD, Tone::Ink));
    root.spawn((
        ScrollArea,
        Node {
            column_gap: px(10),
            row_gap: px(8),
            flex_wrap: FlexWrap::Wrap,
            flex_shrink: 0.0,
            overflow: Overflow::scroll_y(),
            ..default()
        },
        height,
    ))
    .with_children(|row| {
        for (place, (number, kept)) in (1_usize..).zip(list) {
            kept_session(row, place, number, kept);
        }
    });
}

/// A session: a button that opens it, or why there is none.
fn kept_session(row: &mut ChildSpawnerCommands, place: usize, number: usize, kept: &KeptSession) {
    let (title, minutes) = (&kept.title, kept.minutes.unwrap_or_default());
    match &kept.state {
        KeptState::Unfinished => {
            let words = format!("{title}, {minutes} min in");
            row.spawn(button(&words, StartRequest::Resume(number)));
        }
        KeptState::Ended => {
            let rig = kept.seed.unwrap_or_default();
            let words = format!("{place}. {title}, rig {rig}, {minutes} min");
            row.spawn(button(&words, StartRequest::Debrief(number)));
        }
        KeptState::OtherVersion(version) => {
            let words = format!("{title}: open it with version {version} of this program.");
            row.spawn(theme::text(words, theme::BODY, Tone::Ink));
        }
        KeptState::Unreadable(why) => {
            let words = format!("{title}: its journal cannot be read ({why}).");
            row.spawn(theme::text(words, theme::BODY, Tone::Ink));
        }
    }
}

fn scenarios(root: &mut ChildSpawnerCommands, library: &Library) {
    root.spawn(Node {
        column_gap: px(12),
        align_items: AlignItems::Center,
        flex_wrap: FlexWrap::Wrap,
        row_gap: px(6),
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        row.spawn(theme::bold("Scenarios", theme::HEAD, Tone::Ink));
        row.spawn(theme::italic("rig number", theme::SMALL, Tone::InkSoft));
        seed::spawn(row, library.fresh_rig());
    });
    if library.cards.is_empty() {
        let none = "No scenarios were found. Start the program in its own folder, or name a scenario when you start it.";
        root.spawn(theme::text(none, theme::BODY, Tone::Ink));
    }
    root.spawn(Node {
        column_gap: px(14),
        row_gap: px(14),
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        for (number, card) in library.cards.iter().enumerate() {
            scenario_card(row, number, card);
        }
    });
}

fn scenario_card(row: &mut ChildSpawnerCommands, number: usize, card: &ScenarioCard) {
    let limit = match card.limit_min {
        Some(minutes) => format!("{minutes:.0} minutes"),
        None => "no time limit".to_owned(),
    };
    let situation = card.situation.as_deref().unwrap_or(NOT_TOLD);
    let label = format!("{}. {situation} {limit}", card.title);
    row.spawn(face(&label, StartRequest::Begin(number), Tone::Page))
        .insert(Node {
            flex_direction: FlexDirection::Column,
            align_items: AlignItems::Start,
            width: percent(31),
            min_width: px(280),
            flex_grow: 1.0,
            padding: UiRect::all(px(14)),
            border: UiRect::all(px(2)),
            border_radius: BorderRadius::all(px(5)),
            row_gap: px(6),
            ..default()
        })
        .with_children(|column| {
            column.spawn(theme::bold(card.title.clone(), theme::HEAD, Tone::Ink));
            match &card.trouble {
                None => column.spawn(theme::text(situation.to_owned(), theme::BODY, Tone::Ink)),
                Some(why) => column.spawn(theme::bold(why.clone(), theme::SMALL, Tone::Caution)),
            };
            column.spawn(theme::italic(limit, theme::SMALL, Tone::InkSoft));
        });
}
