//! A sheet that lies over the window until it is closed. Which sheets there are, their own features
//! know.

use accesskit::Role;
use bevy::ecs::entity::Entities;
use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::{NavAction, TabGroup, TabNavigation};
use bevy::input_focus::{FocusCause, FocusGained, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::ui::UiSystems;
use bevy::ui_widgets::{ScrollArea, ScrollIntoView};
use bevy::window::RequestRedraw;

use crate::ui::access::{heading, spoken};
use crate::ui::controls::{AddRequest as _, Caption};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::room::{ByRoom, Columns};
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Surface, Tone};

/// The name of a sheet, given by the feature that fills it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sheet(pub &'static str);

/// The sheet that lies over the window.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Overlay(pub Option<Sheet>);

impl Overlay {
    /// Whether this sheet lies over the window.
    pub fn is(&self, sheet: Sheet) -> bool {
        self.0 == Some(sheet)
    }
}

/// Asks for a sheet to be opened, or closed where it is open.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetRequest(pub Sheet);

/// What had the focus before the sheet came.
#[derive(Resource, Default)]
pub struct Before(pub Option<Entity>);

/// The veil under the sheet; removing it removes the sheet.
#[derive(Component)]
pub struct Veil;

/// Asks for the focus to go to the first control of a sheet.
#[derive(Component)]
pub struct FocusFirst;

pub struct OverlayPlugin;

impl Plugin for OverlayPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Overlay>()
            .init_resource::<Before>()
            .add_request::<SheetRequest>()
            .add_systems(
                Update,
                (toggle, close.run_if(state_changed::<Screen>)).chain().in_set(Frame::Obey),
            )
            .add_systems(
                Update,
                remove.run_if(resource_changed::<Overlay>).after(Frame::Obey).before(Frame::Lay),
            )
            .add_observer(on_escape)
            .add_observer(come_into_view)
            .add_systems(PostUpdate, (focus_first, stay_in_view.after(UiSystems::Layout)));
    }
}

/// Opens or closes a sheet.
fn toggle(mut requests: MessageReader<SheetRequest>, mut overlay: ResMut<Overlay>) {
    for SheetRequest(sheet) in requests.read() {
        let next = if overlay.is(*sheet) { None } else { Some(*sheet) };
        overlay.set_if_neq(Overlay(next));
    }
}

/// Another screen has no sheet over it yet.
fn close(mut overlay: ResMut<Overlay>) {
    overlay.set_if_neq(Overlay(None));
}

fn on_escape(press: On<KeyPress>, mut overlay: ResMut<Overlay>) {
    if press.key == Key::Escape {
        overlay.set_if_neq(Overlay(None));
    }
}

/// Takes the old sheet away and remembers, or gives back, the focus.
fn remove(
    overlay: Res<Overlay>,
    veils: Query<Entity, With<Veil>>,
    entities: &Entities,
    mut before: ResMut<Before>,
    mut focus: ResMut<InputFocus>,
    mut commands: Commands,
) {
    let had = !veils.is_empty();
    for veil in &veils {
        commands.entity(veil).despawn();
    }
    if overlay.0.is_none() {
        if had && let Some(entity) = before.0.take().filter(|entity| entities.contains(*entity)) {
            focus.set(entity, FocusCause::Navigated);
        }
    } else if !had {
        before.0 = focus.get();
    }
}

/// Lays a sheet over the window; what is in it is the caller's.
pub fn lay(commands: &mut Commands, title: &str, fill: impl FnOnce(&mut ChildSpawnerCommands)) {
    let sheet = Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(10),
        padding: UiRect::all(px(20)),
        max_height: percent(92),
        overflow: Overflow::scroll_y(),
        ..default()
    };
    commands
        .spawn((
            Veil,
            GlobalZIndex(10),
            Node {
                position_type: PositionType::Absolute,
                width: percent(100),
                height: percent(100),
                align_items: AlignItems::Center,
                justify_content: JustifyContent::Center,
                ..default()
            },
            Surface(Tone::Veil),
        ))
        .with_children(|veil| {
            veil.spawn((
                theme::sheet(sheet),
                ByRoom::new(|node, room| {
                    let one = room.columns() == Columns::One;
                    node.width = percent(if one { 97 } else { 70 });
                    node.max_width = px(860.0 * room.scale);
                }),
                ScrollArea,
                TabGroup::modal(),
                FocusFirst,
                spoken(Role::Dialog, title, ""),
            ))
            .with_children(|sheet| {
                let role = heading(title, 1);
                sheet.spawn((theme::bold(title, theme::LARGE, Tone::Ink), role));
                fill(sheet);
            });
        });
}

/// A sheet that fills the window by itself and is scrolled; `row_gap` parts what stands on it.
pub fn page(row_gap: Val) -> impl Bundle {
    (
        TabGroup::new(0),
        ScrollArea,
        FocusFirst,
        Node {
            width: percent(100),
            height: percent(100),
            flex_direction: FlexDirection::Column,
            padding: UiRect::axes(percent(6), px(24)),
            row_gap,
            overflow: Overflow::scroll_y(),
            ..default()
        },
        Surface(Tone::Paper),
    )
}

/// A column of a page, as wide as the page.
pub fn column(row_gap: Val) -> Node {
    Node {
        width: percent(100),
        flex_direction: FlexDirection::Column,
        flex_shrink: 0.0,
        row_gap,
        ..default()
    }
}

/// A row of buttons that goes on in the next line where it is too long.
pub fn choices() -> Node {
    Node {
        column_gap: px(8),
        row_gap: px(6),
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    }
}

/// The title of a page and, at the other end of the row, what is asked for from it.
pub fn title_row() -> Node {
    Node {
        width: percent(100),
        justify_content: JustifyContent::SpaceBetween,
        align_items: AlignItems::Center,
        flex_wrap: FlexWrap::Wrap,
        row_gap: px(6),
        flex_shrink: 0.0,
        ..default()
    }
}

/// What gets the focus is scrolled to where it can be seen.
fn come_into_view(gained: On<FocusGained>, mut commands: Commands) {
    if gained.entity == gained.original_event_target() {
        commands.trigger(ScrollIntoView { entity: gained.entity });
    }
}

/// What has the focus and says something else than before, which may take more room, is seen whole.
fn stay_in_view(
    focus: Res<InputFocus>,
    changed: Query<(), Changed<Caption>>,
    mut redraw: MessageWriter<RequestRedraw>,
    mut commands: Commands,
) {
    if let Some(entity) = focus.get().filter(|entity| changed.contains(*entity)) {
        commands.trigger(ScrollIntoView { entity });
        redraw.write(RequestRedraw);
    }
}

fn focus_first(
    added: Query<Entity, Added<FocusFirst>>,
    navigation: TabNavigation,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
) {
    for sheet in &added {
        if let Ok(target) = navigation.initialize(sheet, NavAction::First) {
            focus.set(target, FocusCause::Navigated);
            visible.0 = true;
        }
    }
}
