//! Barometer and thermometer.

use sim_core::session::action::{BarometerReference, Exposure};
use sim_core::session::view::View;

use super::scale::{sentence, whole};

/// The barometer, to half a millimetre of mercury.
pub(super) fn barometer(view: &View) -> String {
    let seen = &view.barometer;
    let pointer = format!("the barometer's pointer stands at {} mmHg", whole(seen.pointer_mmhg));
    let index = match seen.set_to {
        Some(BarometerReference::Station) => " Its index is set to station pressure.",
        Some(BarometerReference::SeaLevel) => " Its index is set to sea level.",
        None => "",
    };
    format!("{}{index}", sentence(&pointer))
}

/// The thermometer, to half a degree.
pub(super) fn thermometer(view: &View) -> String {
    let seen = &view.thermometer;
    let place = exposure(seen.exposure);
    let motion = if seen.moving { "still moving" } else { "at rest" };
    [
        format!("the thermometer stands {place}"),
        format!("its column stands at {} degrees Celsius, {motion}", whole(seen.column_c)),
    ]
    .map(|text| sentence(&text))
    .join(" ")
}

/// Where the thermometer stands.
pub(super) const fn exposure(exposure: Exposure) -> &'static str {
    match exposure {
        Exposure::Shade => "in its shaded screen",
        Exposure::Sun => "in the sun",
    }
}
