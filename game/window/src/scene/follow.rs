//! How far a drag turns or slides a thing: it follows the hand. No window in here.

use bevy::math::Vec2;
use hands::Spot;
use paint::scene::{anchor, number};
use sim_core::session::view::View;

/// A hand that holds Shift moves things by so much of its own way.
pub const FINE: f32 = 0.2;

/// What moves with the hand.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Way {
    /// It turns about a point: so many degrees clockwise for a fine step.
    About(Vec2, f32),
    /// It slides up: so many scene units for a fine step.
    Up(f32),
    /// It is screwed up and down, or moved along: so many scene units to the right or up for a step.
    Along(f32),
}

/// Scene units of a drag for a quarter turn of what is turned about an upright axis.
const QUARTER: f32 = 14.0;
/// Nearer to the axis than this, a hand turns as if it had hold of the top of the thing.
const MIDDLE: f32 = 9.0;
/// Where it then has hold, scene units above the axis.
const GRIP: f32 = 24.0;

fn point((x, y): (f32, f32)) -> Vec2 {
    Vec2::new(x, y)
}

/// How a thing moves with the hand, and by which fine step.
fn way(view: &View, spot: Spot) -> Option<Way> {
    Some(match spot {
        Spot::Scale => Way::Up(number("manometer_scale", "units_per_in") * 0.01),
        // Its foot goes where the hand goes: to the right is against the clock.
        Spot::Manometer => Way::About(point(anchor("hook", "hook")), -0.1),
        // Open is against the clock.
        Spot::Knob => {
            let (open, shut) =
                (number("calibrator", "knob_open_deg"), number("calibrator", "knob_closed_deg"));
            Way::About(point(anchor("calibrator_knob", "axis")), (open - shut) * 0.01)
        }
        Spot::Controller => Way::About(point(anchor("trim_screw", "axis")), 360.0 * 0.05),
        Spot::ZeroScrew => Way::About(point(anchor("recorder", "zero_screw")), 20.0),
        Spot::Chart => Way::About(point(anchor("chart", "hub")), 15.0 / 60.0),
        Spot::Dial => Way::About(point(anchor("timer_dial", "centre")), 15.0 / 60.0),
        // A later hour stands farther back on the dial.
        Spot::Tripper(_) => Way::About(point(anchor("timer_dial", "centre")), -15.0 / 12.0),
        // Unscrewed it rises, screwed down it sinks.
        Spot::Nut(_) => Way::Up(-QUARTER),
        Spot::Valve(_) => Way::Up(QUARTER),
        Spot::KeptChart => Way::Along(QUARTER),
        _ => return None,
    })
    .filter(|_| hands::turn(view, spot, 1, hands::Grain::Fine).is_some() || spot == Spot::KeptChart)
}

/// The fine steps, and parts of one, that a hand makes which moves from one point of the scene to another.
/// `held` is where it took hold: at the middle of what turns it goes on turning by its way to the side.
pub fn steps(view: &View, spot: Spot, held: Vec2, (from, to): (Vec2, Vec2)) -> f32 {
    match way(view, spot) {
        None => 0.0,
        Some(Way::Up(unit)) => (from.y - to.y) / unit,
        Some(Way::Along(unit)) => (to.x - from.x + from.y - to.y) / unit,
        Some(Way::About(axis, deg)) => {
            let in_the_middle = |at: Vec2| (at - axis).length() < MIDDLE;
            if in_the_middle(held) || in_the_middle(from) || in_the_middle(to) {
                return ((to.x - from.x) / GRIP).to_degrees() / deg;
            }
            (from - axis).angle_to(to - axis).to_degrees() / deg
        }
    }
}
