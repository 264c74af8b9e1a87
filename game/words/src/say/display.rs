//! The electronic manometer: its label and its display.

use sim_core::rig::manometer::electronic::Shown;
use sim_core::session::view::{DisplayView, View};

use super::manometer::away;
use crate::prose::sentences;

/// The whole of it: where it hangs, the label on its back, the tube, the display.
pub(super) fn whole(view: &View, display: DisplayView) -> String {
    if let Some(away) = away(view) {
        return away;
    }
    let mut said = vec!["the electronic manometer hangs on its hook".to_owned()];
    if let Some(date) = display.calibrated {
        said.push(format!("the label on its back says: calibrated {date}"));
    }
    said.push(
        if view.tube.on_tap {
            "the tube runs from its port to the calibrator's pressure tap"
        } else {
            "the tube hangs from its port, and its end is open to the air"
        }
        .to_owned(),
    );
    said.push(shows(display.shows));
    said.extend(battery(display));
    sentences(&said)
}

/// Its display, for reading.
pub(super) fn display(view: &View) -> String {
    if let Some(away) = away(view) {
        return away;
    }
    let Some(display) = view.manometer.display else {
        return "This manometer has water in it, and no display: read its legs.".to_owned();
    };
    let mut said = vec![shows(display.shows)];
    if matches!(display.shows, Shown::Reading(_)) {
        let still =
            if view.manometer.moving { "the last digits are running" } else { "it is steady" };
        said.push(still.to_owned());
    }
    said.extend(battery(display));
    sentences(&said)
}

/// What it shows.
pub(super) fn shows(shown: Shown) -> String {
    match shown {
        Shown::Nothing => "the display is dark".to_owned(),
        Shown::SelfTest => "the display tests itself: all its segments are on".to_owned(),
        Shown::Reading(reading_in) => format!("the display shows {reading_in:.2} inches of water"),
        Shown::OverRange => "the display shows the over-range sign and no number".to_owned(),
    }
}

/// The low-battery sign, if it is on.
fn battery(display: DisplayView) -> Option<String> {
    display.battery_low.then(|| "the low-battery sign is on".to_owned())
}
