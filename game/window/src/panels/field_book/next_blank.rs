//! F8 goes to the next blank of the field book, in the order of the work and on whatever page it is.

use bevy::input::keyboard::Key;
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use sim_core::field_book::Field;

use super::entry::EntryField;
use super::overview;
use super::page::Page;
use super::points::ReadOn;
use crate::desk::{Book, Desk, GoTo, Seen};
use crate::ui::keys::KeyPress;
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;

pub struct NextBlankPlugin;

impl Plugin for NextBlankPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = in_state(Screen::Bench).and_then(resource_exists::<Desk>);
        app.add_observer(on_key.run_if(on_bench.and_then(resource_exists::<Seen>)));
    }
}

fn on_key(
    press: On<KeyPress>,
    (desk, book, seen, overlay): (Res<Desk>, Res<Book>, Res<Seen>, Res<Overlay>),
    (focus, fields): (Res<InputFocus>, Query<&EntryField>),
    mut go: ResMut<GoTo>,
) {
    if press.key != Key::F8 || overlay.0.is_some() {
        return;
    }
    let order = &desk.papers.work_order;
    let pages = Page::ALL.into_iter().filter(|page| page.is_there(order));
    let asked: Vec<Field> =
        pages.flat_map(|page| overview::asked(page, &desk.papers, ReadOn::of(&seen.0))).collect();
    let at = focus.get().and_then(|entity| fields.get(entity).ok()).map(|entry| entry.0);
    let is_blank = |field: &Field| book.0.text(*field).is_none();
    if let Some(field) = next(&asked, at, is_blank) {
        *go = GoTo::Field(field);
    }
}

/// The first blank after a field, round and round; from elsewhere the first of all.
fn next(asked: &[Field], at: Option<Field>, is_blank: impl Fn(&Field) -> bool) -> Option<Field> {
    let start = asked.iter().position(|field| Some(*field) == at).map_or(0, |at| at + 1);
    let round = asked.iter().cycle().skip(start).take(asked.len());
    round.copied().find(is_blank)
}

#[cfg(test)]
mod tests {
    use sim_core::field_book::Field;

    use super::next;

    #[test]
    fn the_next_blank_comes_after_where_one_is_and_round_to_the_first() {
        let asked = [Field::Temperature, Field::Pressure, Field::Slope];
        let blank = |field: &Field| *field != Field::Pressure;
        assert_eq!(next(&asked, None, blank), Some(Field::Temperature));
        assert_eq!(next(&asked, Some(Field::Temperature), blank), Some(Field::Slope));
        assert_eq!(next(&asked, Some(Field::Slope), blank), Some(Field::Temperature));
        assert_eq!(next(&asked, None, |_| false), None);
    }
}
