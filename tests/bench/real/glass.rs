//! The loupe as it stands on the screen.

use sim_core::session::action::Sight;

use super::hands::seen;
use super::screen::{Screen, pause};
use crate::bench::paint::picture::Picture;
use crate::bench::paint::read;

/// The loupe's pixels.
pub fn picture(screen: &Screen) -> Picture {
    // The glass follows the eye, which takes a moment.
    pause(700);
    let [left, top, right, foot] = whole(screen);
    let side = ((right - left).round() as u32).min((foot - top).round() as u32);
    let pixels = screen.pixels(left.round() as u32, top.round() as u32, side, side);
    screen.keep_pixels("glass", side, &pixels);
    Picture::new(&pixels)
}

/// Most looks at what does not stand there yet: a machine under load draws late.
const LOOKS: u32 = 5;

/// Where the whole of the loupe is seen. In a window that is smaller than the bench, the bars at its
/// sides bring it there.
fn whole(screen: &Screen) -> [f32; 4] {
    for _ in 0..8 {
        let told = screen.told();
        let place = seen(&told, "loupe").and_then(|one| one.seen);
        if let Some(place) = place.filter(|[l, t, r, f]| ((r - l) - (f - t)).abs() < 2.5) {
            return place;
        }
        let (right, foot) = (screen.size.0 - 6, screen.size.1 - 6);
        for (x, y) in [(right, 4), (4, foot)] {
            screen.tool(&["mousemove", &x.to_string(), &y.to_string()]);
            pause(300);
            screen.tool(&["click", "1"]);
            pause(500);
        }
    }
    screen.keep_picture("the loupe is not whole");
    panic!("the bars do not bring the loupe into sight");
}

/// A reading, if it is what stands there within what a sharp eye can tell.
fn look(
    screen: &Screen,
    what: &str,
    (stands, within): (f64, f64),
    read: &dyn Fn(&Picture) -> f64,
) -> f64 {
    let mut told = String::new();
    for _ in 0..LOOKS {
        let picture = picture(screen);
        // A picture of something else cannot be read at all.
        let reading = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| read(&picture)));
        match reading {
            Ok(value) if (value - stands).abs() <= within => return value,
            Ok(value) => told = format!("{what} is read as {value:.3} where {stands:.3} stands"),
            Err(_) => told = format!("{what} cannot be read, where {stands:.3} stands"),
        }
        pause(800);
    }
    screen.keep_picture(&format!("{what} is misread"));
    panic!("{told}");
}

/// A leg of the manometer, inches.
pub fn leg(screen: &Screen, sight: Sight, near_in: f64) -> f64 {
    look(screen, "a leg", (near_in, 0.05), &|picture| read::leg(picture, sight, near_in))
}

/// The pen, chart divisions.
pub fn pen(screen: &Screen, near: f64) -> f64 {
    look(screen, "the pen", (near, 0.5), &|picture| read::pen(picture, near))
}

/// The barometer, mmHg.
pub fn barometer(screen: &Screen, near: f64) -> f64 {
    look(screen, "the barometer", (near, 0.5), &|picture| read::barometer(picture, near))
}

/// The thermometer, degrees Celsius.
pub fn thermometer(screen: &Screen, near: f64) -> f64 {
    look(screen, "the thermometer", (near, 0.5), &|picture| read::thermometer(picture, near))
}

/// The trace of the run's chart in the middle of the glass, chart divisions.
pub fn trace(screen: &Screen, near: f64) -> f64 {
    look(screen, "the trace", (near, 0.75), &|picture| read::trace(picture, near))
}

/// The timer's meter, minutes.
pub fn meter(screen: &Screen, stands: f64) -> f64 {
    look(screen, "the meter", (stands, 0.15), &|picture| read::meter(picture))
}
