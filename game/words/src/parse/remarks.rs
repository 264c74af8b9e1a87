//! Reports: what was found, where, and what was done about it.

use sim_core::session::action::{
    Action, FaultKind, FaultPlace, FaultReport, Response, SuspectedCause,
};

use super::causes::{cause_name, causes, denied};
use super::form::{Built, Form, form, one};
use super::responses;
use super::sentence::{Sentence, unquoted};
use super::trouble::{Trouble, but};
use super::vocabulary::FAULT_PLACES;
use crate::names::Names;

pub(super) const FORMS: &[Form] = &[
    form(
        &["report not known yet at <fault-place> and? <response>"],
        &["report not known yet at the manometer, noted"],
        "something is wrong there, and you do not know what",
        |caught, _| {
            report(caught.fault_place()?, SuspectedCause::NotKnownYet, "", caught.response()?)
        },
    ),
    form(
        &["report not known yet at <fault-place> <text> and? <response>"],
        &["report not known yet at the manometer \"the legs are not level\" noted"],
        "with what you saw, in quotation marks",
        |caught, _| {
            let seen = quoted_text(&caught.text()?);
            report(caught.fault_place()?, SuspectedCause::NotKnownYet, &seen, caught.response()?)
        },
    ),
    form(
        &["report something else at <fault-place> <text> and? <response>"],
        &["report something else at the blower \"a nest in the exhaust\" noted"],
        "a cause of your own, in quotation marks; what you saw in a second pair",
        |caught, _| something_else(caught.fault_place()?, &caught.text()?, caught.response()?),
    ),
    form(
        &["report that? <text> and? <response>"],
        &["report tube cracked, rejected", "report pen sticks \"it jumps when I tap\" noted"],
        "what is wrong, what you saw, and what you did about it",
        |caught, _| natural(&caught.text()?, caught.response()?),
    ),
    form(&["report that? <text>"], &[], "", |caught, _| {
        let text = caught.text()?;
        match responses::cut(&text) {
            Some((what, response)) => natural(what, response),
            None => Err(Trouble::Misfit),
        }
    }),
    form(&["report <text>", "report"], &[], "", |_, _| {
        but(
            "say what is wrong and what you did about it, such as `report tube cracked, rejected`: \
             end with repaired, corrected, rejected or noted",
        )
    }),
];

/// What was seen, without quotation marks and the comma behind it.
fn quoted_text(text: &str) -> String {
    unquoted(text.trim_end_matches([',', ';', ' '])).to_owned()
}

/// A cause in the trainee's words, and what was seen in a second pair of quotation marks.
fn something_else(place: FaultPlace, text: &str, response: Response) -> Built {
    let text = text.trim_end_matches([',', ';', ' ']);
    let (cause, seen) = match text.strip_prefix('"').and_then(|rest| rest.split_once('"')) {
        Some((cause, seen)) => (cause, quoted_text(seen.trim_start_matches([',', ' ']))),
        None => (text, String::new()),
    };
    report(place, SuspectedCause::SomethingElse(cause.to_owned()), &seen, response)
}

/// A report in plain words: what is suspected is understood from the whole phrase.
fn natural(text: &str, response: Response) -> Built {
    let what = text.trim_start_matches([':', ' ']).trim_end_matches([',', ';', ':', ' ']);
    let (said, quoted) = match what.find('"') {
        Some(at) => what.split_at(at),
        None => (what, ""),
    };
    let sentence = Sentence::read(said);
    let place = place_of(&sentence);
    if let (true, Some(place)) = (is_unknown(&sentence), place) {
        return report(place, SuspectedCause::NotKnownYet, &quoted_text(quoted), response);
    }
    let found = match causes(&sentence, place) {
        none if none.is_empty() => causes(&sentence, None),
        some => some,
    };
    let seen = match quoted {
        "" => said.trim().to_owned(),
        quoted => quoted_text(quoted),
    };
    match (found.as_slice(), place) {
        ([kind], _) if denied(&sentence, *kind) => {
            let what = cause_name(*kind);
            but(format!(
                "say what is wrong, not what is right: `report {what}, noted`, if that is what you mean"
            ))
        }
        ([kind], _) => {
            let bare = quoted.is_empty() && seen == cause_name(*kind);
            let seen = if bare { "" } else { seen.as_str() };
            report(kind.place(), SuspectedCause::Known(*kind), seen, response)
        }
        ([], None) => {
            but("say where it is as well: name the gasket, nut, plate, valve, tube, pen or \
             instrument, such as `report tube cracked, rejected`")
        }
        ([], Some(place)) => but(which(place, &FaultKind::of_place(place).collect::<Vec<_>>())),
        (several, _) => {
            let place = several.first().map_or(FaultPlace::Manometer, |kind| kind.place());
            but(which(place, several))
        }
    }
}

/// Whether a phrase says that the cause is not known.
fn is_unknown(sentence: &Sentence) -> bool {
    let unknown =
        ["not known", "not know", "don't know", "unknown", "no idea", "not sure", "cause unclear"];
    let at = |phrase: &str| {
        (0..sentence.tokens.len()).any(|at| sentence.phrase_at(at, phrase).is_some())
    };
    unknown.into_iter().any(at)
}

/// Asks which of several causes is suspected.
fn which(place: FaultPlace, kinds: &[FaultKind]) -> String {
    let kinds: Vec<&str> = kinds.iter().map(|kind| cause_name(*kind)).collect();
    let place = place.words();
    format!(
        "say what you suspect at the {place}: {}; or `report not known yet at the {place}, noted`, \
         or `report something else at the {place} \"what it is\" noted`",
        kinds.join(", ")
    )
}

fn report(place: FaultPlace, cause: SuspectedCause, seen: &str, response: Response) -> Built {
    let seen = seen.to_owned();
    one(Action::Report(FaultReport { place, cause, seen, shown_by: Vec::new(), response }))
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
    // Not the tubing of the manometer.
    ("recorder tubing", FaultPlace::Recorder),
    ("recorder tube", FaultPlace::Recorder),
    ("recorder hose", FaultPlace::Recorder),
    ("recorder line", FaultPlace::Recorder),
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
