//! Every hit area against its drawing, by pixels. What belongs to a thing is listed here once more, by
//! the names of the drawings, and what is seen of them is taken from their painted pictures.

use std::collections::BTreeMap;

use content::sample;
use hands::Spot;
use paint::canvas::Canvas;
use paint::layers;
use paint::scene::Area as PaintArea;
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{BlowerPlug, Leg, Nut, PartPlace, RigPart, Stopper, Trip};
use sim_core::session::view::{DisplayView, NutFeel, PlatesView, View};
use window::scene::owners::is_there;
use window::scene::places::{HEIGHT, LOUPE, WIDTH};
use window::scene::reach::Reach;

const WIDE: usize = WIDTH as usize;
const HIGH: usize = HEIGHT as usize;

/// Least width of a hit area, scene units: 24 pixels of a window 1280 wide.
const LEAST: i32 = 31;
/// Fewer cells of a thing than this are not found: it lies under something else.
const FOUND: usize = 80;
/// Least share of what is drawn that answers.
const ANSWERS: f64 = 0.95;
/// Largest share of a hit area that lies beside what is drawn and beside the room that is due to it.
const BESIDE: f64 = 0.10;

/// The usual ways the bench stands, each with its name.
fn stands() -> Vec<(String, View)> {
    let mut stands = vec![("at the points".to_owned(), sample::view())];
    let mut closed = sample::view();
    closed.mounting.lid_open = false;
    closed.mounting.places =
        [PartPlace::Holder, PartPlace::Holder, PartPlace::Case, PartPlace::Case, PartPlace::Case];
    closed.tube.on_tap = false;
    closed.recorder.door_open = false;
    stands.push(("as found".to_owned(), closed.clone()));
    let mut open = closed;
    open.mounting.lid_open = true;
    open.recorder.door_open = true;
    for nut in &mut open.mounting.nuts {
        (nut.feel, nut.quarter_turns) = (NutFeel::Off, 0);
    }
    open.recorder.capped = true;
    open.power.sampler_cord_in = false;
    open.power.blower_plug = BlowerPlug::Loose;
    stands.push(("nuts swung aside, everything unplugged".to_owned(), open.clone()));
    for part in [RigPart::Filter, RigPart::Calibrator] {
        let mut view = open.clone();
        view.mounting.places[part as usize] = PartPlace::Hand;
        view.hand = Some(part);
        stands.push((format!("{part:?} in hand"), view));
    }
    let mut lying = open;
    lying.mounting.places = [PartPlace::Ground; 5];
    stands.push(("everything on the roof".to_owned(), lying));
    let mut swung = sample::view();
    swung.manometer.tilt_deg = 6.0;
    swung.recorder.pen = Some(8.0);
    swung.power.outlet_tripped = true;
    stands.push(("manometer swung, pen low".to_owned(), swung));
    let mut neglected = sample::view();
    neglected.mounting.inlet = Some(Stopper::Nest);
    neglected.mounting.exhaust = Some(Stopper::Snow);
    (neglected.recorder.line_off, neglected.power.cord_damaged) = (true, true);
    stands.push(("neglected".to_owned(), neglected));
    let mut plates = sample::view();
    plates.calibrator.plates = Some(PlatesView { inserted: Some(Plate::WIDEST) });
    let shows = Shown::Reading(3.5);
    plates.manometer.display = Some(DisplayView { shows, battery_low: false, calibrated: None });
    stands.push(("plates and electronic manometer".to_owned(), plates));
    for (on, off) in [(0.0, 0.0), (6.0, 18.0)] {
        let mut view = sample::with_a_run();
        if let Some(run) = &mut view.run {
            (run.timer.on.hours, run.timer.off.hours) = (on, off);
            run.kept_chart = Some(Vec::new());
        }
        stands.push((format!("a run, trippers at {on} and {off}"), view));
    }
    stands
}

/// The drawings of a thing, and which of several alike they are.
fn drawings(view: &View, spot: Spot) -> Vec<(&'static str, usize)> {
    let there = |other: Spot| is_there(view, other);
    let mut names = own_drawings(spot);
    // What is no thing by itself now belongs to the thing of which it is a part.
    let parts: Vec<Spot> = match spot {
        Spot::Timer => vec![Spot::Dial, Spot::Tripper(Trip::On), Spot::Tripper(Trip::Off)],
        Spot::Calibrator => vec![Spot::Knob, Spot::Openings, Spot::Plates],
        Spot::Manometer => {
            let [left, right] = [Leg::Left, Leg::Right];
            vec![Spot::Scale, Spot::Valve(left), Spot::Valve(right), Spot::Tube]
        }
        Spot::Lid => {
            let covered = [Spot::Frame, Spot::Filter, Spot::Adapter];
            covered.into_iter().chain(Nut::ALL.map(Spot::Nut)).collect()
        }
        _ => Vec::new(),
    };
    names.extend(parts.into_iter().filter(|&part| !there(part)).flat_map(own_drawings));
    if spot == Spot::Recorder && !view.recorder.door_open {
        names.push(("recorder_door_closed", 0));
    }
    names
}

