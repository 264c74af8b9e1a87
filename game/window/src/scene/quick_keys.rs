//! Keys that save a way: a letter goes to the next thing with that initial, and `.`, `,` and `*` let time
//! pass. None of them acts on a thing. A letter also goes to a thing from the field book and from
//! elsewhere, wherever nothing is typed.

use bevy::input::keyboard::Key;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use hands::{Spot, is_away};

use crate::desk::{Desk, Seen};
use crate::scene::owners::is_there;
use crate::scene::spot_reader::SpotControl;
use crate::ui::keys::KeyPress;
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;

pub struct QuickKeysPlugin;

impl Plugin for QuickKeysPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.add_observer(on_key.run_if(on_bench));
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
    seen: Res<Seen>,
    mut desk: ResMut<Desk>,
    overlay: Res<Overlay>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let from = controls.get(press.on).ok().map(|(_, control)| control.0);
    let (Key::Character(typed), None, false) = (&press.key, overlay.0, press.typing) else {
        return;
    };
    let Some(letter) = typed.chars().next().map(|letter| letter.to_ascii_lowercase()) else {
        return;
    };
    match letter {
        '.' | ',' | '*' if from.is_some() && !is_away(&seen.0) => desk.pass(match letter {
            '.' => 10.0,
            ',' => 60.0,
            _ => 300.0,
        }),
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
