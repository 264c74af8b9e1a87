//! Page Up and Page Down: they turn over the page or the sheet that has the focus, and what it lies on
//! once the page is at its end.

use bevy::input::keyboard::Key;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;

use crate::ui::bars::excess;
use crate::ui::keys::KeyPress;
use crate::ui::overlay::Overlay;
use crate::ui::pan::Pan;
use crate::ui::screen::Screen;

/// The share of a page by which a key turns it over: the last lines stay in sight.
const TURNED: f32 = 0.9;

/// A part of the window whose pages are turned over by keys that are pressed anywhere in it, on a page
/// or beside it.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
pub struct Turns;

pub struct PageKeysPlugin;

impl Plugin for PageKeysPlugin {
    fn build(&self, app: &mut App) {
        app.add_observer(turn_over);
    }
}

/// Scrolls the innermost page about what has the focus that can still be turned over that way.
fn turn_over(
    press: On<KeyPress>,
    (screen, overlay): (Res<State<Screen>>, Res<Overlay>),
    (parents, children): (Query<&ChildOf>, Query<&Children>),
    turns: Query<(), With<Turns>>,
    pans: Query<(), With<Pan>>,
    mut pages: Query<(&mut ScrollPosition, &ComputedNode), With<ScrollArea>>,
) {
    let direction = match press.key {
        Key::PageDown => 1.0,
        Key::PageUp => -1.0,
        _ => return,
    };
    // The debrief has keys of its own.
    if *screen.get() == Screen::Debrief && overlay.0.is_none() {
        return;
    }
    let about = std::iter::once(press.on).chain(parents.iter_ancestors(press.on));
    let mut on_page = false;
    for above in about {
        let part = turns.get(above).ok().map(|()| children.iter_descendants(above));
        for page in std::iter::once(above).chain(part.into_iter().flatten()) {
            // In the scene the same keys move the eye: only what lies about a page moves with it.
            if pans.contains(page) && !on_page {
                continue;
            }
            let Ok((mut scroll, node)) = pages.get_mut(page) else { continue };
            on_page = true;
            let turned = TURNED * node.size().y * node.inverse_scale_factor();
            let to = (scroll.y + direction * turned).clamp(0.0, excess(node).y);
            if (to - scroll.y).abs() > 0.5 {
                scroll.y = to;
                return;
            }
        }
    }
}
