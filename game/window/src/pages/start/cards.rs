//! The cards of the scenarios, by the kind of their job: a picture of the site, what is found there, and
//! what was got.

use bevy::prelude::*;
use sessions::{JobKind, ScenarioCard};

use super::got::Got;
use super::requests::StartRequest;
use super::site_picture;
use crate::ui::controls::face;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What the card of a scenario that does not tell its situation says.
const NOT_TOLD: &str = "What the visit is for stands in the work order.";

/// Lays the cards, those of one kind of job together.
pub(super) fn spawn(root: &mut ChildSpawnerCommands, cards: &[ScenarioCard]) {
    if cards.is_empty() {
        let none = "No scenarios were found. Start the program in its own folder, or name a scenario when you start it.";
        root.spawn(theme::text(none, theme::BODY, Tone::Ink));
    }
    for kind in JobKind::ALL {
        let mut of_kind = cards.iter().enumerate().filter(|(_, card)| card.job == kind).peekable();
        if of_kind.peek().is_none() {
            continue;
        }
        root.spawn(theme::bold(kind.heading(), theme::BODY, Tone::InkSoft));
        root.spawn(Node {
            column_gap: px(14),
            row_gap: px(14),
            flex_wrap: FlexWrap::Wrap,
            flex_shrink: 0.0,
            ..default()
        })
        .with_children(|row| {
            for (number, card) in of_kind {
                spawn_card(row, number, card);
            }
        });
    }
}

fn spawn_card(row: &mut ChildSpawnerCommands, number: usize, card: &ScenarioCard) {
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
            border: UiRect::all(px(2)),
            border_radius: BorderRadius::all(px(5)),
            overflow: Overflow::clip(),
            ..default()
        })
        .with_children(|card_node| {
            if let Some(look) = &card.look {
                card_node.spawn(site_picture::place(look, &card.title));
            }
            card_node
                .spawn(Node {
                    flex_direction: FlexDirection::Column,
                    padding: UiRect::all(px(14)),
                    row_gap: px(6),
                    ..default()
                })
                .with_children(|column| {
                    column.spawn(theme::bold(card.title.clone(), theme::HEAD, Tone::Ink));
                    match &card.trouble {
                        None => {
                            column.spawn(theme::text(situation.to_owned(), theme::BODY, Tone::Ink))
                        }
                        Some(why) => {
                            column.spawn(theme::bold(why.clone(), theme::SMALL, Tone::Caution))
                        }
                    };
                    column.spawn(theme::italic(limit, theme::SMALL, Tone::InkSoft));
                    column.spawn((
                        Got::of(&card.title, label),
                        theme::bold("", theme::SMALL, Tone::Ink),
                    ));
                });
        });
}
