//! The holes of a plate counted in its picture, and a display read from its own.

use paint::{loupe, palette, still};
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::session::action::Sight;
use sim_core::session::view::{DisplayView, PlatesView, View};

use super::looked_at::LookedAt;
use super::picture::{Picture, apart, rgb};
use super::run;

/// Side of the pictures, pixels: two to a unit of the loupe.
const SIDE: u32 = 560;

/// How many dark patches there are on the plate: the holes, each found once.
fn holes(picture: &Picture) -> usize {
    let unit = picture.side() / 280.0;
    let (middle, reach) = ((98.0 * unit, 110.0 * unit), 49.0 * unit);
    let hole = |x: f64, y: f64| apart(picture.at(x, y), rgb(palette::RUBBER)) < 30.0;
    let inside = |x: f64, y: f64| (x - middle.0).hypot(y - middle.1) < reach;
    let mut found: Vec<(f64, f64)> = Vec::new();
    for row in 0..picture.side() as usize {
        for column in 0..picture.side() as usize {
            let (x, y) = (column as f64 + 0.5, row as f64 + 0.5);
            if inside(x, y)
                && hole(x, y)
                && found.iter().all(|(ox, oy)| (ox - x).hypot(oy - y) > 15.0 * unit)
            {
                found.push((x, y));
            }
        }
    }
    found.len()
}

fn with_plate(view: &View, inserted: Option<Plate>) -> View {
    let mut view = view.clone();
    view.focus = Sight::Calibrator;
    view.calibrator.plates = Some(PlatesView { inserted });
    view
}

#[test]
fn the_holes_of_each_plate_can_be_counted() {
    let session = run::mounted();
    let mut looked = LookedAt::new();
    for plate in Plate::ALL {
        let view = with_plate(&session.view(), Some(plate));
        let picture = loupe::paint(&view, &session.papers(), SIDE, 1.0);
        let name = format!("plate_{}", plate.holes());
        looked.at(&name, picture.data(), || picture.encode_png().unwrap());
        assert_eq!(holes(&Picture::new(picture.data())), usize::from(plate.holes()));
        let whole = still::whole(&view, 1.0, 0.3);
        looked.at(&format!("whole_{name}"), whole.data(), || whole.encode_png().unwrap());
    }
    let empty = with_plate(&session.view(), None);
    let picture = loupe::paint(&empty, &session.papers(), SIDE, 1.0);
    assert_eq!(holes(&Picture::new(picture.data())), 0);
}

#[test]
fn the_electronic_manometer_has_pictures_of_its_own() {
    let session = run::mounted();
    let mut looked = LookedAt::new();
    for (name, shows, battery_low) in [
        ("reading", Shown::Reading(6.24), false),
        ("low", Shown::Reading(6.24), true),
        ("over", Shown::OverRange, false),
        ("dark", Shown::Nothing, false),
    ] {
        let mut view = session.view();
        view.manometer.display =
            Some(DisplayView { shows, battery_low, calibrated: Some(view.date) });
        let whole = still::whole(&view, 1.0, 0.3);
        looked.at(&format!("whole_{name}"), whole.data(), || whole.encode_png().unwrap());
        for sight in [Sight::Display, Sight::Manometer] {
            view.focus = sight;
            let picture = loupe::paint(&view, &session.papers(), SIDE, 1.0);
            let name = format!("display_{name}_{sight:?}");
            looked.at(&name, picture.data(), || picture.encode_png().unwrap());
        }
    }
    assert_eq!(looked.count(), 12);
}
