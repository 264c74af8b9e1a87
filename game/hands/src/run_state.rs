//! The state of what belongs to a run: dial, trippers, filter, kept chart, weather sheet. Nothing here
//! gives away what has to be read from a scale.

use sim_core::rig::parts::{FilterSide, Grip, Seat, Trip};
use sim_core::session::view::View;
use sim_core::session::view::run::{Holes, RunView, TripperView};

use crate::spot::Spot;

/// The state of dial, tripper, kept chart or weather sheet, without what has to be read from a scale.
pub(super) fn state(view: &View, spot: Spot) -> String {
    let Some(run) = &view.run else { return "no run is ordered".to_owned() };
    match spot {
        Spot::Dial => "its pointer shows the day and the hour".to_owned(),
        Spot::Tripper(trip) => match tripper(run, trip).loose {
            Some(true) => "it moves when it is pushed".to_owned(),
            Some(false) => "its screw is tight".to_owned(),
            None => "on the rim of the dial".to_owned(),
        },
        Spot::KeptChart => "taken off the recorder and held down by a stone".to_owned(),
        _ if run.weather.is_empty() => "the logger has printed nothing yet".to_owned(),
        _ => "printed hour by hour".to_owned(),
    }
}

/// How the filter lies and is held, and what was seen of it.
pub(super) fn filter_state(run: &RunView, place: &str) -> String {
    let seen = &run.filter;
    let mut said = vec![match seen.grip {
        Some(Grip::Edges) => format!("{place}, held by two edges"),
        Some(Grip::Face) => format!("{place}, held with a thumb on its face"),
        None => place.to_owned(),
    }];
    match seen.folded_out {
        Some(out) => said.push(format!("folded, its {} side out", side(out))),
        None => said.push(format!("{} side up", side(seen.up))),
    }
    said.extend(match seen.holes {
        Some(Holes::Sound) => Some("no light comes through".to_owned()),
        Some(Holes::Pinholes) => Some("points of light come through".to_owned()),
        Some(Holes::Tear) => Some("it is torn".to_owned()),
        None => None,
    });
    said.extend(match seen.seat {
        Some(Seat::Centred) => Some("its margins are even".to_owned()),
        Some(Seat::Shifted) => Some("one margin is uncovered".to_owned()),
        None => None,
    });
    if seen.damp {
        said.push("it feels damp".to_owned());
    }
    match run.fresh_filters {
        0 => {}
        1 => said.push("1 fresh filter in the folder".to_owned()),
        fresh => said.push(format!("{fresh} fresh filters in the folder")),
    }
    said.join(", ")
}

const fn side(side: FilterSide) -> &'static str {
    match side {
        FilterSide::Rough => "rough",
        FilterSide::Smooth => "smooth",
    }
}

/// One of the two trippers.
pub(super) const fn tripper(run: &RunView, trip: Trip) -> TripperView {
    match trip {
        Trip::On => run.timer.on,
        Trip::Off => run.timer.off,
    }
}
