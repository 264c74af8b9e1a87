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
    let told = screen.told();
    let [left, top, right, foot] =
        seen(&told, "loupe").and_then(|one| one.seen).expect("the loupe is seen");
    let side = ((right - left).round() as u32).min((foot - top).round() as u32);
    Picture::new(&screen.pixels(left.round() as u32, top.round() as u32, side, side))
}

/// A reading, if it is what stands there within what a sharp eye can tell.
fn held_against(screen: &Screen, what: &str, read: f64, stands: f64, within: f64) -> f64 {
    if (read - stands).abs() > within {
        screen.keep_picture(&format!("{what} is misread"));
        panic!("{what} is read as {read:.3} where {stands:.3} stands");
    }
    read
}

/// A leg of the manometer, inches.
pub fn leg(screen: &Screen, sight: Sight, near_in: f64) -> f64 {
    let read = read::leg(&picture(screen), sight, near_in);
    held_against(screen, "a leg", read, near_in, 0.05)
}

/// The pen, chart divisions.
pub fn pen(screen: &Screen, near: f64) -> f64 {
    held_against(screen, "the pen", read::pen(&picture(screen), near), near, 0.5)
}

/// The barometer, mmHg.
pub fn barometer(screen: &Screen, near: f64) -> f64 {
    read::barometer(&picture(screen), near)
}

/// The thermometer, degrees Celsius.
pub fn thermometer(screen: &Screen, near: f64) -> f64 {
    read::thermometer(&picture(screen), near)
}
