//! The same readings from pictures in high contrast.

use paint::contrast;
use paint::loupe;
use sim_core::session::action::Sight;
use sim_core::session::view::View;

use super::picture::{Picture, in_high_contrast};
use super::{SIDES_PX, read, run, spread};

/// What is read of a view in high contrast.
fn read_of(view: &View, side_px: u32, read: impl FnOnce(&Picture) -> f64) -> f64 {
    let session = run::mounted();
    let mut painted = loupe::paint(view, &session.papers(), side_px, 1.0).take();
    contrast::raise(&mut painted);
    in_high_contrast(|| read(&Picture::new(&painted)))
}

#[test]
fn legs_are_read_in_high_contrast() {
    let mut view = run::mounted().view();
    for (n, meniscus_in) in spread(-7.2, 7.2, 40).enumerate() {
        view.focus = [Sight::LeftLeg, Sight::RightLeg][n % 2];
        view.eye_mm = [0.0, 150.0, -150.0][n % 3];
        for leg in [&mut view.manometer.left, &mut view.manometer.right] {
            (leg.meniscus_in, leg.rim_in) = (meniscus_in, meniscus_in + 0.076);
        }
        for side_px in SIDES_PX {
            let read = read_of(&view, side_px, |seen| read::leg(seen, view.focus, meniscus_in));
            let off = (read - meniscus_in).abs();
            assert!(off <= 0.01, "{meniscus_in} in at {side_px} px is read as {read}");
        }
    }
}

#[test]
fn barometer_and_thermometer_are_read_in_high_contrast() {
    let mut view = run::mounted().view();
    for share in spread(0.0, 1.0, 30) {
        let (mmhg, celsius) = (560.0 + 220.0 * share, -24.0 + 68.0 * share);
        view.barometer.pointer_mmhg = mmhg;
        view.thermometer.column_c = celsius;
        for side_px in SIDES_PX {
            view.focus = Sight::Barometer;
            let off = read_of(&view, side_px, |seen| read::barometer(seen, mmhg)) - mmhg;
            assert!(off.abs() <= 0.25, "{mmhg} mmHg at {side_px} px is read {off} off");
            view.focus = Sight::Thermometer;
            let off = read_of(&view, side_px, |seen| read::thermometer(seen, celsius)) - celsius;
            assert!(off.abs() <= 0.25, "{celsius} degrees at {side_px} px are read {off} off");
        }
    }
}
