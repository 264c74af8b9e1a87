//! Shelter, holder, nuts, and what lies where.

use sim_core::rig::parts::{Gasket, PartPlace, RigPart, Stopper};
use sim_core::session::action::WasherSeat;
use sim_core::session::view::{NutFeel, View};

use super::scale::quarters;
use crate::names::name;
use crate::parse::vocabulary::PARTS;
use crate::prose::{list, sentence, sentences};

/// The holder with its nuts, washers and gaskets.
pub(super) fn holder(view: &View) -> String {
    let seen = &view.mounting;
    let mut said = vec![lid(seen.lid_open).to_owned(), on_holder(view)];
    for (gasket, place) in
        [(seen.holder_gasket, "on the holder"), (seen.calibrator_gasket, "under the calibrator")]
    {
        match gasket {
            Some(true) => said.push(format!("there is a gasket {place}")),
            Some(false) => said.push(format!("there is no gasket {place}")),
            None => {}
        }
    }
    match seen.flat_gasket {
        Some(Gasket::Holder) => said.push("the gasket on the holder is flat and hard".to_owned()),
        Some(Gasket::Calibrator) => {
            said.push("the gasket under the calibrator is flat and hard".to_owned());
        }
        None => {}
    }
    said.extend(inlet(view));
    if view.mounting.place(RigPart::Calibrator) == PartPlace::Case {
        said.push("the gasket under the calibrator is out of sight in its case".to_owned());
    }
    for at in 0..seen.nuts.len() {
        said.push(nut(view, at));
    }
    sentences(&said)
}

/// The filter.
pub(super) fn filter(view: &View) -> String {
    let place = view.mounting.place(RigPart::Filter);
    sentence(&format!("the filter {}", part_lies(RigPart::Filter, place)))
}

/// How the lid stands.
pub(super) const fn lid(open: bool) -> &'static str {
    if open { "the lid is open" } else { "the lid is closed" }
}

/// A nut: its feel, height and washer. `at` counts from 0.
pub(super) fn nut(view: &View, at: usize) -> String {
    let Some(nut) = view.mounting.nuts.get(at) else { return String::new() };
    let washer = match nut.washer {
        WasherSeat::Above => "with its washer above the plate",
        WasherSeat::Below => "with its washer below the plate",
    };
    let stands = match nut.quarter_turns {
        0 => String::new(),
        count => format!(", {} on", quarters(count)),
    };
    format!("nut {} {}{stands}, {washer}", at + 1, feel(nut.feel))
}

/// How a nut feels.
pub(super) const fn feel(feel: NutFeel) -> &'static str {
    match feel {
        NutFeel::Off => "is off and its bolt is swung aside",
        NutFeel::Free => "turns freely",
        NutFeel::Snug => "is hand-tight",
        NutFeel::Hard => "is very tight",
    }
}

/// Where a part is: a filter goes into an envelope and no case.
pub(super) const fn part_lies(part: RigPart, place: PartPlace) -> &'static str {
    match (part, place) {
        (RigPart::Filter, PartPlace::Case) => "is in its envelope",
        (_, place) => lies(place),
    }
}

/// Where something is.
pub(super) const fn lies(place: PartPlace) -> &'static str {
    match place {
        PartPlace::Case => "is in its case",
        PartPlace::Ground => "is on the roof beside the stand",
        PartPlace::Hand => "is in your hand",
        PartPlace::Holder => "is on the filter holder",
        PartPlace::Adapter => "is on the adapter plate",
        PartPlace::Hook => "hangs on its hook",
    }
}

/// What lies on the holder and on the adapter plate.
pub(super) fn on_holder(view: &View) -> String {
    let on = |place| -> Vec<String> {
        RigPart::ALL
            .into_iter()
            .filter(|&part| view.mounting.place(part) == place)
            .map(|part| format!("the {}", name(PARTS, &part)))
            .collect()
    };
    let (holder, adapter) = (on(PartPlace::Holder), on(PartPlace::Adapter));
    let mut said = match holder.as_slice() {
        [] => "the holder is empty".to_owned(),
        _ => format!("on the holder: {}", list(&holder)),
    };
    if !adapter.is_empty() {
        said.push_str(&format!("; on the adapter plate: {}", list(&adapter)));
    }
    said
}

/// What else lies about: the case, the roof, the hand, the hook.
pub(super) fn elsewhere(view: &View) -> Vec<String> {
    let elsewhere = |place: &PartPlace| !matches!(place, PartPlace::Holder | PartPlace::Adapter);
    RigPart::ALL
        .into_iter()
        .map(|part| (part, view.mounting.place(part)))
        .filter(|(_, place)| elsewhere(place))
        .map(|(part, place)| format!("the {} {}", name(PARTS, &part), part_lies(part, place)))
        .collect()
}

/// What lies in the gap under the lid.
pub(super) fn inlet(view: &View) -> Option<String> {
    view.mounting.inlet.map(|by| format!("{} in the gap under the lid", stops(by)))
}

/// What lies in the exhaust.
pub(super) fn exhaust(view: &View) -> Option<String> {
    view.mounting.exhaust.map(|by| format!("{} in the exhaust", stops(by)))
}

const fn stops(by: Stopper) -> &'static str {
    match by {
        Stopper::Nest => "a nest is",
        Stopper::Snow => "snow is packed",
    }
}
