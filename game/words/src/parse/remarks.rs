//! Reports: what was found, where, and what was done about it.

use sim_core::session::action::{Action, FaultPlace, Remark, Response};

use super::catch::Caught;
use super::form::{Built, Form, form, one};
use super::sentence::{Sentence, unquoted};
use super::trouble::{Trouble, but};
use super::vocabulary::FAULT_PLACES;
use crate::names::Names;

pub(super) const FORMS: &[Form] = &[
    form(&["report <fault-place> <text> and? <response>"], &[], "", |caught, _| {
        match quoted(caught) {
            Some(what) => remark(caught.fault_place()?, what, caught.response()?),
            None => Err(Trouble::Misfit),
        }
    }),
    form(
        &["report that? <text> and? <response>"],
        &["report tube cracked, rejected"],
        "what is wrong, and what you did about it",
        |caught, _| natural(&caught.text()?, caught.response()?),
    ),
    form(&["report <text>", "report"], &[], "", |_, _| {
        but(
            "say what is wrong and what you did about it, such as `report tube cracked, rejected`: \
             end with repaired, corrected, rejected or noted",
        )
    }),
];

/// The text in quotation marks behind a place that was named.
fn quoted(caught: &Caught) -> Option<String> {
    let text = caught.text().ok()?;
    let what = text.trim_end_matches([',', ';', ' ']);
    let bare = unquoted(what);
    (bare.len() < what.len()).then(|| bare.to_owned())
}

/// A report in plain words: the place is understood from the whole phrase.
fn natural(text: &str, response: Response) -> Built {
    let what = text.trim_start_matches([':', ' ']).trim_end_matches([',', ';', ':', ' ']);
    let sentence = Sentence::read(what);
    let Some(place) = place_of(&sentence) else {
        return but("say where it is as well: name the gasket, nut, plate, valve, tube, pen or \
             instrument, such as `report tube cracked, rejected`");
    };
    // A place that only heads the phrase is not said twice; a part of it stays.
    let named = FAULT_PLACES
        .iter()
        .filter(|&&(_, named)| named == place)
        .filter_map(|&(name, _)| sentence.phrase_at(0, name))
        .max();
    match named {
        Some(count) if count >= sentence.tokens.len() => {
            but("say what is wrong there, such as `report tube cracked, rejected`")
        }
        Some(count) => remark(place, sentence.between(count, usize::MAX).to_owned(), response),
        None => remark(place, what.to_owned(), response),
    }
}

fn remark(place: FaultPlace, what: String, response: Response) -> Built {
    one(Action::Report(Remark { place, what, response }))
}

/// Where the thing is that a phrase speaks of.
///
/// `calibrator gasket` speaks of the gasket: of several things in a row the last one counts. A leak
/// under or beside something is in the joint, and not in the thing.
fn place_of(sentence: &Sentence) -> Option<FaultPlace> {
    let named = (0..sentence.tokens.len()).find_map(|at| Some((at, thing(sentence, at)?)));
    let place = match named {
        Some((mut at, (mut count, mut place))) => {
            while let Some((more, next)) = thing(sentence, at + count) {
                at += count;
                (count, place) = (more, next);
            }
            Some(place)
        }
        None => (0..sentence.tokens.len()).find_map(|at| longest(SIGNS, sentence, at)).map(|s| s.1),
    };
    let word = |wanted: &[&str]| {
        sentence.tokens.iter().any(|token| wanted.iter().any(|one| token.word.starts_with(one)))
    };
    let tight =
        matches!(place, Some(FaultPlace::Manometer | FaultPlace::Tube | FaultPlace::Recorder));
    let joint = word(&["leak", "hiss"]) && word(&["under", "below", "beside", "between", "along"]);
    if joint && !tight { Some(FaultPlace::Mounting) } else { place }
}

