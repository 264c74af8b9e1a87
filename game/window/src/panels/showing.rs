//! "Show me": the next step is shown in the scene on a copy of the session, under a caption that says
//! so, and then the present state is back.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use hands::Spot;

use crate::desk::{Desk, GoTo, Seen, Show};
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::AtHand;
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// What stands over the scene while something is shown.
pub const CAPTION: &str = "Shown on a copy of the session: nothing is done yet. Esc ends it.";

/// The part of the scene's width that the loupe takes up, percent.
const LOUPE: f32 = 25.0;

/// The strip over the scene.
#[derive(Component)]
struct Strip;
/// What it says.
#[derive(Component)]
struct StripWords;

pub struct ShowingPlugin;

impl Plugin for ShowingPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<GoTo>().add_systems(
            Update,
            (follow, strip, forget)
                .in_set(Frame::Show)
                .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Puts the strip, hidden, over the scene.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    let mut live = spoken(Role::Status, "shown on a copy", "");
    live.set_live(Live::Polite);
    panel
        .spawn((
            Strip,
            live,
            Node {
                position_type: PositionType::Absolute,
                display: Display::None,
                width: percent(100),
                height: percent(100),
                flex_direction: FlexDirection::Column,
                align_items: AlignItems::Center,
                border: UiRect::all(px(4)),
                // The caption lies beside the loupe, in which the step may be seen.
                padding: UiRect::left(percent(LOUPE)),
                ..default()
            },
            Border(Tone::Copper),
            ZIndex(65),
            Pickable::IGNORE,
        ))
        .with_children(|strip| {
            strip
                .spawn((
                    Node {
                        flex_direction: FlexDirection::Column,
                        align_items: AlignItems::Center,
                        max_width: percent(96),
                        padding: UiRect::axes(px(14), px(4)),
                        border: UiRect { bottom: px(2), left: px(2), right: px(2), top: px(0) },
                        ..default()
                    },
                    Surface(Tone::CautionWash),
                    Border(Tone::Copper),
                    Pickable::IGNORE,
                ))
                .with_children(|sheet| {
                    sheet.spawn(theme::bold(CAPTION, theme::BODY, Tone::Ink));
                    sheet.spawn((StripWords, theme::text("", theme::BODY, Tone::Ink)));
                });
        });
}

/// The thing at which something is shown comes to hand.
fn follow(
    desk: Res<Desk>,
    spots: Query<(Entity, &SpotControl)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
    mut at_hand: ResMut<AtHand>,
    mut last: Local<Option<Spot>>,
) {
    // Afterwards the thing at which the step begins is at hand, for the trainee to do it.
    let at = match desk.showing() {
        Some(show) => show.at(),
        None => last.is_some().then(|| desk.shown_last()).flatten(),
    };
    if let Some(spot) = at
        && *last != Some(spot)
    {
        at_hand.set_if_neq(AtHand(spot));
        if let Some((entity, _)) = spots.iter().find(|(_, control)| control.0 == spot) {
            focus.set(entity, FocusCause::Navigated);
            visible.0 = true;
        }
    }
    *last = if desk.showing().is_some() { at } else { None };
}

/// Shows the strip while something is shown.
fn strip(
    desk: Res<Desk>,
    mut strips: Query<(&mut Node, &mut AccessibilityNode), With<Strip>>,
    mut texts: Query<&mut Text, With<StripWords>>,
) {
    let (Ok((mut node, mut access)), Ok(mut text)) = (strips.single_mut(), texts.single_mut())
    else {
        return;
    };
    let show = desk.showing();
    let display = if show.is_some() { Display::Flex } else { Display::None };
    if node.display != display {
        node.display = display;
    }
    let words = show.map_or("", Show::words);
    if text.0 != words {
        text.0 = words.to_owned();
        access.set_value(format!("{CAPTION} {words}"));
    }
}

/// What is not there by the end of the show is looked for no longer.
fn forget(desk: Res<Desk>, mut go: ResMut<GoTo>) {
    if desk.showing().is_none() && !go.is_changed() {
        go.set_if_neq(GoTo::Nowhere);
    }
}
