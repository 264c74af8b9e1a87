//! What is carried: taking it, and the places where it can be put.

use sim_core::rig::parts::{Part, Place};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use super::offer::Offers;
use super::run;
use super::spot::Spot;

/// Frame, filter, adapter plate, and the two places where anything can be laid down.
pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    if let Some(part) = part_of(spot) {
        put_here(view, spot, list);
        part_offers(view, part, list);
        if part == Part::Filter {
            run::handle_filter(view, list);
        }
        return;
    }
    put_here(view, spot, list);
    let place = if spot == Spot::Case { Place::Case } else { Place::Ground };
    if view.hand.is_none() {
        for part in Part::ALL.into_iter().filter(|&part| view.mounting.place(part) == place) {
            take(view, part, list);
        }
    }
    list.look("look over the station", Sight::Station);
}

/// Taking a part, or putting it where it goes when it is in the hand.
pub(super) fn part_offers(view: &View, part: Part, list: &mut Offers) {
    match view.hand {
        Some(held) if held == part => {
            for place in allowed(view) {
                list.act(put_words(part, place), Action::Put { place });
            }
        }
        _ => take(view, part, list),
    }
}

/// Taking a part. A filter that is weighed is taken by its edges or not.
fn take(view: &View, part: Part, list: &mut Offers) {
    if part == Part::Filter && view.run.is_some() {
        run::take_filter(view, list);
    } else {
        list.act(format!("take the {}", part_name(part)), Action::Take { part });
    }
}

/// Putting what is in the hand at the place that a spot stands for.
pub(super) fn put_here(view: &View, spot: Spot, list: &mut Offers) {
    let Some(part) = view.hand else { return };
    for place in allowed(view) {
        if spot_of_place(place) == Some(spot) {
            list.act(put_words(part, place), Action::Put { place });
        }
    }
}

/// Where the part in the hand can be put as things stand, the likeliest first. What is allowed is
/// what reality allows, right or wrong.
pub fn allowed(view: &View) -> Vec<Place> {
    let Some(part) = view.hand else { return Vec::new() };
    let at = |part, place| view.mounting.place(part) == place;
    let free = view.mounting.lid_open
        && !at(Part::Frame, Place::Holder)
        && !at(Part::Adapter, Place::Holder);
    let first = match part {
        Part::Frame | Part::Filter | Part::Adapter => free.then_some(Place::Holder),
        Part::Calibrator => at(Part::Adapter, Place::Holder).then_some(Place::Adapter),
        Part::Manometer => Some(Place::Hook),
    };
    first.into_iter().chain([Place::Case, Place::Ground]).collect()
}

/// The spot that stands for a place.
pub const fn spot_of_place(place: Place) -> Option<Spot> {
    match place {
        Place::Case => Some(Spot::Case),
        Place::Ground => Some(Spot::Ground),
        Place::Hand => None,
        Place::Holder => Some(Spot::Holder),
        Place::Adapter => Some(Spot::Adapter),
        Place::Hook => Some(Spot::Manometer),
    }
}

/// The part that a spot is, if it is one that is carried.
pub const fn part_of(spot: Spot) -> Option<Part> {
    match spot {
        Spot::Frame => Some(Part::Frame),
        Spot::Filter => Some(Part::Filter),
        Spot::Adapter => Some(Part::Adapter),
        Spot::Calibrator => Some(Part::Calibrator),
        Spot::Manometer => Some(Part::Manometer),
        _ => None,
    }
}

/// A part's name.
pub(super) const fn part_name(part: Part) -> &'static str {
    match part {
        Part::Frame => "filter frame",
        Part::Filter => "filter",
        Part::Adapter => "adapter plate",
        Part::Calibrator => "calibrator",
        Part::Manometer => "manometer",
    }
}

/// Putting a part somewhere, in words.
fn put_words(part: Part, place: Place) -> String {
    let part_name = part_name(part);
    match place {
        Place::Case if part == Part::Filter => format!("put the {part_name} into its envelope"),
        Place::Case => format!("put the {part_name} into the case"),
        Place::Ground => format!("lay the {part_name} on the roof"),
        Place::Hand => format!("keep the {part_name} in the hand"),
        Place::Holder => format!("put the {part_name} on the filter holder"),
        Place::Adapter => format!("put the {part_name} on the adapter plate"),
        Place::Hook => format!("hang the {part_name} on its hook"),
    }
}
