//! A word where the hand is: why what was tried there cannot be done, and that nothing is there to be
//! taken hold of. The hand card says the same; this is where the eyes are.

use bevy::picking::events::{Click, Pointer, Press};
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;

use crate::desk::{Said, Seen};
use crate::scene::panel::{ScenePanel, in_scene};
use crate::scene::places::{HEIGHT, WIDTH};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, Tone};

/// What is said of a place where there is nothing.
pub const NOTHING_THERE: &str = "There is nothing here to look at or to take hold of.";

/// Where the hand was last in the scene; `None` when something else was done since.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Default)]
pub struct SaidHere(pub Option<Vec2>);

#[derive(Component)]
struct Word;
#[derive(Component)]
struct WordText;

pub struct WordPlugin;

impl Plugin for WordPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<SaidHere>()
            .add_observer(on_press)
            .add_observer(on_nothing)
            .add_observer(on_key)
            .add_systems(
                Update,
                show.in_set(Frame::Show)
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
            );
    }
}

/// Puts the empty word into the scene's panel.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    panel.spawn((
        Word,
        Node {
            position_type: PositionType::Absolute,
            display: Display::None,
            max_width: percent(38),
            padding: UiRect::axes(px(8), px(3)),
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::all(px(4)),
            ..default()
        },
        Surface(Tone::Page),
        Border(Tone::Caution),
        ZIndex(72),
        Pickable::IGNORE,
        children![(WordText, theme::text("", theme::SMALL, Tone::Caution))],
    ));
}

/// A press in the scene is where the hand is now; one elsewhere takes the word away.
fn on_press(
    press: On<Pointer<Press>>,
    panels: Query<(&ComputedNode, &UiGlobalTransform), With<ScenePanel>>,
    mut here: ResMut<SaidHere>,
    mut said: Option<ResMut<Said>>,
) {
    if press.entity != press.original_event_target() {
        return;
    }
    let at = in_scene(press.pointer_location.position, &panels);
    let inside = at.filter(|at| (0.0..WIDTH).contains(&at.x) && (0.0..HEIGHT).contains(&at.y));
    here.set_if_neq(SaidHere(inside));
    if let Some(said) = &mut said
        && **said == nothing_there()
    {
        **said = Said::Nothing;
    }
}

fn nothing_there() -> Said {
    Said::Notice(NOTHING_THERE.to_owned())
}

/// A click on the scene itself met no thing.
fn on_nothing(
    click: On<Pointer<Click>>,
    panels: Query<(), With<ScenePanel>>,
    said: Option<ResMut<Said>>,
) {
    if click.entity == click.original_event_target()
        && panels.contains(click.entity)
        && let Some(mut said) = said
    {
        *said = nothing_there();
    }
}

/// Whoever goes on with the keys looks elsewhere.
fn on_key(_press: On<KeyPress>, mut here: ResMut<SaidHere>) {
    here.set_if_neq(SaidHere(None));
}

fn show(
    (here, said): (Res<SaidHere>, Res<Said>),
    mut words: Query<&mut Node, With<Word>>,
    mut texts: Query<&mut Text, With<WordText>>,
) {
    if !here.is_changed() && !said.is_changed() {
        return;
    }
    let (Ok(mut node), Ok(mut text)) = (words.single_mut(), texts.single_mut()) else { return };
    let why = match &*said {
        Said::Refused(_) => Some(said.words()),
        said if *said == nothing_there() => Some(NOTHING_THERE.to_owned()),
        _ => None,
    };
    let mut wanted = node.clone();
    match here.0.zip(why) {
        Some((at, why)) => {
            wanted.display = Display::Flex;
            // Away from the nearer edges, so that the whole of it has room.
            (wanted.left, wanted.right) = if at.x < 0.55 * WIDTH {
                (percent(at.x / WIDTH * 100.0 + 1.5), Val::Auto)
            } else {
                (Val::Auto, percent((1.0 - at.x / WIDTH) * 100.0 + 1.5))
            };
            (wanted.top, wanted.bottom) = if at.y < 0.8 * HEIGHT {
                (percent(at.y / HEIGHT * 100.0 + 2.0), Val::Auto)
            } else {
                (Val::Auto, percent((1.0 - at.y / HEIGHT) * 100.0 + 2.0))
            };
            if text.0 != why {
                text.0 = why;
            }
        }
        None => wanted.display = Display::None,
    }
    node.set_if_neq(wanted);
}
