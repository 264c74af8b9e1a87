//! The page: how the session ended, the session to go through again, and the whole report.

use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use report::document::Block;
use sim_core::session::clock::{ClockNote, pauses};

use super::marking::MarkingPlugin;
use super::outcome::{Outcome, Told};
use super::saved;
use super::scrub::{self, ScrubPlugin, Slider};
use super::set::{self, Setting};
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::overlay::{self, Overlay};
use crate::ui::screen::{Screen, clear};
use crate::ui::settings::Settings;
use crate::ui::theme::{self, Theme};

#[derive(Component)]
struct DebriefRoot;

/// Asks for the list of scenarios.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct BackRequest;

pub struct DebriefPlugin;

impl Plugin for DebriefPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((MarkingPlugin, ScrubPlugin, saved::SavedPlugin))
            .add_request::<BackRequest>()
            .add_systems(OnEnter(Screen::Debrief), spawn)
            .add_systems(OnExit(Screen::Debrief), clear::<DebriefRoot>)
            .add_systems(
                Update,
                (leave, turn_over).in_set(Frame::Obey).run_if(in_state(Screen::Debrief)),
            )
            .add_systems(
                PreUpdate,
                (clear::<DebriefRoot>, spawn)
                    .chain()
                    .run_if(in_state(Screen::Debrief))
                    .run_if(something_new),
            );
    }
}

fn something_new(settings: Res<Settings>, outcome: Option<Res<Outcome>>) -> bool {
    settings.is_changed() || outcome.is_some_and(|outcome| outcome.is_added())
}

fn leave(mut requests: MessageReader<BackRequest>, mut next: ResMut<NextState<Screen>>) {
    if requests.read().count() > 0 {
        next.set(Screen::Start);
    }
}

/// The page is read by keys as well as by the wheel.
fn turn_over(
    mut pressed: MessageReader<KeyboardInput>,
    overlay: Res<Overlay>,
    focus: Res<InputFocus>,
    sliders: Query<(), With<Slider>>,
    mut roots: Query<(&mut ScrollPosition, &ComputedNode), With<DebriefRoot>>,
) {
    let Ok((mut scroll, node)) = roots.single_mut() else { return };
    let scale = node.inverse_scale_factor();
    let page = node.size().y * scale * 0.9;
    let most = ((node.content_size().y - node.size().y) * scale).max(0.0);
    // On the strip the same keys go through the session.
    let on_strip = focus.get().is_some_and(|entity| sliders.contains(entity));
    for input in pressed.read() {
        if on_strip || input.state != ButtonState::Pressed || overlay.0.is_some() {
            continue;
        }
        let to = match input.logical_key {
            Key::PageDown => scroll.y + page,
            Key::PageUp => scroll.y - page,
            Key::ArrowDown => scroll.y + 60.0,
            Key::ArrowUp => scroll.y - 60.0,
            Key::Home => 0.0,
            Key::End => most,
            _ => continue,
        };
        scroll.y = to.clamp(0.0, most);
    }
}

fn spawn(settings: Res<Settings>, outcome: Option<Res<Outcome>>, mut commands: Commands) {
    let theme = Theme::of(settings.contrast);
    commands.spawn((DebriefRoot, overlay::page(&theme, px(10)))).with_children(|root| {
        root.spawn(overlay::title_row()).with_children(|row| {
            row.spawn(theme::bold("Debrief", 2.2, theme.ink));
            row.spawn(button(&theme, "back to the scenarios", BackRequest));
        });
        match outcome.as_ref().map(|outcome| &outcome.0) {
            Some(Ok(told)) => tell(root, &theme, &settings, told),
            Some(Err(why)) => {
                root.spawn(theme::bold(why.clone(), theme::BODY, theme.caution));
            }
            None => {
                let words = "The session is being marked.";
                root.spawn(theme::text(words, theme::BODY, theme.ink));
            }
        }
    });
}

/// The whole page.
fn tell(root: &mut ChildSpawnerCommands, theme: &Theme, settings: &Settings, told: &Told) {
    let signed = &told.ended.signed;
    let keys = "Page Up and Page Down, or the wheel, turn the page. F2: units and size of text.";
    root.spawn(theme::italic(keys, theme::SMALL, theme.ink_soft));
    saved::spawn(root, theme);
    if let Some(words) = pauses_in_words(&signed.clock) {
        root.spawn(theme::text(words, theme::BODY, theme.ink));
    }
    let set = Setting { theme, units: settings.units, larger: settings.text_scale() };
    // How it came out stands first, then the session itself, then all the rest.
    let is_head = |block: &Block| matches!(block, Block::Heading(_));
    let blocks = told.document.blocks.as_slice();
    let (first, rest) = blocks.split_at(blocks.iter().position(is_head).unwrap_or(blocks.len()));
    set::blocks(root, set, first);
    scrub::spawn(root, theme, settings);
    set::blocks(root, set, rest);
    root.spawn(theme::text(told.document.footer.clone(), theme::SMALL, theme.ink_soft));
}

/// How often and how long the bench was left; nothing when it never was.
fn pauses_in_words(notes: &[ClockNote]) -> Option<String> {
    let pauses = pauses(notes);
    let times = match pauses.len() {
        0 => return None,
        1 => "once".to_owned(),
        count => format!("{count} times"),
    };
    let known: u64 = pauses.iter().flatten().sum();
    let unknown = pauses.iter().filter(|pause| pause.is_none()).count();
    let mut words = format!("The bench was left {times}");
    if unknown < pauses.len() {
        words.push_str(&format!(", for {} min {} s in all", known / 60, known % 60));
    }
    if unknown > 0 {
        words.push_str(", and once or more without being put aside first");
    }
    words.push_str("; its time stood still meanwhile.");
    Some(words)
}
