//! Barometer and thermometer.

use sim_core::session::action::{BarometerReference, Exposure};
use sim_core::session::view::View;
use sim_core::time::Date;

use super::scale::whole;
use crate::prose::{sentence, sentences};

/// The barometer, to half a millimetre of mercury.
pub(super) fn barometer(view: &View) -> String {
    let seen = &view.barometer;
    let pointer = format!("the barometer reads {} mmHg", whole(seen.pointer_mmhg));
    let index = match seen.set_to {
        Some(BarometerReference::Station) => " Its index is set to station pressure.",
        Some(BarometerReference::SeaLevel) => " Its index is set to sea level.",
        None => "",
    };
    format!("{}{index}{}", sentence(&pointer), sticker(seen.certified))
}

/// What the sticker of an instrument says, with a space before it.
fn sticker(certified: Option<Date>) -> String {
    certified.map_or_else(String::new, |date| format!(" Its sticker says: certified {date}."))
}

/// The thermometer, to half a degree.
pub(super) fn thermometer(view: &View) -> String {
    let seen = &view.thermometer;
    let place = exposure(seen.exposure);
    let motion = if seen.moving { "is still moving" } else { "is at rest" };
    let told = sentences(&[
        format!("the thermometer is {place}"),
        format!("its column reads {} degrees Celsius and {motion}", whole(seen.column_c)),
    ]);
    format!("{told}{}", sticker(seen.certified))
}

/// Where the thermometer stands.
pub(super) const fn exposure(exposure: Exposure) -> &'static str {
    match exposure {
        Exposure::Shade => "in its shaded screen",
        Exposure::Sun => "in the sun",
    }
}