/// The drawings that show a thing alone.
fn own_drawings(spot: Spot) -> Vec<(&'static str, usize)> {
    let one = |names: &[&'static str]| names.iter().map(|&name| (name, 0)).collect();
    let leg = |leg: Leg| usize::from(leg == Leg::Right);
    match spot {
        Spot::Nut(nut) => {
            ["nut", "nut_half", "nut_edge", "bolt", "washer"].map(|name| (name, nut.index())).into()
        }
        Spot::Valve(which) => vec![("valve", leg(which)), ("valve_edge", leg(which))],
        Spot::Sky => one(&["sun", "storm", "backdrop"]),
        Spot::Ground => one(&["backdrop"]),
        Spot::RoofEdge => one(&["roof_edge"]),
        Spot::WorkOrder => one(&["work_order"]),
        Spot::Certificates => one(&["certificate"]),
        Spot::Thermometer => one(&["thermometer_screen", "thermometer", "column"]),
        Spot::Barometer => {
            one(&["barometer", "barometer_pointer", "barometer_index", "barometer_glass"])
        }
        Spot::Cord => one(&["plug_sampler", "sampler's cord", "cut in the cord"]),
        Spot::BlowerPlug => one(&["plug_blower", "blower's cord"]),
        Spot::Lid => one(&["lid_open", "lid_closed", "in the inlet"]),
        Spot::Frame => one(&["frame"]),
        Spot::Filter => one(&["filter", "case_filter"]),
        Spot::Adapter => one(&["adapter", "case_adapter"]),
        Spot::Holder => one(&["filter_holder", "holder_gasket", "calibrator_gasket"]),
        Spot::Case => one(&["carrying_case", "case_front", "case_folder"]),
        Spot::Calibrator => one(&["calibrator", "calibrator_plates", "case_calibrator"]),
        Spot::Knob => one(&["calibrator_knob"]),
        Spot::Openings => {
            one(&["calibrator_shutter", "calibrator_cover", "calibrator", "calibrator_plates"])
        }
        Spot::Plates => one(&["plate", "plate_box", "plate_on_edge"]),
        Spot::Manometer => one(&[
            "manometer",
            "manometer_glass",
            "plumb_bob",
            "case_manometer",
            "electronic_manometer",
            "case_electronic",
        ]),
        Spot::Scale => one(&["manometer_scale"]),
        Spot::Leg(_) => one(&["manometer_glass", "manometer", "water"]),
        Spot::Display => one(&["electronic_manometer", "digits"]),
        Spot::Tube => one(&["tube"]),
        Spot::LineOutlet => one(&["mains_outlet", "line_switch", "reset button"]),
        Spot::Controller => one(&["flow_controller", "flow_controller_lamp", "trim_screw"]),
        Spot::Timer => one(&["timer", "timer_meter", "timer_switch"]),
        Spot::Dial => one(&["timer_dial"]),
        Spot::Tripper(Trip::On) => one(&["timer_tripper_on"]),
        Spot::Tripper(Trip::Off) => one(&["timer_tripper_off"]),
        Spot::Blower => one(&["blower", "rotor", "in the exhaust"]),
        Spot::Recorder => one(&["recorder", "recorder's tubing"]),
        Spot::Door => one(&["recorder_door_closed", "recorder_door_open"]),
        Spot::Pen => one(&["pen_arm"]),
        Spot::Cap => one(&["pen_cap"]),
        Spot::Chart => one(&["chart", "chart_even", "chart_hub", "trace"]),
        Spot::ZeroScrew => one(&["recorder"]),
        Spot::KeptChart => one(&["kept_chart"]),
        Spot::WeatherSheet => one(&["logger", "logger_sheet"]),
    }
}

/// The part of its drawings that is meant, where that is not the whole: left, top, right, foot.
fn part(view: &View, spot: Spot) -> Option<[f32; 4]> {
    Some(match spot {
        Spot::Openings if !view.calibrator.blocked => [411.0, 232.0, 481.0, 252.0],

        Spot::Sky => [0.0, 0.0, WIDTH, 470.0],
        Spot::Ground => [0.0, 655.0, WIDTH, HEIGHT],
        Spot::Leg(Leg::Left) => [853.0, 136.0, 869.0, 640.0],
        Spot::Leg(Leg::Right) => [919.0, 136.0, 935.0, 640.0],
        Spot::Display => [860.0, 124.0, 928.0, 164.0],
        Spot::ZeroScrew => [768.0, 551.0, 786.0, 569.0],
        _ => return None,
    })
}

/// Cells of the scene.
type Cells = Vec<bool>;

fn near(cells: &Cells, x: i32, y: i32) -> bool {
    let inside = (0..WIDE as i32).contains(&x) && (0..HIGH as i32).contains(&y);
    inside && cells[y as usize * WIDE + x as usize]
}

fn each(cells: &Cells) -> impl Iterator<Item = (i32, i32)> {
    let inked = cells.iter().enumerate().filter(|(_, inked)| **inked);
    inked.map(|(at, _)| ((at % WIDE) as i32, (at / WIDE) as i32))
}

/// The widest square that lies in a shape, so many cells a side.
fn across(cells: &Cells) -> i32 {
    let mut side = vec![0_i32; WIDE * HIGH];
    let mut widest = 0;
    for (x, y) in each(cells) {
        let at = y as usize * WIDE + x as usize;
        let before = |dx: usize, dy: usize| {
            if (x as usize) < dx || (y as usize) < dy { 0 } else { side[at - dx - dy * WIDE] }
        };
        side[at] = 1 + before(1, 0).min(before(0, 1)).min(before(1, 1));
        widest = widest.max(side[at]);
    }
    widest
}

/// The room that is due to a thin shape: every cell by which it becomes as wide as a finger.
fn with_room(cells: &Cells) -> Cells {
    let reach = (LEAST - across(cells) + 1) / 2 + 2;
    let mut wide = cells.clone();
    if reach <= 2 {
        return wide;
    }
    for (x, y) in each(cells) {
        if [(1, 0), (-1, 0), (0, 1), (0, -1)].iter().all(|(dx, dy)| near(cells, x + dx, y + dy)) {
            continue;
        }
        for dy in -reach..=reach {
            for dx in -reach..=reach {
                let (x, y) = (x + dx, y + dy);
                let inside = (0..WIDE as i32).contains(&x) && (0..HIGH as i32).contains(&y);
                if inside && dx * dx + dy * dy <= reach * reach {
                    wide[y as usize * WIDE + x as usize] = true;
                }
            }
        }
    }
    wide
}

/// For each cell the drawing that is topmost there.
fn topmost(view: &View) -> Vec<Option<(&'static str, usize)>> {
    let area = PaintArea { x: 0.0, y: 0.0, w: WIDTH, h: HEIGHT };
    let mut top = vec![None; WIDE * HIGH];
    for one in layers::names(view) {
        if one.0 == "air" {
            continue;
        }
        let mut canvas = Canvas::new(WIDE as u32, HIGH as u32, 1.0);
        layers::draw_named(&mut canvas, view, area, |name, which| (name, which) == one);
        for (cell, pixel) in top.iter_mut().zip(canvas.finish().pixels()) {
            if pixel.alpha() > 110 {
                *cell = Some(one);
            }
        }
    }
    top
}

/// What is seen of each thing, as it is drawn.
fn seen(view: &View) -> BTreeMap<Spot, Cells> {
    let top = topmost(view);
    let there: Vec<Spot> = Spot::all().into_iter().filter(|&spot| is_there(view, spot)).collect();
    // A manometer that is turned has its parts elsewhere than they were drawn.
    let upright = view.manometer.tilt_deg.abs() < 0.01;
    let parts: Vec<(Spot, [f32; 4])> =
        there.iter().filter_map(|&spot| Some((spot, part(view, spot)?))).collect();
    let inside = |[left, top, right, foot]: [f32; 4], at: usize| {
        let (x, y) = ((at % WIDE) as f32 + 0.5, (at / WIDE) as f32 + 0.5);
        (left..right).contains(&x) && (top..foot).contains(&y)
    };
    let mut seen = BTreeMap::new();
    for spot in there {
        if !upright && matches!(spot, Spot::Leg(_) | Spot::Manometer) {
            continue;
        }
        let names = drawings(view, spot);
        let own = part(view, spot);
        let cells: Cells = top
            .iter()
            .enumerate()
            .map(|(at, one)| {
                let behind = LOUPE.holds((at % WIDE) as f32, (at / WIDE) as f32);
                let drawn = !behind && one.is_some_and(|one| names.contains(&one));
                let another = parts.iter().any(|(other, part)| {
                    *other != spot
                        && own.is_none()
                        && drawings(view, *other).contains(&one.unwrap_or_default())
                        && inside(*part, at)
                });
                // Behind its closed door the case shows as the upper edge of the door.
                let edge = inside([552.0, 344.0, 806.0, 366.0], at);
                let another = another
                    || *one == Some(("recorder_door_closed", 0))
                        && edge != (spot == Spot::Recorder);
                drawn && !another && own.is_none_or(|own| inside(own, at))
            })
            .collect();
        seen.insert(spot, cells);
    }
    seen
}

fn count(cells: impl Iterator<Item = bool>) -> f64 {
    cells.filter(|inked| *inked).count() as f64
}

/// What is wrong with the hit areas while the bench stands in one way.
fn wrong(name: &str, view: &View, hit: &dyn Fn(i32, i32) -> Option<Spot>) -> Vec<String> {
    let mut wrong = Vec::new();
    let hits: Vec<Option<Spot>> =
        (0..WIDE * HIGH).map(|at| hit((at % WIDE) as i32, (at / WIDE) as i32)).collect();
    let seen = seen(view);
    let rooms: BTreeMap<Spot, Cells> =
        seen.iter().map(|(&spot, cells)| (spot, with_room(cells))).collect();
    let hidden: Vec<Spot> = Spot::all()
        .into_iter()
        .filter(|spot| seen.get(spot).is_none_or(|cells| each(cells).count() < FOUND))
        .collect();
    for (&spot, cells) in &seen {
        if view.hand.is_some_and(|part| hands::part_of(spot) == Some(part)) {
            // It is drawn by the window, not by the scene: it is tested there.
            continue;
        }
        let reached = count(hits.iter().map(|hit| *hit == Some(spot)));
        if reached < f64::from(LEAST * LEAST) * 0.5 {
            wrong.push(format!("{name}: {spot:?} is reached at {reached} cells only"));
        }
        // The room of something small may lie on it, and what is in the hand; what lies hidden
        // under it is felt for through it.
        let smaller = |at: usize| {
            hits[at].filter(|other| *other != spot).is_some_and(|other| {
                let held = view.hand.is_some_and(|part| hands::part_of(other) == Some(part));
                held || hidden.contains(&other) || rooms.get(&other).is_some_and(|room| room[at])
            })
        };
        let drawn = count(cells.iter().enumerate().map(|(at, inked)| *inked && !smaller(at)));
        let answers =
            count(cells.iter().zip(&hits).map(|(inked, hit)| *inked && *hit == Some(spot)));
        if drawn > 0.0 && answers < ANSWERS * drawn {
            let share = 100.0 * answers / drawn;
            let others = others(cells, &hits, spot);
            wrong.push(format!("{name}: of {spot:?} only {share:.1} % answers: {others:?}"));
        }
        let covered = drawn < 60.0;
        let beside =
            count(rooms[&spot].iter().zip(&hits).map(|(room, hit)| *hit == Some(spot) && !*room));
        if !covered && beside > BESIDE * reached {
            let share = 100.0 * beside / reached;
            wrong.push(format!("{name}: {share:.1} % of the hit area of {spot:?} lies beside it"));
        }
    }
    wrong
}

/// What answers in place of a thing, and at how many cells.
fn others(cells: &Cells, hits: &[Option<Spot>], spot: Spot) -> BTreeMap<Option<Spot>, usize> {
    let mut others = BTreeMap::new();
    for (_, hit) in cells.iter().zip(hits).filter(|(inked, hit)| **inked && **hit != Some(spot)) {
        *others.entry(*hit).or_insert(0) += 1;
    }
    others
}

#[test]
fn every_hit_area_is_the_drawn_shape() {
    let mut problems = Vec::new();
    for (name, view) in stands() {
        let reach = Reach::of(&view);
        let hit = |x: i32, y: i32| reach.at(x as f32 + 0.5, y as f32 + 0.5);
        problems.extend(wrong(&name, &view, &hit));
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
}

#[test]
fn what_is_taken_hold_of_in_its_middle_answers() {
    for (name, view) in stands() {
        let reach = Reach::of(&view);
        for spot in Spot::all().into_iter().filter(|&spot| is_there(&view, spot)) {
            let heart =
                reach.heart(spot).unwrap_or_else(|| panic!("{name}: {spot:?} has no place"));
            let middle = (heart.x + heart.w / 2.0, heart.y + heart.h / 2.0);
            assert_eq!(reach.at(middle.0, middle.1), Some(spot), "{name}: the middle of {spot:?}");
        }
    }
}
