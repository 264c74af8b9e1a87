//! What is carried: taking it, and the places where it can be put.

use sim_core::rig::parts::{PartPlace, RigPart};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use super::offer::Offers;
use super::run;
use super::spot::Spot;

/// What you can do to the frame, the filter, the adapter plate, and the two places where you can put
/// anything down.
pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    if let Some(part) = part_of(spot) {
        put_here(view, spot, list);
        part_offers(view, part, list);
        if part == RigPart::Filter {
            run::handle_filter(view, list);
        }
        return;
    }
    put_here(view, spot, list);
    let place = if spot == Spot::Case { PartPlace::Case } else { PartPlace::Ground };
    if view.hand.is_none() {
        for part in RigPart::ALL.into_iter().filter(|&part| view.mounting.place(part) == place) {
            take(view, part, list);
        }
    }
    list.look("look over the station", Sight::Station);
}

/// Taking a part, or putting it where it belongs if it is in your hand.
pub(super) fn part_offers(view: &View, part: RigPart, list: &mut Offers) {
    match view.hand {
        Some(held) if held == part => {
            // Taking it has the first number, or the first two.
            let first = if part == RigPart::Filter && view.run.is_some() { 3 } else { 2 };
            for place in allowed(view) {
                let number = match place {
                    PartPlace::Case => first + 1,
                    PartPlace::Ground => first + 2,
                    _ => first,
                };
                list.act_as(number, put_words(part, place), Action::Put { place });
            }
        }
        _ => take(view, part, list),
    }
}

/// Taking a part. With a filter that is weighed, it matters how it is held.
fn take(view: &View, part: RigPart, list: &mut Offers) {
    if part == RigPart::Filter && view.run.is_some() {
        run::take_filter(view, list);
    } else {
        list.act(format!("take the {}", part_name(part)), Action::Take { part });
    }
}

/// Putting what is in your hand at the place that a spot represents.
pub(super) fn put_here(view: &View, spot: Spot, list: &mut Offers) {
    let Some(part) = view.hand else { return };
    for place in allowed(view) {
        if spot_of_place(place) == Some(spot) {
            list.act(put_words(part, place), Action::Put { place });
        }
    }
}

/// Where you can put the part that is in your hand now, the likeliest place first. Everything is
/// allowed that would be possible in reality, right or wrong.
pub fn allowed(view: &View) -> Vec<PartPlace> {
    let Some(part) = view.hand else { return Vec::new() };
    let at = |part, place| view.mounting.place(part) == place;
    let free = view.mounting.lid_open
        && !at(RigPart::Frame, PartPlace::Holder)
        && !at(RigPart::Adapter, PartPlace::Holder);
    let first = match part {
        RigPart::Frame | RigPart::Filter | RigPart::Adapter => free.then_some(PartPlace::Holder),
        RigPart::Calibrator => {
            at(RigPart::Adapter, PartPlace::Holder).then_some(PartPlace::Adapter)
        }
        RigPart::Manometer => Some(PartPlace::Hook),
    };
    first.into_iter().chain([PartPlace::Case, PartPlace::Ground]).collect()
}

/// The spot that represents a place.
pub const fn spot_of_place(place: PartPlace) -> Option<Spot> {
    match place {
        PartPlace::Case => Some(Spot::Case),
        PartPlace::Ground => Some(Spot::Ground),
        PartPlace::Hand => None,
        PartPlace::Holder => Some(Spot::Holder),
        PartPlace::Adapter => Some(Spot::Adapter),
        PartPlace::Hook => Some(Spot::Manometer),
    }
}

/// The part that a spot represents, if it can be carried.
pub const fn part_of(spot: Spot) -> Option<RigPart> {
    match spot {
        Spot::Frame => Some(RigPart::Frame),
        Spot::Filter => Some(RigPart::Filter),
        Spot::Adapter => Some(RigPart::Adapter),
        Spot::Calibrator => Some(RigPart::Calibrator),
        Spot::Manometer => Some(RigPart::Manometer),
        _ => None,
    }
}

/// A part's name.
pub const fn part_name(part: RigPart) -> &'static str {
    match part {
        RigPart::Frame => "hold-down frame",
        RigPart::Filter => "filter",
        RigPart::Adapter => "adapter plate",
        RigPart::Calibrator => "calibrator",
        RigPart::Manometer => "manometer",
    }
}

/// Putting a part somewhere, in words.
fn put_words(part: RigPart, place: PartPlace) -> String {
    let part_name = part_name(part);
    match place {
        PartPlace::Case if part == RigPart::Filter => {
            format!("put the {part_name} into its envelope")
        }
        PartPlace::Case => format!("put the {part_name} into the case"),
        PartPlace::Ground => format!("lay the {part_name} on the roof"),
        PartPlace::Hand => format!("keep the {part_name} in your hand"),
        PartPlace::Holder => format!("put the {part_name} on the filter holder"),
        PartPlace::Adapter => format!("put the {part_name} on the adapter plate"),
        PartPlace::Hook => format!("hang the {part_name} on its hook"),
    }
}
