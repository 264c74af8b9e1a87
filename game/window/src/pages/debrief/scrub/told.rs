//! The words beside the station: the moment, what could be seen, and what was true.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;
use content::snapshot::NamedValue;
use paint::strip::ShowTruth;

use super::super::outcome::Outcome;
use super::super::table::row;
use super::cursor::Scrubbed;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::services::Reporting;
use crate::ui::settings::Settings;
use crate::ui::text_size::ByTextSize;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// On the button while the truth is hidden.
pub const SHOW: &str = "show the true values";
/// On the button while it is shown.
const HIDE: &str = "hide the true values";

/// Columns of the values, percent.
const VALUES: [f32; 2] = [38.0, 62.0];

/// The button that shows and hides what was true.
#[derive(Component)]
pub struct TruthButton;
#[derive(Component)]
struct Told;
#[derive(Component)]
struct Heading;

pub struct ToldPlugin;

impl Plugin for ToldPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            (tell, head, name_button)
                .in_set(Frame::Show)
                .run_if(in_state(Screen::Debrief).and_then(resource_exists::<Scrubbed>)),
        );
    }
}

/// Puts the words into a row.
pub fn spawn(parent: &mut ChildSpawnerCommands) {
    parent
        .spawn((
            Node {
                flex_direction: FlexDirection::Column,
                flex_grow: 1.0,
                min_width: px(0),
                row_gap: px(4),
                ..default()
            },
            ByTextSize::new(|node, scale| node.flex_basis = px(300.0 * scale)),
        ))
        .with_children(|column| {
            let mut live = spoken(Role::Status, "moment", "");
            live.set_live(Live::Polite);
            column.spawn((Heading, live, theme::bold("", theme::HEAD, Tone::Ink)));
            column.spawn((
                Told,
                Node { flex_direction: FlexDirection::Column, row_gap: px(3), ..default() },
            ));
        });
}

/// The moment itself.
fn head(
    scrubbed: Res<Scrubbed>,
    mut headings: Query<(&mut Text, &mut AccessibilityNode), With<Heading>>,
) {
    let Ok((mut text, mut access)) = headings.single_mut() else { return };
    let words = scrubbed.scrub().words();
    if text.0 != words {
        access.set_value(words.clone());
        text.0 = words;
    }
}

/// Everything below it.
fn tell(
    (scrubbed, outcome, settings): (Res<Scrubbed>, Res<Outcome>, Res<Settings>),
    reports: Res<Reporting>,
    columns: Query<(Entity, Ref<Told>)>,
    mut commands: Commands,
) {
    let (Ok((column, told)), Ok(outcome)) = (columns.single(), &outcome.0) else { return };
    if !scrubbed.is_changed() && !settings.is_changed() && !told.is_added() {
        return;
    }
    let units = settings.units;
    let scrub = scrubbed.scrub();
    let glimpse = scrub.glimpse();
    commands.entity(column).despawn_children().with_children(|column| {
        for words in reports.marked(scrub, &outcome.ended) {
            let words = units.beside(&words);
            column.spawn(theme::bold(words, theme::BODY, Tone::CopperType));
        }
        if let Some(last) = reports.last_action(scrub, &outcome.ended) {
            let words = format!("last action, {last}");
            column.spawn(theme::italic(words, theme::SMALL, Tone::InkSoft));
        }
        rows(column, "visible", &reports.visible(glimpse, units));
        if scrubbed.truth == ShowTruth::Shown {
            rows(column, "true values", &reports.ground_truth(glimpse, units));
        }
    });
}

fn rows(column: &mut ChildSpawnerCommands, heading: &str, values: &[NamedValue]) {
    column.spawn(theme::bold(heading, theme::BODY, Tone::Ink));
    for (name, value) in values {
        row(column, &VALUES, &[name, value]);
    }
}

/// The button says what it will do.
fn name_button(
    scrubbed: Res<Scrubbed>,
    mut buttons: Query<(&mut AccessibilityNode, &Children), With<TruthButton>>,
    mut texts: Query<&mut Text>,
) {
    let Ok((mut access, children)) = buttons.single_mut() else { return };
    let words = if scrubbed.truth == ShowTruth::Shown { HIDE } else { SHOW };
    if access.label() == Some(words) {
        return;
    }
    access.set_label(words);
    for child in children {
        if let Ok(mut text) = texts.get_mut(*child) {
            words.clone_into(&mut text.0);
        }
    }
}
