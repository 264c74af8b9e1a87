//! Keys that go straight to the decision, and into the open page.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use sim_core::field_book::Field;

use crate::desk::{Book, Desk, GoTo};
use crate::ui::keys::KeyPress;
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;

pub struct JumpKeysPlugin;

impl Plugin for JumpKeysPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Desk>);
        app.add_observer(to_decision.run_if(on_bench())).add_observer(into_page.run_if(on_bench()));
    }
}

/// F7 opens the page of the next decision and goes to its first answer.
fn to_decision(
    press: On<KeyPress>,
    (desk, book, overlay): (Res<Desk>, Res<Book>, Res<Overlay>),
    mut go: ResMut<GoTo>,
) {
    if press.key != Key::F7 || overlay.0.is_some() {
        return;
    }
    let order = &desk.papers.work_order;
    let asked: Vec<Field> = [
        (!order.is_check_alone(), Field::Decision),
        (order.flow_check.is_some(), Field::CheckOutcome),
        (order.history.is_some(), Field::HistoryReading),
        (order.run.is_some(), Field::Validity),
    ]
    .into_iter()
    .filter_map(|(asked, field)| asked.then_some(field))
    .collect();
    let open = asked.iter().find(|field| book.0.text(**field).is_none());
    if let Some(field) = open.or(asked.first()) {
        *go = GoTo::Field(*field);
    }
}

/// Enter on the tab of the page that is open goes to what can first be worked on it.
fn into_page(
    press: On<KeyPress>,
    told: Query<(Entity, &AccessibilityNode)>,
    (children, tabs): (Query<&Children>, Query<&TabIndex>),
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let is_open = told
        .get(press.on)
        .is_ok_and(|(_, node)| node.role() == Role::Tab && node.is_selected() == Some(true));
    if press.key != Key::Enter || press.repeat || !is_open {
        return;
    }
    let page = told.iter().find(|(_, node)| node.role() == Role::TabPanel).map(|(page, _)| page);
    let reachable = |entity: &Entity| tabs.get(*entity).is_ok_and(|tab| tab.0 >= 0);
    let first = page.and_then(|page| children.iter_descendants_depth_first(page).find(reachable));
    if let Some(first) = first {
        focus.set(first, FocusCause::Navigated);
        visible.0 = true;
    }
}