/// The thing named at a place of the sentence: how many words, and where it belongs.
fn thing(sentence: &Sentence, at: usize) -> Option<(usize, FaultPlace)> {
    let (one, other) = (longest(THINGS, sentence, at), longest(FAULT_PLACES, sentence, at));
    one.into_iter().chain(other).max_by_key(|&(count, _)| count)
}

/// The longest name at a place of the sentence.
fn longest(
    names: Names<FaultPlace>,
    sentence: &Sentence,
    at: usize,
) -> Option<(usize, FaultPlace)> {
    let found = names.iter().filter_map(|&(name, it)| Some((sentence.phrase_at(at, name)?, it)));
    found.max_by_key(|&(count, _)| count)
}

/// Parts of the places that a report may name.
const THINGS: Names<FaultPlace> = &[
    ("gasket", FaultPlace::Mounting),
    ("gaskets", FaultPlace::Mounting),
    ("seal", FaultPlace::Mounting),
    ("nut", FaultPlace::Mounting),
    ("nuts", FaultPlace::Mounting),
    ("washer", FaultPlace::Mounting),
    ("washers", FaultPlace::Mounting),
    ("bolt", FaultPlace::Mounting),
    ("plate", FaultPlace::Mounting),
    ("adapter", FaultPlace::Mounting),
    ("adapter plate", FaultPlace::Mounting),
    ("frame", FaultPlace::Mounting),
    ("hold-down frame", FaultPlace::Mounting),
    ("filter frame", FaultPlace::Mounting),
    ("filter holder", FaultPlace::Mounting),
    ("lid", FaultPlace::Mounting),
    ("pen", FaultPlace::Recorder),
    ("chart", FaultPlace::Recorder),
    ("door", FaultPlace::Recorder),
    ("trace", FaultPlace::Recorder),
    ("valve", FaultPlace::Manometer),
    ("valves", FaultPlace::Manometer),
    ("bubble", FaultPlace::Manometer),
    ("scale", FaultPlace::Manometer),
    ("fluid", FaultPlace::Manometer),
    ("leg", FaultPlace::Manometer),
    ("legs", FaultPlace::Manometer),
    ("limb", FaultPlace::Manometer),
    ("limbs", FaultPlace::Manometer),
    ("hook", FaultPlace::Manometer),
    ("u-tube", FaultPlace::Manometer),
    ("hose", FaultPlace::Tube),
    ("pressure tap", FaultPlace::Tube),
    ("tap", FaultPlace::Tube),
    ("orifice", FaultPlace::Calibrator),
    ("knob", FaultPlace::Calibrator),
    ("certificates", FaultPlace::Certificate),
    ("paper", FaultPlace::Certificate),
    ("serial", FaultPlace::Certificate),
    ("brushes", FaultPlace::Blower),
    ("bearings", FaultPlace::Blower),
    ("mains", FaultPlace::Blower),
    ("elapsed-time meter", FaultPlace::Timer),
    ("meter", FaultPlace::Timer),
    ("exhaust orifice", FaultPlace::Recorder),
    ("exit orifice", FaultPlace::Recorder),
    ("trim", FaultPlace::FlowController),
    ("wind", FaultPlace::Weather),
    ("gusts", FaultPlace::Weather),
    ("thunder", FaultPlace::Weather),
    ("sky", FaultPlace::Weather),
];

/// Words that hint at a place when none is named.
const SIGNS: Names<FaultPlace> = &[
    ("plumb", FaultPlace::Manometer),
    ("water", FaultPlace::Manometer),
    ("kink", FaultPlace::Tube),
    ("kinked", FaultPlace::Tube),
    ("gusty", FaultPlace::Weather),
    ("windy", FaultPlace::Weather),
    ("sea level", FaultPlace::Barometer),
    ("sun", FaultPlace::Thermometer),
    ("expired", FaultPlace::Certificate),
    ("whine", FaultPlace::Blower),
    ("voltage", FaultPlace::Blower),
    ("clock", FaultPlace::Recorder),
    ("leak", FaultPlace::Mounting),
    ("hiss", FaultPlace::Mounting),
];
