//! How much room the window has. Where it is wide enough, the bench's parts lie side by side; where it
//! is not, they lie in one column, one below another. Larger text needs a wider window for two columns.

use bevy::prelude::*;
use bevy::window::PrimaryWindow;

use crate::ui::settings::Settings;

/// Least width of two columns at text of 100 %, logical pixels.
const TWO_COLUMNS_PX: f32 = 900.0;
/// What text of 200 % adds to it.
const LARGER_PX: f32 = 380.0;

/// Room about the bench on each side, logical pixels.
const EDGE_PX: f32 = 8.0;

/// How the parts of the bench lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Columns {
    /// The scene on the left, the field book on the right.
    Two,
    /// One below another.
    One,
}

/// The room in the window.
#[derive(Resource, Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Size of the window, logical pixels.
    pub window: Vec2,
    /// Size of text as a factor of the usual one.
    pub scale: f32,
}

impl Room {
    /// How the parts of the bench lie.
    pub fn columns(self) -> Columns {
        if self.window.x < self.two_columns_px() { Columns::One } else { Columns::Two }
    }

    /// Width of one column, logical pixels: what is left of the window beside its edges.
    pub fn one_column_px(self) -> f32 {
        (self.window.x - 2.0 * EDGE_PX).max(0.0)
    }

    /// Least width of two columns, logical pixels.
    pub fn two_columns_px(self) -> f32 {
        TWO_COLUMNS_PX + LARGER_PX * (self.scale - 1.0)
    }
}

impl Default for Room {
    fn default() -> Self {
        Self { window: Vec2::new(1280.0, 800.0), scale: 1.0 }
    }
}

/// How a node is laid out in the room that there is.
#[derive(Component)]
pub struct ByRoom(Box<dyn Fn(&mut Node, Room) + Send + Sync>);

impl ByRoom {
    /// Lays a node out by the room, now and whenever there is more or less of it.
    pub fn new(lay: impl Fn(&mut Node, Room) + Send + Sync + 'static) -> Self {
        Self(Box::new(lay))
    }
}

pub struct RoomPlugin;

impl Plugin for RoomPlugin {
    fn build(&self, app: &mut App) {
        // Before the engine lays nodes out.
        app.init_resource::<Room>()
            .add_systems(PostUpdate, (measure, lay).chain().before(bevy::ui::UiSystems::Prepare));
    }
}

fn measure(
    settings: Res<Settings>,
    windows: Query<&Window, With<PrimaryWindow>>,
    mut room: ResMut<Room>,
) {
    if let Ok(window) = windows.single() {
        room.set_if_neq(Room { window: window.size(), scale: settings.text_scale() });
    }
}

fn lay(room: Res<Room>, mut nodes: Query<(Ref<ByRoom>, &mut Node)>) {
    for (by, mut node) in &mut nodes {
        if room.is_changed() || by.is_added() {
            let mut wanted = node.clone();
            (by.0)(&mut wanted, *room);
            node.set_if_neq(wanted);
        }
    }
}

#[cfg(test)]
mod tests {
    use bevy::math::Vec2;

    use super::{Columns, Room};

    #[test]
    fn a_narrow_window_has_one_column_and_larger_text_needs_more_room_for_two() {
        let columns = |width, scale| Room { window: Vec2::new(width, 800.0), scale }.columns();
        assert_eq!(columns(640.0, 1.0), Columns::One);
        assert_eq!(columns(899.0, 1.0), Columns::One);
        assert_eq!(columns(900.0, 1.0), Columns::Two);
        assert_eq!(columns(1024.0, 2.0), Columns::One);
        assert_eq!(columns(1280.0, 2.0), Columns::Two);
    }
}
