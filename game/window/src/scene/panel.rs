//! The scene's panel: it keeps the drawing's shape, and shows the drawing at the screen's own scale.

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabGroup;
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;

use crate::scene::places::{HEIGHT, WIDTH};
use crate::ui::access::spoken;
use crate::ui::order::Frame;
use crate::ui::room::{ByRoom, Columns};
use crate::ui::screen::Screen;
use crate::ui::tone::{Surface, Tone};

/// The space in which the panel is fitted.
#[derive(Component)]
struct Space;

/// The panel that holds the drawing and the controls over it.
#[derive(Component)]
pub struct ScenePanel;

pub struct ScenePlugin;

impl Plugin for ScenePlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, fit.in_set(Frame::Lay).run_if(in_state(Screen::Bench)));
    }
}

/// Puts the scene into a column; what lies on it is the caller's.
pub fn spawn(column: &mut ChildSpawnerCommands, fill: impl FnOnce(&mut ChildSpawnerCommands)) {
    column
        .spawn((
            Space,
            Node {
                flex_grow: 1.0,
                flex_basis: px(0),
                min_height: px(0),
                align_items: AlignItems::Center,
                justify_content: JustifyContent::Center,
                overflow: Overflow::clip(),
                ..default()
            },
            // In one column the scene is as wide as the window, and as high as its shape asks for.
            ByRoom::new(|node, room| {
                let one = room.columns() == Columns::One;
                node.flex_basis = if one { Val::Auto } else { px(0) };
                let height = px(room.one_column_px() * HEIGHT / WIDTH);
                node.height = if one { height } else { Val::Auto };
                node.flex_shrink = if one { 0.0 } else { 1.0 };
            }),
        ))
        .with_children(|space| {
            space
                .spawn((
                    ScenePanel,
                    TabGroup::new(0),
                    spoken(Role::Group, "the station", ""),
                    Node { flex_shrink: 0.0, overflow: Overflow::clip(), ..default() },
                    Surface(Tone::Sky),
                ))
                .with_children(fill);
        });
}

/// The largest panel of the drawing's shape that fits.
fn fit(spaces: Query<&ComputedNode, With<Space>>, mut panels: Query<&mut Node, With<ScenePanel>>) {
    let (Ok(space), Ok(mut panel)) = (spaces.single(), panels.single_mut()) else { return };
    let size = space.size() * space.inverse_scale_factor();
    let scale = (size.x / WIDTH).min(size.y / HEIGHT);
    if scale <= 0.0 {
        return;
    }
    let (width, height) = (px((WIDTH * scale).floor()), px((HEIGHT * scale).floor()));
    if panel.width != width || panel.height != height {
        panel.width = width;
        panel.height = height;
    }
}

/// Where a point of the window lies in the scene, while the scene is laid out.
pub fn in_scene(
    position: Vec2,
    panels: &Query<(&ComputedNode, &UiGlobalTransform), With<ScenePanel>>,
) -> Option<Vec2> {
    let (panel, transform) = panels.single().ok()?;
    let scale = panel.inverse_scale_factor();
    let size = panel.size() * scale;
    let corner = transform.transform_point2(Vec2::ZERO) * scale - size / 2.0;
    (size.x > 0.0).then(|| (position - corner) * WIDTH / size.x)
}
