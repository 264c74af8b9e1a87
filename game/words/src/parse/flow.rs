//! The calibrator's knob and openings.

use sim_core::session::action::Action;

use super::form::{Built, Form, Known, form, one};
use super::trouble::but;

/// What `a little` is, of the whole opening.
const A_LITTLE: f64 = 0.05;

pub(super) const FORMS: &[Form] = &[
    form(
        &["turn|set|open|close knob to <opening> open?"],
        &["turn knob to 40 %", "turn knob to 0.4"],
        "1 or 100 % is fully open",
        |caught, _| {
            let opening = caught.number()?;
            if (0.0..=1.0).contains(&opening) {
                one(Action::TurnKnob { opening })
            } else {
                but("the knob goes from 0 to 1, or from 0 % to 100 %: say `turn knob to 40 %`")
            }
        },
    ),
    form(
        &["open knob fully|wide|right? open?", "turn knob fully|wide open"],
        &["open knob fully"],
        "all the way",
        |_, _| one(Action::TurnKnob { opening: 1.0 }),
    ),
    form(
        &["close|shut knob fully|right?", "turn knob fully? shut|closed"],
        &["close knob fully"],
        "all the way",
        |_, _| one(Action::TurnKnob { opening: 0.0 }),
    ),
    form(
        &["close|shut knob little|bit|touch", "close|shut knob little bit"],
        &["close knob a little"],
        "by a twentieth of its travel",
        |_, known| by(known, -A_LITTLE),
    ),
    form(
        &["open knob little|bit|touch", "open knob little bit"],
        &["open knob a little"],
        "by a twentieth of its travel",
        |_, known| by(known, A_LITTLE),
    ),
    form(
        &["close|shut knob by <opening>"],
        &["close knob by 10 %"],
        "from where it stands",
        |caught, known| by(known, -caught.number()?),
    ),
    form(
        &["open knob by <opening>"],
        &["open knob by 10 %"],
        "from where it stands",
        |caught, known| by(known, caught.number()?),
    ),
    form(
        &["cover|block up? openings|holes|calibrator"],
        &["cover openings"],
        "for the leak check, 30 s at most",
        |_, _| one(Action::BlockOpenings),
    ),
    form(
        &["uncover|unblock|free|clear openings|holes|calibrator"],
        &["uncover openings"],
        "after the leak check",
        |_, _| one(Action::FreeOpenings),
    ),
];

/// Turns the knob from where it is seen to stand, to a thousandth, not past its stops.
fn by(known: &Known, change: f64) -> Built {
    let opening = ((known.view.calibrator.knob + change) * 1000.0).round() / 1000.0;
    if opening.is_finite() {
        one(Action::TurnKnob { opening: opening.clamp(0.0, 1.0) })
    } else {
        but("say how far: `turn knob to 40 %`")
    }
}
