//! Page Up and Page Down on the bench: they turn over the page or the sheet that has the focus.

use bevy::input::keyboard::Key;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;

use crate::ui::keys::KeyPress;
use crate::ui::pan::Pan;
use crate::ui::screen::Screen;

/// The share of a page by which a key turns it over: the last lines stay in sight.
const TURNED: f32 = 0.9;

pub struct PageKeysPlugin;

impl Plugin for PageKeysPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(turn_over.run_if(in_state(Screen::Bench)));
    }
}

/// Scrolls the innermost page about what has the focus.
fn turn_over(
    press: On<KeyPress>,
    parents: Query<&ChildOf>,
    mut pages: Query<(&mut ScrollPosition, &ComputedNode), (With<ScrollArea>, Without<Pan>)>,
) {
    let direction = match press.key {
        Key::PageDown => 1.0,
        Key::PageUp => -1.0,
        _ => return,
    };
    let Some(page) = parents.iter_ancestors(press.on).find(|above| pages.contains(*above)) else {
        return;
    };
    if let Ok((mut scroll, node)) = pages.get_mut(page) {
        let scale = node.inverse_scale_factor();
        let most = ((node.content_size().y - node.size().y) * scale).max(0.0);
        scroll.y = (scroll.y + direction * TURNED * node.size().y * scale).clamp(0.0, most);
    }
}
