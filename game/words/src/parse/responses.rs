//! What was done about a fault, as people say it at the end of a report.

use sim_core::session::action::Response;

use super::sentence::Sentence;
use crate::names::Names;

/// The longest end of a report that is taken for a response, words.
const LONGEST: usize = 9;

/// A report cut into what is wrong and what was done about it. The last comma, semicolon, full stop or
/// `and` before words of one response is where it is cut. `None` where no end says a response, or one
/// says two.
pub(super) fn cut(text: &str) -> Option<(&str, Response)> {
    let joints = text.char_indices().filter_map(|(at, c)| match c {
        ',' | ';' | ':' | '.' => Some((at, at + 1)),
        ' ' => {
            let and = ["and ", "but ", "so "];
            let rest = text.get(at + 1..)?;
            and.iter().find(|and| rest.starts_with(**and)).map(|and| (at, at + 1 + and.len()))
        }
        _ => None,
    });
    let ends: Vec<(usize, usize)> = joints.collect();
    ends.into_iter().rev().find_map(|(cut, from)| {
        let (what, tail) = (text.get(..cut)?.trim(), text.get(from..)?);
        let response = response(&Sentence::read(tail))?;
        (!what.is_empty()).then_some((what, response))
    })
}

/// The one response that a few words say.
fn response(tail: &Sentence) -> Option<Response> {
    if tail.tokens.is_empty() || tail.tokens.len() > LONGEST {
        return None;
    }
    let places = 0..tail.tokens.len();
    let of = |names: Names<Response>| {
        places
            .clone()
            .flat_map(|at| names.iter().filter(move |(name, _)| tail.phrase_at(at, name).is_some()))
            .map(|&(_, response)| response)
            .collect::<Vec<_>>()
    };
    // `not used` says more than the words in it.
    let plain = of(SAID);
    let said = if of(DENIED).is_empty() { plain } else { of(DENIED) };
    match said.split_first() {
        Some((first, rest)) if rest.iter().all(|other| other == first) => Some(*first),
        _ => None,
    }
}

/// Responses that say what is not done.
const DENIED: Names<Response> = &[
    ("not used", Response::Rejected),
    ("not using", Response::Rejected),
    ("not use", Response::Rejected),
    ("not be used", Response::Rejected),
    ("don't use", Response::Rejected),
    ("won't use", Response::Rejected),
    ("never used", Response::Rejected),
    ("cannot be used", Response::Rejected),
    ("cannot be repaired here", Response::Noted),
    ("nothing done", Response::Noted),
    ("did nothing", Response::Noted),
    ("left as it is", Response::Noted),
    ("left it as it is", Response::Noted),
];

/// Responses in other words than the four that the help names.
const SAID: Names<Response> = &[
    ("repaired", Response::Repaired),
    ("mended", Response::Repaired),
    ("fixed", Response::Repaired),
    ("put right", Response::Repaired),
    ("set right", Response::Repaired),
    ("set it right", Response::Repaired),
    ("set upright", Response::Repaired),
    ("hung upright", Response::Repaired),
    ("put it right", Response::Repaired),
    ("replaced", Response::Repaired),
    ("changed it", Response::Repaired),
    ("fitted", Response::Repaired),
    ("refitted", Response::Repaired),
    ("straightened", Response::Repaired),
    ("shaken out", Response::Repaired),
    ("shook it out", Response::Repaired),
    ("shook out", Response::Repaired),
    ("drained", Response::Repaired),
    ("emptied", Response::Repaired),
    ("tightened", Response::Repaired),
    ("reset", Response::Repaired),
    ("set back", Response::Repaired),
    ("set it back", Response::Repaired),
    ("set it to", Response::Repaired),
    ("moved", Response::Repaired),
    ("cleaned", Response::Repaired),
    ("pushed", Response::Repaired),
    ("put back", Response::Repaired),
    ("put it back", Response::Repaired),
    ("put on top", Response::Repaired),
    ("put above", Response::Repaired),
    ("put it above", Response::Repaired),
    ("swung", Response::Repaired),
    ("levelled", Response::Repaired),
    ("centred", Response::Repaired),
    ("centered", Response::Repaired),
    ("turned over", Response::Repaired),
    ("turned it over", Response::Repaired),
    ("corrected", Response::Corrected),
    ("allowed for", Response::Corrected),
    ("allow for", Response::Corrected),
    ("correct for", Response::Corrected),
    ("taken into account", Response::Corrected),
    ("rejected", Response::Rejected),
    ("set aside", Response::Rejected),
    ("put aside", Response::Rejected),
    ("taken out service", Response::Rejected),
    ("unusable", Response::Rejected),
    ("discarded", Response::Rejected),
    ("noted", Response::Noted),
    ("written down", Response::Noted),
    ("wrote it down", Response::Noted),
    ("made note", Response::Noted),
    ("left it", Response::Noted),
];
