//! What people say around and between sentences: words that change nothing (`now gently tap it
//! again`), and several sentences in one (`take the filter out and put it in its case`).

use sim_core::session::action::Action;

use super::as_said::as_said;
use super::form::Known;
use super::sentence::Sentence;
use crate::request::Request;

/// The longest sentence that is taken apart, characters.
const LONGEST: usize = 240;
/// Sentences in one, at most.
const MOST: usize = 5;

/// Words that say how or how often, and nothing that the bench could do otherwise.
const FILLERS: [&str; 20] = [
    "gently",
    "lightly",
    "softly",
    "carefully",
    "slowly",
    "firmly",
    "again",
    "now",
    "then",
    "also",
    "just",
    "once",
    "more",
    "another",
    "full",
    "its",
    "his",
    "some",
    "properly",
    "quickly",
];
/// Beginnings that ask for nothing themselves, the longer first.
const BEGINNINGS: [&str; 24] = [
    "i am going to",
    "i would like to",
    "i want to",
    "i have to",
    "i will now",
    "now i will",
    "i'd like to",
    "i'm going to",
    "we will",
    "i will",
    "i'll",
    "we'll",
    "let us",
    "let's",
    "let me",
    "can you",
    "could you",
    "you can",
    "ok",
    "okay",
    "so",
    "next",
    "and",
    "i",
];

/// A sentence read with all that taken into account. `None` where it asks for nothing even so.
pub(super) fn read(said: &str, known: &Known) -> Option<Request> {
    one(said, known).or_else(|| several(said, known))
}

/// One sentence, without what is said around it.
fn one(said: &str, known: &Known) -> Option<Request> {
    let mut sentence = Sentence::read(said);
    let begins = BEGINNINGS.iter().find_map(|words| sentence.phrase_at(0, words));
    if let Some(count) = begins.filter(|count| *count > 0) {
        sentence.tokens.drain(..count);
        if let Ok(request) = as_said(sentence.clone(), known) {
            return Some(request);
        }
    }
    sentence.tokens.retain(|token| !FILLERS.contains(&token.word.as_str()));
    as_said(sentence, known).ok()
}

/// Several sentences in one, cut at `and`, `then` and punctuation. Each must ask for something that can be
/// done; a part without a verb takes that of the part before it.
fn several(said: &str, known: &Known) -> Option<Request> {
    if said.chars().nth(LONGEST).is_some() || said.contains('"') {
        return None;
    }
    let mut actions = Vec::new();
    rest(said, None, MOST, known, &mut actions).then_some(Request::Do(actions))
}

/// Reads what is left of a sentence; `verb` is that of the part before.
fn rest(
    said: &str,
    verb: Option<&str>,
    most: usize,
    known: &Known,
    actions: &mut Vec<Action>,
) -> bool {
    let Some(fewer) = most.checked_sub(1) else { return false };
    if most < MOST
        && let Some(found) = part(said, verb, known)
    {
        actions.extend(found);
        return true;
    }
    for (to, from) in joints(said) {
        let (Some(first), Some(behind)) = (said.get(..to), said.get(from..)) else { continue };
        let Some(found) = part(first, verb, known) else { continue };
        let before = actions.len();
        actions.extend(found);
        let said_first = Sentence::read(first).word(0).map(str::to_owned);
        if rest(behind, said_first.as_deref(), fewer, known, actions) {
            return true;
        }
        actions.truncate(before);
    }
    false
}

/// The actions of one part.
fn part(said: &str, verb: Option<&str>, known: &Known) -> Option<Vec<Action>> {
    let plain = |said: &str| {
        as_said(Sentence::read(said), known).ok().or_else(|| one(said, known)).and_then(doing)
    };
    plain(said).or_else(|| plain(&format!("{} {said}", verb?)))
}

/// The actions of a request that only does something.
fn doing(request: Request) -> Option<Vec<Action>> {
    match request {
        Request::Do(actions) => Some(actions),
        Request::Wait(seconds) => Some(vec![Action::Wait { seconds }]),
        _ => None,
    }
}

/// Where a sentence can be cut: where the first part ends and where the second begins, bytes.
fn joints(said: &str) -> Vec<(usize, usize)> {
    const WORDS: [&str; 3] = [" and then ", " and ", " then "];
    let marks = said.match_indices([',', ';', '.']).map(|(at, mark)| (at, at + mark.len()));
    let words = WORDS
        .iter()
        .flat_map(|word| said.match_indices(word).map(|(at, word)| (at, at + word.len())));
    let mut found: Vec<(usize, usize)> = marks.chain(words).collect();
    found.sort_unstable();
    found.truncate(2 * MOST);
    found
}
