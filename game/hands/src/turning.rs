//! What turns or slides: the wheel, a drag and the arrow keys.

use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::away::is_away;
use super::grain::Grain;
use super::run;
use super::spot::Spot;

/// Turning or sliding a thing by steps: up, right and clockwise are positive. `None` when the thing
/// does not turn.
pub fn turn(view: &View, spot: Spot, steps: i32, grain: Grain) -> Option<Action> {
    let by = |coarse: f64, fine: f64| match grain {
        Grain::Coarse => coarse * f64::from(steps),
        Grain::Fine => fine * f64::from(steps),
    };
    let quarters = |coarse: f64, most: f64| by(coarse, 1.0).clamp(-most, most) as i8;
    if is_away(view) {
        return None;
    }
    let of_water = matches!(spot, Spot::Valve(_) | Spot::Scale | Spot::Manometer);
    if of_water && view.manometer.display.is_some() {
        return None;
    }
    match spot {
        Spot::Nut(nut) => Some(Action::TurnNut { nut, quarter_turns: quarters(4.0, 12.0) }),
        Spot::Valve(leg) => Some(Action::TurnValve { leg, quarter_turns: quarters(2.0, 4.0) }),
        Spot::Scale => Some(Action::SlideScale { by_in: by(0.1, 0.01).clamp(-2.0, 2.0) }),
        Spot::Manometer => Some(Action::SwingManometer { by_deg: by(1.0, 0.1).clamp(-20.0, 20.0) }),
        Spot::Controller => Some(Action::TurnTrim { turns: by(0.25, 0.05).clamp(-5.0, 5.0) }),
        Spot::Knob if view.calibrator.plates.is_some() => None,
        Spot::Knob => {
            // Whole hundredths, so that a knob turned to and fro comes back to where it was.
            let opening = ((view.calibrator.knob + by(0.05, 0.01)) * 100.0).round() / 100.0;
            Some(Action::TurnKnob { opening: opening.clamp(0.0, 1.0) })
        }
        Spot::Chart => Some(Action::TurnChart { minutes: by(30.0, 1.0).clamp(-720.0, 720.0) }),
        Spot::Dial | Spot::Tripper(_) => run::turn(view, spot, by(1.0, 1.0), grain),
        Spot::ZeroScrew => Some(Action::SetPenZero { by: by(0.5, 0.1).clamp(-5.0, 5.0) }),
        _ => None,
    }
}
