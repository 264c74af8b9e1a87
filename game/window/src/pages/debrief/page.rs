//! The page: how the session ended, the session to go through again, and the whole report.

use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardInput};
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use content::document::Block;
use sim_core::session::clock::{ClockNote, pauses};

use super::contents;
use super::earlier;
use super::marking::MarkingPlugin;
use super::outcome::{Outcome, Told};
use super::saved;
use super::scrub::{self, ScrubPlugin, Slider};
use super::section::DebriefRoot;
use super::set;
use crate::ui::access::heading;
use crate::ui::announce::Announce;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::overlay::{self, Overlay};
use crate::ui::screen::{Screen, clear};
use crate::ui::theme;
use crate::ui::tone::Tone;

/// Room between the parts of the page.
const ROW_GAP: Val = Val::Px(10.0);

/// What stands below the head of the page.
#[derive(Component)]
struct Body;

/// Asks for the list of scenarios.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct BackRequest;

pub struct DebriefPlugin;

impl Plugin for DebriefPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((MarkingPlugin, ScrubPlugin, saved::SavedPlugin, contents::ContentsPlugin))
            .add_request::<BackRequest>()
            .add_systems(OnEnter(Screen::Debrief), spawn)
            .add_systems(OnExit(Screen::Debrief), clear::<DebriefRoot>)
            .add_systems(
                Update,
                (
                    (leave, turn_over).in_set(Frame::Obey),
                    fill.in_set(Frame::Lay).run_if(resource_added::<Outcome>),
                )
                    .run_if(in_state(Screen::Debrief)),
            );
    }
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

/// The page, while the session is being marked.
fn spawn(mut commands: Commands) {
    commands.spawn((DebriefRoot, overlay::page(ROW_GAP))).with_children(|root| {
        root.spawn(overlay::title_row()).with_children(|row| {
            let role = heading("Debrief", 1);
            row.spawn((theme::bold("Debrief", theme::TITLE, Tone::Ink), role));
            row.spawn(button("back to the scenarios", BackRequest));
        });
        root.spawn((Body, overlay::column(ROW_GAP))).with_children(|body| {
            let words = "The session is being marked.";
            body.spawn(theme::text(words, theme::BODY, Tone::Ink));
        });
    });
}

/// Fills the page once it is known how the session came out, and says so.
fn fill(
    outcome: Res<Outcome>,
    bodies: Query<Entity, With<Body>>,
    mut announce: MessageWriter<Announce>,
    mut commands: Commands,
) {
    let Ok(body) = bodies.single() else { return };
    let blocks = outcome.0.as_ref().map(|told| told.document.blocks.as_slice());
    for block in blocks.unwrap_or_default() {
        if let Block::Result(_, words) = block {
            announce.write(Announce::polite(words.clone()));
        }
    }
    commands.entity(body).despawn_children().with_children(|body| match &outcome.0 {
        Ok(told) => tell(body, told),
        Err(why) => {
            body.spawn(theme::bold(why.clone(), theme::BODY, Tone::Caution));
        }
    });
}

/// The whole page.
fn tell(root: &mut ChildSpawnerCommands, told: &Told) {
    let signed = &told.ended.session;
    let keys = "Page Up, Page Down and the wheel scroll this page. F2 opens the settings for units and text size.";
    root.spawn(theme::italic(keys, theme::SMALL, Tone::InkSoft));
    saved::spawn(root);
    if let Some(words) = pauses_in_words(&signed.clock) {
        root.spawn(theme::text(words, theme::BODY, Tone::Ink));
    }
    // How it came out stands first, then the session itself, then all the rest.
    let is_head = |block: &Block| matches!(block, Block::Heading(_));
    let blocks = told.document.blocks.as_slice();
    let (first, rest) = blocks.split_at(blocks.iter().position(is_head).unwrap_or(blocks.len()));
    let compared = earlier::blocks(&told.earlier, &told.ended);
    let own = [scrub::HEADING].into_iter();
    let all = own.chain(contents::headings(&compared)).chain(contents::headings(rest));
    contents::spawn(root, all);
    set::blocks(root, first);
    scrub::spawn(root);
    set::blocks(root, &compared);
    set::blocks(root, rest);
    root.spawn(theme::text(told.document.footer.clone(), theme::SMALL, Tone::InkSoft));
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
    let mut words = format!("You left the bench {times}");
    if unknown < pauses.len() {
        words.push_str(&format!(", for {} min {} s in total", known / 60, known % 60));
    }
    if unknown > 0 {
        words.push_str(", and the program stopped at least once without leaving the bench");
    }
    words.push_str(". Bench time stood still meanwhile.");
    Some(words)
}
