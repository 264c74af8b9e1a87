//! A sheet that lies over the window until it is closed: help and settings.

use accesskit::Role;
use bevy::ecs::entity::Entities;
use bevy::input_focus::tab_navigation::{NavAction, TabGroup, TabNavigation};
use bevy::input_focus::{FocusCause, FocusGained, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::ui_widgets::{ScrollArea, ScrollIntoView};

use super::access::spoken;
use super::controls::Ask;
use super::theme::{self, Theme};

/// Which sheet lies over the window.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Overlay {
    /// None.
    #[default]
    None,
    /// The help.
    Help,
    /// The settings.
    Settings,
}

/// What had the focus before the sheet came.
#[derive(Resource, Default)]
pub struct Before(pub Option<Entity>);

/// The control that is to have the focus when a sheet is laid anew.
#[derive(Resource, Default)]
pub struct Again(pub Option<Ask>);

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
            .init_resource::<Again>()
            .add_systems(Update, (toggle, remove.run_if(resource_changed::<Overlay>)).chain())
            .add_observer(come_into_view)
            .add_systems(PostUpdate, focus_first);
    }
}

/// Opens or closes a sheet.
fn toggle(mut asks: MessageReader<Ask>, mut overlay: ResMut<Overlay>) {
    for ask in asks.read() {
        let wanted = match ask {
            Ask::Help => Overlay::Help,
            Ask::Settings => Overlay::Settings,
            Ask::Stop | Ask::Begin(_) | Ask::Resume(_) | Ask::Debrief(_) | Ask::Leave => {
                Overlay::None
            }
            _ => continue,
        };
        let next = if *overlay == wanted { Overlay::None } else { wanted };
        overlay.set_if_neq(next);
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
    if *overlay == Overlay::None {
        if had && let Some(entity) = before.0.take().filter(|entity| entities.contains(*entity)) {
            focus.set(entity, FocusCause::Navigated);
        }
    } else if !had {
        before.0 = focus.get();
    }
}

/// Lays a sheet over the window; what is in it is the caller's.
pub fn lay(
    commands: &mut Commands,
    theme: &Theme,
    title: &str,
    fill: impl FnOnce(&mut ChildSpawnerCommands),
) {
    let sheet = Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(10),
        padding: UiRect::all(px(20)),
        width: percent(70),
        max_width: px(860),
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
            BackgroundColor(theme.ink.with_alpha(0.35)),
        ))
        .with_children(|veil| {
            veil.spawn((
                theme::sheet(theme, sheet),
                ScrollArea,
                TabGroup::modal(),
                FocusFirst,
                spoken(Role::Dialog, title, ""),
            ))
            .with_children(|sheet| {
                sheet.spawn(theme::bold(title, theme::LARGE, theme.ink));
                fill(sheet);
            });
        });
}

/// A sheet that fills the window by itself and is scrolled; `row_gap` parts what stands on it.
pub fn page(theme: &Theme, row_gap: Val) -> impl Bundle {
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
        BackgroundColor(theme.paper),
    )
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

/// Takes away what fills the window, by what marks it.
pub fn clear<Root: Component>(roots: Query<Entity, With<Root>>, mut commands: Commands) {
    for root in &roots {
        commands.entity(root).despawn();
    }
}

/// What gets the focus is scrolled to where it can be seen.
fn come_into_view(gained: On<FocusGained>, mut commands: Commands) {
    if gained.entity == gained.original_event_target() {
        commands.trigger(ScrollIntoView { entity: gained.entity });
    }
}

fn focus_first(
    added: Query<Entity, Added<FocusFirst>>,
    navigation: TabNavigation,
    controls: Query<(Entity, &Ask)>,
    parents: Query<&ChildOf>,
    mut again: ResMut<Again>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
) {
    for sheet in &added {
        let same = again.0.take().and_then(|wanted| {
            controls
                .iter()
                .filter(|(_, ask)| **ask == wanted)
                .map(|(entity, _)| entity)
                .find(|&entity| parents.iter_ancestors(entity).any(|above| above == sheet))
        });
        if let Some(target) = same.or_else(|| navigation.initialize(sheet, NavAction::First).ok()) {
            focus.set(target, FocusCause::Navigated);
            visible.0 = true;
        }
    }
}
