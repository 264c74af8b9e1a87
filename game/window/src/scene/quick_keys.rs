//! Keys that save a way: a letter goes to the next thing with that initial, `=` goes to the next blank
//! value of what is being looked at, and `.`, `,` and `*` let time pass. None of them acts on a thing. A
//! letter also goes to a thing from the field book and from elsewhere, wherever nothing is typed.

use bevy::input::keyboard::Key;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use hands::{Spot, is_away};
use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::session::action::Sight;

use crate::desk::{Book, Desk, GoTo, Seen};
use crate::scene::owners::is_there;
use crate::scene::spot_reader::SpotControl;
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;

/// Frames after which the hand goes back to the thing, whether anything was written or not.
const PATIENCE: u8 = 20;

/// Where the hand came from when it went to a field of the book, and what stood in the book.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Writing {
    from: Option<Entity>,
    /// Frames since Enter, and how many entries there were.
    entered: Option<(u8, usize)>,
}

pub struct QuickKeysPlugin;

impl Plugin for QuickKeysPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.init_resource::<Writing>().add_observer(on_key.run_if(on_bench())).add_systems(
            Update,
            go_back.in_set(Frame::Show).run_if(on_bench().and_then(resource_exists::<Book>)),
        );
    }
}

/// The letter by which a thing is gone to: the initial of what it is called for short.
pub const fn initial(spot: Spot) -> char {
    match spot {
        Spot::Sky | Spot::Scale | Spot::LineOutlet | Spot::Cord => 's',
        Spot::RoofEdge => 'e',
        Spot::WorkOrder | Spot::WeatherSheet => 'w',
        Spot::Thermometer | Spot::Timer | Spot::Tube => 't',
        Spot::Barometer | Spot::BlowerPlug | Spot::Blower => 'b',
        Spot::Nut(_) => 'n',
        Spot::Frame | Spot::Filter | Spot::Controller => 'f',
        Spot::Holder => 'h',
        Spot::Ground => 'u',
        Spot::Adapter => 'a',
        Spot::Calibrator | Spot::Case | Spot::Certificates | Spot::Chart | Spot::KeptChart => 'c',
        Spot::Cap => 'q',
        Spot::Knob => 'k',
        Spot::Openings => 'o',
        Spot::Manometer => 'm',
        Spot::Valve(_) => 'v',
        Spot::Leg(_) => 'g',
        Spot::Door | Spot::Dial | Spot::Display => 'd',
        Spot::Recorder => 'r',
        Spot::Pen => 'p',
        Spot::ZeroScrew => 'x',
        Spot::Tripper(_) => 'i',
        Spot::Plates => 'j',
        Spot::Lid => 'y',
    }
}

/// The thing that a letter goes to from another one: the next with that initial, round and round.
pub fn next_of(there: &[Spot], from: Option<Spot>, letter: char) -> Option<Spot> {
    let at = from.and_then(|from| there.iter().position(|&spot| spot == from));
    let start = at.map_or(0, |at| at + 1);
    let round = there.iter().cycle().skip(start).take(there.len());
    round.copied().find(|&spot| initial(spot) == letter)
}

fn on_key(
    press: On<KeyPress>,
    controls: Query<(Entity, &SpotControl)>,
    (seen, book): (Res<Seen>, Res<Book>),
    mut desk: ResMut<Desk>,
    (mut go, mut writing): (ResMut<GoTo>, ResMut<Writing>),
    overlay: Res<Overlay>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    if press.typing {
        match press.key {
            Key::Enter if writing.from.is_some() => {
                writing.entered = Some((0, book.0.entries().len()));
            }
            _ => {}
        }
        return;
    }
    let from = controls.get(press.on).ok().map(|(_, control)| control.0);
    let (Key::Character(typed), None) = (&press.key, overlay.0) else { return };
    let Some(letter) = typed.chars().next().map(|letter| letter.to_ascii_lowercase()) else {
        return;
    };
    match letter {
        '.' | ',' | '*' if from.is_some() && !is_away(&seen.0) => desk.pass(match letter {
            '.' => 10.0,
            ',' => 60.0,
            _ => 300.0,
        }),
        '=' if from.is_some() => {
            if let Some(field) = next_blank(&book.0, seen.0.focus) {
                *go = GoTo::Field(field);
                *writing = Writing { from: Some(press.on), entered: None };
            }
        }
        // L looks at what has the focus.
        'a'..='z' if letter != 'l' => {
            let there: Vec<Spot> =
                Spot::all().into_iter().filter(|&spot| is_there(&seen.0, spot)).collect();
            let next = next_of(&there, from, letter);
            let next = next.and_then(|next| controls.iter().find(|(_, spot)| spot.0 == next));
            if let Some((entity, _)) = next {
                focus.set(entity, FocusCause::Navigated);
                visible.0 = true;
            }
        }
        _ => {}
    }
}

/// The next value that is not written yet and is read from what is looked at; for what belongs to no
/// field the next blank of the row that was begun.
fn next_blank(book: &FieldBook, looked_at: Sight) -> Option<Field> {
    let of_row: fn(PointNumber) -> Field = match looked_at {
        Sight::Thermometer => return blank(book, Field::Temperature),
        Sight::Barometer => return blank(book, Field::Pressure),
        Sight::LeftLeg => Field::Up,
        Sight::RightLeg => Field::Down,
        Sight::Pen | Sight::Recorder => Field::Chart,
        _ => Field::DeltaH,
    };
    PointNumber::all().map(of_row).find_map(|field| blank(book, field))
}

fn blank(book: &FieldBook, field: Field) -> Option<Field> {
    book.text(field).is_none().then_some(field)
}

/// Back to the thing from which a value was written, once it stands in the book.
fn go_back(
    book: Res<Book>,
    mut writing: ResMut<Writing>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let Writing { from: Some(from), entered: Some((frames, entries)) } = *writing else { return };
    if book.0.entries().len() == entries && frames < PATIENCE {
        writing.entered = Some((frames + 1, entries));
        return;
    }
    *writing = Writing::default();
    focus.set(from, FocusCause::Navigated);
    visible.0 = true;
}

#[cfg(test)]
mod tests {
    use hands::Spot;
    use sim_core::rig::parts::Leg;

    use super::next_of;

    #[test]
    fn a_letter_goes_round_the_things_with_that_initial() {
        let there = Spot::all();
        let (left, right) = (Spot::Leg(Leg::Left), Spot::Leg(Leg::Right));
        assert_eq!(next_of(&there, None, 'g'), Some(left));
        assert_eq!(next_of(&there, Some(left), 'g'), Some(right));
        assert_eq!(next_of(&there, Some(right), 'g'), Some(left));
        assert_eq!(next_of(&there, Some(Spot::Pen), 'p'), Some(Spot::Pen));
        assert_eq!(next_of(&[Spot::Pen], Some(Spot::Pen), 'g'), None);
    }
}
