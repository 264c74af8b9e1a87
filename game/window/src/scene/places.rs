//! Where things lie in the scene, in scene units (y down), as `assets/scene.ron` has them. No
//! window in here.

use hands::{Spot, allowed, part_of};
use paint::chart::{self, Ruling};
use sim_core::rig::parts::{BlowerPlug, Grip, Leg, PartPlace, RigPart, Trip};
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

    /// Whether two areas share more than an edge.
    pub fn meets(&self, other: &Self) -> bool {
        self.x < other.x + other.w
            && other.x < self.x + self.w
            && self.y < other.y + other.h
            && other.y < self.y + self.h
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

/// Where a thing can be pointed at now; `None` while it is out of sight and out of reach.
pub fn area_of(view: &View, spot: Spot) -> Option<Area> {
    if let Some(part) = part_of(spot) {
        return part_area(view, part);
    }
    let mounting = &view.mounting;
    let hangs = mounting.place(RigPart::Manometer) == PartPlace::Hook;
    let mounted = mounting.place(RigPart::Calibrator) == PartPlace::Adapter;
    let seen = |shown: bool, area: Area| shown.then_some(area);
    let electronic = view.manometer.display.is_some();
    let water = hangs && !electronic;
    match spot {
        Spot::Sky => Some(area(640.0, 16.0, 150.0, 110.0)),
        Spot::RoofEdge => Some(area(200.0, 540.0, 60.0, 70.0)),
        Spot::WorkOrder => Some(area(1000.0, 412.0, 104.0, 136.0)),
        Spot::Certificates => Some(area(222.0, 672.0, 44.0, 80.0)),
        Spot::Thermometer => Some(area(44.0, 312.0, 156.0, 180.0)),
        Spot::Barometer => Some(area(968.0, 244.0, 136.0, 150.0)),
        Spot::Timer if view.run.is_some() => Some(area(768.0, 598.0, 30.0, 84.0)),
        Spot::Timer => Some(area(684.0, 598.0, 114.0, 86.0)),
        Spot::Dial => seen(view.run.is_some(), area(DIAL.0 - 16.0, DIAL.1 - 16.0, 32.0, 32.0)),
        Spot::Tripper(trip) => at_tripper(view, trip),
        Spot::KeptChart => {
            let kept = view.run.as_ref().is_some_and(|run| run.kept_chart.is_some());
            seen(kept, area(364.0, 690.0, 56.0, 50.0))
        }
        Spot::WeatherSheet => seen(view.run.is_some(), area(64.0, 506.0, 92.0, 100.0)),
        Spot::Cord if view.power.sampler_cord_in => Some(SAMPLER_SOCKET),
        Spot::Cord => Some(area(856.0, 722.0, 60.0, 50.0)),
        Spot::Lid if mounting.lid_open => Some(area(296.0, 36.0, 250.0, 92.0)),
        Spot::Lid => Some(area(276.0, 200.0, 300.0, 54.0)),
        Spot::Nut(nut) => {
            let places = [
                area(284.0, 262.0, 27.0, 38.0),
                area(525.0, 262.0, 27.0, 38.0),
                area(490.0, 256.0, 34.0, 38.0),
                area(312.0, 256.0, 34.0, 38.0),
            ];
            places.get(nut.index()).copied().filter(|_| mounting.lid_open)
        }
        Spot::Holder => Some(area(290.0, 320.0, 256.0, 26.0)),
        Spot::Case => Some(area(14.0, 698.0, 204.0, 54.0)),
        Spot::Ground => Some(area(716.0, 742.0, 120.0, 34.0)),
        Spot::Knob => {
            let has_knob = view.calibrator.plates.is_none();
            seen(mounted && has_knob, area(356.0, 168.0, 55.0, 56.0))
        }
        // Their box, beside the adapter plate on the roof.
        Spot::Plates => seen(view.calibrator.plates.is_some(), area(568.0, 742.0, 48.0, 34.0)),
        Spot::Openings => seen(mounted, area(404.0, 234.0, 84.0, 20.0)),
        Spot::Valve(Leg::Left) => seen(water, area(840.0, 66.0, 38.0, 50.0)),
        Spot::Valve(Leg::Right) => seen(water, area(910.0, 66.0, 38.0, 50.0)),
        Spot::Scale => seen(water, area(878.0, 130.0, 32.0, 516.0)),
        Spot::Leg(Leg::Left) => seen(water, area(845.0, 130.0, 32.0, 516.0)),
        Spot::Leg(Leg::Right) => seen(water, area(911.0, 130.0, 32.0, 516.0)),
        Spot::Display => seen(hangs && electronic, area(858.0, 122.0, 72.0, 44.0)),
        Spot::Tube if view.tube.on_tap => Some(TAP),
        // The free end, which hangs below the manometer's port.
        Spot::Tube => seen(hangs, area(752.0, 294.0, 56.0, 50.0)),
        Spot::BlowerPlug => Some(match view.power.blower_plug {
            BlowerPlug::Controller => CONTROLLER_SOCKET,
            BlowerPlug::LineOutlet => LINE_SOCKET,
            BlowerPlug::Loose => area(618.0, 742.0, 64.0, 34.0),
        }),
        Spot::LineOutlet => Some(area(1060.0, 630.0, 40.0, 44.0)),
        Spot::Controller => Some(area(620.0, 598.0, 56.0, 84.0)),
        Spot::Blower => Some(area(330.0, 452.0, 176.0, 160.0)),
        Spot::Door if view.recorder.door_open => Some(area(512.0, 430.0, 44.0, 80.0)),
        Spot::Door => Some(area(781.0, 420.0, 24.0, 110.0)),
        Spot::Recorder => Some(area(558.0, 346.0, 230.0, 20.0)),
        Spot::Pen if view.recorder.capped => Some(area(690.0, 368.0, 76.0, 28.0)),
        Spot::Pen => Some(about_nib(view)),
        Spot::Cap if view.recorder.capped => Some(at_pen_tip(view)),
        Spot::Cap => Some(CAP_AT_REST),
        Spot::Chart => Some(area(590.0, 472.0, 174.0, 72.0)),
        Spot::ZeroScrew => Some(area(764.0, 548.0, 28.0, 28.0)),
        _ => None,
    }
}

/// About the nib, in steps, so that a pen that moves a little leaves it where it is; below the case's
/// upper edge and above the chart's own place.
fn about_nib(view: &View) -> Area {
    let (x, y) = nib(view);
    let stepped = |value: f32| (value / 8.0).round() * 8.0;
    area(stepped(x) - 20.0, (stepped(y) - 18.0).clamp(368.0, 434.0), 60.0, 36.0)
}

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
/// Least angle between the two, so that each can be pointed at, degrees.
const TRIPPERS_APART_DEG: f32 = 40.0;

/// About a tripper on the rim of the dial. Two that stand close together are taken hold of side by
/// side.
fn at_tripper(view: &View, trip: Trip) -> Option<Area> {
    let dial = &view.run.as_ref()?.timer;
    let at = |tripper: TripperView| (15.0 * (dial.hours - tripper.hours)) as f32;
    let (on, off) = (at(dial.on), at(dial.off));
    // Clockwise from the off tripper to the on tripper, half a turn at most either way.
    let apart = (on - off + 180.0).rem_euclid(360.0) - 180.0;
    let side = if apart < 0.0 { -1.0 } else { 1.0 };
    let more = 0.5 * (TRIPPERS_APART_DEG - apart.abs()).max(0.0) * side;
    let deg = match trip {
        Trip::On => on + more,
        Trip::Off => off - more,
    };
    let (along, up) = (deg.to_radians().sin(), deg.to_radians().cos());
    let middle = (DIAL.0 + TRIPPER_REACH * along, DIAL.1 - TRIPPER_REACH * up);
    let half = 0.5 * TRIPPER_WIDE;
    Some(area(middle.0 - half, middle.1 - half, TRIPPER_WIDE, TRIPPER_WIDE))
}

/// How a filter is gripped that is taken hold of at an x of the scene: near its ends by its edges,
/// in its middle with a thumb on its face.
pub fn grip_at(view: &View, spot: Spot, x: f32) -> Grip {
    let Some(area) = area_of(view, spot) else { return Grip::Edges };
    let share = (x - area.x) / area.w;
    if (0.3..=0.7).contains(&share) { Grip::Face } else { Grip::Edges }
}

/// Where a part lies.
fn part_area(view: &View, part: RigPart) -> Option<Area> {
    let lid_open = view.mounting.lid_open;
    let place = view.mounting.place(part);
    match (place, part) {
        (PartPlace::Hand, _) => Some(HAND),
        (PartPlace::Holder, RigPart::Filter) => lid_open.then_some(area(348.0, 302.0, 140.0, 16.0)),
        (PartPlace::Holder, _) => lid_open.then_some(area(348.0, 286.0, 140.0, 15.0)),
        (PartPlace::Adapter, _) => Some(area(412.0, 142.0, 90.0, 90.0)),
        (PartPlace::Hook, _) if view.manometer.display.is_some() => {
            Some(area(850.0, 172.0, 88.0, 90.0))
        }
        (PartPlace::Hook, _) => Some(area(846.0, 650.0, 96.0, 58.0)),
        (PartPlace::Case, RigPart::Manometer) => Some(area(26.0, 634.0, 36.0, 60.0)),
        (PartPlace::Case, RigPart::Calibrator) => Some(area(66.0, 640.0, 48.0, 56.0)),
        (PartPlace::Case, RigPart::Adapter) => Some(area(118.0, 640.0, 48.0, 56.0)),
        (PartPlace::Case, RigPart::Filter) => Some(area(170.0, 640.0, 44.0, 56.0)),
        // The case has no room for the frame: it lies on the roof whichever was meant.
        (PartPlace::Case | PartPlace::Ground, RigPart::Frame) => {
            Some(area(276.0, 742.0, 100.0, 34.0))
        }
        (PartPlace::Ground, RigPart::Filter) => Some(area(380.0, 742.0, 80.0, 34.0)),
        (PartPlace::Ground, RigPart::Adapter) => Some(area(464.0, 742.0, 100.0, 34.0)),
        (PartPlace::Ground, RigPart::Calibrator) => Some(area(276.0, 690.0, 80.0, 50.0)),
        (PartPlace::Ground, RigPart::Manometer) => Some(area(846.0, 650.0, 96.0, 58.0)),
    }
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
    use sim_core::rig::flow::plates::Plate;
    use sim_core::rig::manometer::electronic::Shown;
    use sim_core::rig::parts::{PartPlace, RigPart};
    use sim_core::session::view::{DisplayView, PlatesView};

    use super::{HEIGHT, LOUPE, WIDTH, area_of, carried_by, targets};
    use content::sample;
    use hands::Spot;

    /// The usual ways the bench stands, each with its name.
    fn stands() -> Vec<(String, sim_core::session::view::View)> {
        let mut stands = Vec::new();
        let mut closed = sample::view();
        closed.mounting.lid_open = false;
        closed.mounting.places = [
            PartPlace::Holder,
            PartPlace::Holder,
            PartPlace::Case,
            PartPlace::Case,
            PartPlace::Case,
        ];
        closed.tube.on_tap = false;
        closed.recorder.door_open = false;
        stands.push(("as found".to_owned(), closed.clone()));
        stands.push(("at the points".to_owned(), sample::view()));
        for (name, pen) in [("capped", None), ("low", Some(0.5)), ("high", Some(69.0))] {
            let mut view = sample::view();
            view.recorder.capped = pen.is_none();
            view.recorder.pen = pen;
            stands.push((name.to_owned(), view));
        }
        for part in RigPart::ALL {
            for place in [PartPlace::Hand, PartPlace::Ground, PartPlace::Case] {
                let mut view = closed.clone();
                view.mounting.lid_open = true;
                if let Some(at) = view.mounting.places.get_mut(part as usize) {
                    *at = place;
                }
                view.hand = (place == PartPlace::Hand).then_some(part);
                stands.push((format!("{part:?} to {place:?}"), view));
            }
        }
        for place in [PartPlace::Hook, PartPlace::Ground, PartPlace::Case] {
            let mut view = sample::view();
            let shows = Shown::Reading(3.5);
            view.manometer.display =
                Some(DisplayView { shows, battery_low: false, calibrated: None });
            if let Some(at) = view.mounting.places.get_mut(RigPart::Manometer as usize) {
                *at = place;
            }
            stands.push((format!("electronic manometer to {place:?}"), view));
        }
        for plate in [None, Some(Plate::WIDEST)] {
            let mut view = sample::view();
            view.calibrator.plates = Some(PlatesView { inserted: plate });
            stands.push((format!("plate {plate:?}"), view));
        }
        for (on, off) in (0..24).flat_map(|on| [0, 1, 2, 3, 12, 23].map(|later| (on, on + later))) {
            let mut view = sample::with_a_run();
            if let Some(run) = &mut view.run {
                run.timer.on.hours = f64::from(on);
                run.timer.off.hours = f64::from(off % 24);
                run.kept_chart = Some(Vec::new());
            }
            stands.push((format!("trippers at {on} and {off}"), view));
        }
        stands
    }

    #[test]
    fn things_lie_in_the_scene_and_not_on_one_another() {
        for (name, view) in stands() {
            let areas: Vec<_> = Spot::all()
                .into_iter()
                .filter_map(|spot| Some((spot, area_of(&view, spot)?)))
                .collect();
            for (at, (spot, area)) in areas.iter().enumerate() {
                assert!(
                    area.x >= 0.0
                        && area.y >= 0.0
                        && area.x + area.w <= WIDTH
                        && area.y + area.h <= HEIGHT,
                    "{name}: {spot:?} leaves the scene"
                );
                assert!(area.w >= 15.0 && area.h >= 15.0, "{name}: {spot:?} is too small");
                assert!(!area.meets(&LOUPE), "{name}: {spot:?} lies under the loupe");
                for (other, theirs) in areas.iter().skip(at + 1) {
                    assert!(!area.meets(theirs), "{name}: {spot:?} lies on {other:?}");
                }
            }
        }
    }

    #[test]
    fn what_is_carried_has_somewhere_to_go() {
        let mut view = sample::view();
        view.hand = Some(RigPart::Calibrator);
        for carried in Spot::all().into_iter().filter_map(carried_by) {
            assert!(!targets(&view, carried).is_empty(), "{carried:?} goes nowhere");
        }
    }
}
