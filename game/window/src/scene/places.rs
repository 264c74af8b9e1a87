//! Where things lie in the scene, in scene units (y down), as `assets/scene.ron` has them. No
//! window in here.

use hands::{Spot, allowed, part_of};
use paint::chart::{self, Ruling};
use sim_core::rig::parts::{BlowerPlug, Grip, PartPlace, RigPart};
use sim_core::session::action::Action;
use sim_core::session::view::View;
use sim_core::session::view::run::TripperView;

/// Width of the part of the scene that is shown.
pub const WIDTH: f32 = 1120.0;
/// Its height.
pub const HEIGHT: f32 = 780.0;

/// A rectangle in the scene.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x: f32,
    /// Upper edge.
    pub y: f32,
    /// Width.
    pub w: f32,
    /// Height.
    pub h: f32,
}

impl Area {
    /// Whether a point lies in it.
    pub fn holds(&self, x: f32, y: f32) -> bool {
        (self.x..=self.x + self.w).contains(&x) && (self.y..=self.y + self.h).contains(&y)
    }
}

const fn area(x: f32, y: f32, w: f32, h: f32) -> Area {
    Area { x, y, w, h }
}

/// Where the loupe is held over the scene.
pub const LOUPE: Area = area(2.0, 8.0, 272.0, 272.0);
/// Where what is in the hand is seen, when no pointer carries it.
pub const HAND: Area = area(590.0, 690.0, 120.0, 50.0);

const SAMPLER_SOCKET: Area = area(1006.0, 574.0, 48.0, 52.0);
const LINE_SOCKET: Area = area(1006.0, 628.0, 48.0, 52.0);
const CONTROLLER_SOCKET: Area = area(570.0, 614.0, 46.0, 60.0);
const TAP: Area = area(504.0, 184.0, 74.0, 34.0);
const HOOK: Area = area(812.0, 40.0, 164.0, 330.0);
const HOLDER: Area = area(266.0, 256.0, 304.0, 90.0);
const ADAPTER: Area = area(334.0, 138.0, 184.0, 150.0);
const CAP_AT_REST: Area = area(558.0, 544.0, 30.0, 32.0);
const CASE: Area = area(14.0, 612.0, 206.0, 142.0);
const GROUND: Area = area(560.0, 690.0, 250.0, 88.0);

/// The chart's hub.
const HUB: (f32, f32) = (678.0, 470.0);

/// The nib; of a capped pen that is parked at the outer edge of the ruling.
fn nib(view: &View) -> (f32, f32) {
    let seen = &view.recorder;
    let ruling = Ruling::of(seen);
    let (x, y) = chart::nib(ruling.radius(seen.pen.unwrap_or(ruling.last())));
    (HUB.0 + x as f32, HUB.1 + y as f32)
}

/// About the tip of the pen, where its cap sits.
fn at_pen_tip(view: &View) -> Area {
    let (x, y) = nib(view);
    area(x - 20.0, (y - 16.0).max(368.0), 36.0, 32.0)
}

/// The axis of the timer's dial.
const DIAL: (f32, f32) = (724.0, 639.0);
/// How far from it a tripper is taken hold of, and how wide.
const TRIPPER_REACH: f32 = 35.0;
const TRIPPER_WIDE: f32 = 16.0;
/// The angle between the two then, so that each can be pointed at, degrees.
const TRIPPERS_APART_DEG: f32 = 40.0;

/// So close together that one covers the other, degrees.
const COVERED_DEG: f32 = 8.0;

/// Where the on tripper is taken hold of while the off tripper covers it: beside it on the rim of the dial.
pub fn beside_the_off_tripper(view: &View) -> Option<Area> {
    let dial = &view.run.as_ref()?.timer;
    let at = |tripper: TripperView| (15.0 * (dial.hours - tripper.hours)) as f32;
    let (on, off) = (at(dial.on), at(dial.off));
    // Clockwise from the off tripper to the on tripper, half a turn at most either way.
    let apart = (on - off + 180.0).rem_euclid(360.0) - 180.0;
    if apart.abs() > COVERED_DEG {
        return None;
    }
    let side = if apart < 0.0 { -1.0 } else { 1.0 };
    let deg = off + TRIPPERS_APART_DEG * side;
    let (along, up) = (deg.to_radians().sin(), deg.to_radians().cos());
    let middle = (DIAL.0 + TRIPPER_REACH * along, DIAL.1 - TRIPPER_REACH * up);
    let half = 0.5 * TRIPPER_WIDE;
    Some(area(middle.0 - half, middle.1 - half, TRIPPER_WIDE, TRIPPER_WIDE))
}

