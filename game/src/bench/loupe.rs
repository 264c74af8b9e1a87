//! The loupe: what the eyes are on, magnified, from the height at which the eye is held.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::picking::events::{Drag, Pointer, Scroll};
use bevy::prelude::*;
use sim_core::session::action::Action;

use super::Screen;
use super::access::spoken;
use super::controls::Ask;
use super::desk::{Desk, Papers, Seen};
use super::places::LOUPE;
use super::spots::lay;
use super::theme::{self, Theme};
use crate::words;

/// Farthest that the eye goes from the level of what is read, mm.
const EYE_LIMIT_MM: f64 = 150.0;

#[derive(Component)]
struct Glass;
#[derive(Component)]
struct Words;
#[derive(Component)]
struct EyeText;

pub struct LoupePlugin;

impl Plugin for LoupePlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(on_wheel).add_observer(on_drag).add_systems(
            Update,
            (move_eye, show).run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Holds the loupe over the scene.
pub fn spawn(panel: &mut ChildSpawnerCommands, theme: &Theme) {
    let mut node = Node {
        position_type: PositionType::Absolute,
        border: UiRect::all(px(5)),
        border_radius: BorderRadius::MAX,
        align_items: AlignItems::Center,
        justify_content: JustifyContent::Center,
        padding: UiRect::all(px(24)),
        overflow: Overflow::clip(),
        ..default()
    };
    lay(&mut node, LOUPE);
    panel
        .spawn((
            Glass,
            spoken(Role::Image, "loupe", ""),
            node,
            BackgroundColor(theme.page),
            BorderColor::all(theme.ink),
            ZIndex(50),
        ))
        .with_children(|glass| {
            glass.spawn((Words, theme::text("", theme::SMALL, theme.ink)));
        });
    let mut caption = Node { position_type: PositionType::Absolute, ..default() };
    caption.left = percent(0.6);
    caption.top = percent(36.5);
    panel.spawn((caption, ZIndex(50), Pickable::IGNORE)).with_children(|row| {
        row.spawn((EyeText, theme::italic("", theme::SMALL, theme.ink)));
    });
}

/// Raises or lowers the eye.
fn move_eye(mut asks: MessageReader<Ask>, mut desk: ResMut<Desk>, seen: Res<Seen>) {
    let by: f64 = asks.read().map(|ask| if let Ask::Eye(by) = ask { *by } else { 0.0 }).sum();
    if by.abs() > 0.0 {
        look(&mut desk, &seen, by);
    }
}

fn look(desk: &mut Desk, seen: &Seen, by_mm: f64) {
    let eye_mm = (seen.0.eye_mm + by_mm).clamp(-EYE_LIMIT_MM, EYE_LIMIT_MM);
    desk.ask(Action::Look { at: seen.0.focus, eye_mm });
}

fn on_wheel(
    scroll: On<Pointer<Scroll>>,
    glass: Query<(), With<Glass>>,
    desk: Option<ResMut<Desk>>,
    seen: Option<Res<Seen>>,
) {
    if let (true, Some(mut desk), Some(seen)) = (glass.contains(scroll.entity), desk, seen) {
        look(&mut desk, &seen, f64::from(scroll.y.signum()) * 2.0);
    }
}

fn on_drag(
    drag: On<Pointer<Drag>>,
    glass: Query<(), With<Glass>>,
    desk: Option<ResMut<Desk>>,
    seen: Option<Res<Seen>>,
) {
    if let (true, Some(mut desk), Some(seen)) = (glass.contains(drag.entity), desk, seen) {
        look(&mut desk, &seen, -f64::from(drag.delta.y) * 0.5);
    }
}

/// Shows what the eyes are on.
fn show(
    seen: Res<Seen>,
    desk: Res<Desk>,
    added: Query<(), Added<Words>>,
    mut texts: Query<&mut Text, (With<Words>, Without<EyeText>)>,
    mut eyes: Query<&mut Text, (With<EyeText>, Without<Words>)>,
    mut glass: Query<&mut AccessibilityNode, With<Glass>>,
) {
    if !seen.is_changed() && added.is_empty() {
        return;
    }
    let words = looked_at(&seen, &desk.papers);
    if let Ok(mut text) = texts.single_mut()
        && text.0 != words
    {
        text.0 = words;
    }
    let height = eye_words(seen.0.eye_mm);
    if let Ok(mut eye) = eyes.single_mut()
        && eye.0 != height
    {
        if let Ok(mut access) = glass.single_mut() {
            access.set_value(height.clone());
        }
        eye.0 = height;
    }
}

/// What is seen there, until the drawing shows it.
fn looked_at(seen: &Seen, papers: &Papers) -> String {
    words::look(&seen.0, seen.0.focus, &papers.as_words())
}

/// The eye's height in words, as a person would feel it.
fn eye_words(eye_mm: f64) -> String {
    if eye_mm.abs() < 0.5 {
        "eye at level".to_owned()
    } else if eye_mm > 0.0 {
        format!("eye {eye_mm:.0} mm above level")
    } else {
        format!("eye {:.0} mm below level", -eye_mm)
    }
}