/// How a filter is gripped that is taken hold of at an x of the scene: near its ends by its edges,
/// in its middle with a thumb on its face.
pub fn grip_at(lies: Area, x: f32) -> Grip {
    let share = (x - lies.x) / lies.w;
    if (0.3..=0.7).contains(&share) { Grip::Face } else { Grip::Edges }
}

/// Something that follows the pointer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carried {
    /// A part that is taken into the hand.
    Part(RigPart),
    /// The plug of the sampler's cord.
    SamplerPlug,
    /// The blower's plug.
    BlowerPlug,
    /// The free end of the tube.
    TubeEnd,
    /// The cap of the pen.
    PenCap,
}

/// What a drag on a thing carries, if it carries anything.
pub const fn carried_by(spot: Spot) -> Option<Carried> {
    match spot {
        Spot::Cord => Some(Carried::SamplerPlug),
        Spot::BlowerPlug => Some(Carried::BlowerPlug),
        Spot::Tube => Some(Carried::TubeEnd),
        Spot::Cap => Some(Carried::PenCap),
        _ => match part_of(spot) {
            Some(part) => Some(Carried::Part(part)),
            None => None,
        },
    }
}

/// How far a drag goes before it carries a thing, scene units. A click with a hand that is not quite
/// still carries nothing; and the hung manometer is swung by a short drag to the side, so that a
/// hand that means to bring it plumb does not take it down.
pub fn carried_after(view: &View, spot: Spot) -> f32 {
    if spot == Spot::Manometer && view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        HUNG_AFTER
    } else {
        CARRIED_AFTER
    }
}

/// A hand's unrest, and a drag that means to take the manometer down.
const CARRIED_AFTER: f32 = 6.0;
const HUNG_AFTER: f32 = 80.0;

/// Where what is carried can be let go as things stand, and what letting go there does.
pub fn targets(view: &View, carried: Carried) -> Vec<(Area, Action)> {
    match carried {
        Carried::Part(_) => allowed(view)
            .into_iter()
            .map(|place| (place_area(place), Action::Put { place }))
            .collect(),
        Carried::SamplerPlug => vec![(SAMPLER_SOCKET, Action::PlugSampler)],
        Carried::BlowerPlug => vec![
            (LINE_SOCKET, Action::PlugBlower { into: BlowerPlug::LineOutlet }),
            (CONTROLLER_SOCKET, Action::PlugBlower { into: BlowerPlug::Controller }),
        ],
        Carried::TubeEnd => vec![(TAP, Action::ConnectTube)],
        Carried::PenCap if view.recorder.capped => vec![(CAP_AT_REST, Action::UncapPen)],
        Carried::PenCap => vec![(at_pen_tip(view), Action::CapPen)],
    }
}

/// What letting go somewhere else does.
pub fn let_go(view: &View, carried: Carried) -> Option<Action> {
    match carried {
        // It stays in the hand.
        Carried::Part(_) => None,
        Carried::SamplerPlug => view.power.sampler_cord_in.then_some(Action::UnplugSampler),
        Carried::BlowerPlug => (view.power.blower_plug != BlowerPlug::Loose)
            .then_some(Action::PlugBlower { into: BlowerPlug::Loose }),
        Carried::TubeEnd => view.tube.on_tap.then_some(Action::DisconnectTube),
        Carried::PenCap => view.recorder.capped.then_some(Action::UncapPen),
    }
}

/// The area of a place.
const fn place_area(place: PartPlace) -> Area {
    match place {
        PartPlace::Case => CASE,
        PartPlace::Ground => GROUND,
        PartPlace::Hand => HAND,
        PartPlace::Holder => HOLDER,
        PartPlace::Adapter => ADAPTER,
        PartPlace::Hook => HOOK,
    }
}

#[cfg(test)]
mod tests {
    use sim_core::rig::parts::RigPart;

    use super::{carried_by, targets};
    use content::sample;
    use hands::Spot;

    #[test]
    fn what_is_carried_has_somewhere_to_go() {
        let mut view = sample::view();
        view.hand = Some(RigPart::Calibrator);
        for carried in Spot::all().into_iter().filter_map(carried_by) {
            assert!(!targets(&view, carried).is_empty(), "{carried:?} goes nowhere");
        }
    }
}
