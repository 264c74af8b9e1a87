//! Patterns: words in a row, each `this|that` for a choice, `this?` when it may be left out, and
//! `<slot>` where a value is caught.

use super::catch::{Caught, Value};
use super::sentence::Sentence;
use super::{entries, numbers, slots};

/// How far any pattern got in the sentence.
#[derive(Debug, Default)]
pub(super) struct Trace {
    /// The first word that no pattern got past.
    pub furthest: usize,
}

/// Fits the whole sentence to a pattern.
pub(super) fn fit(pattern: &str, sentence: &Sentence, trace: &mut Trace) -> Option<Caught> {
    let pieces: Vec<&str> = pattern.split(' ').collect();
    let mut values = Vec::new();
    fit_from(&pieces, sentence, 0, &mut values, trace).then_some(Caught { values })
}

/// Fits the words from `at` on to the pieces, going back where a choice led nowhere.
fn fit_from(
    pieces: &[&str],
    sentence: &Sentence,
    at: usize,
    values: &mut Vec<Value>,
    trace: &mut Trace,
) -> bool {
    trace.furthest = trace.furthest.max(at);
    let Some((piece, rest)) = pieces.split_first() else { return at >= sentence.tokens.len() };
    if let Some(slot) = piece.strip_prefix('<').and_then(|piece| piece.strip_suffix('>')) {
        for (count, value) in catch(slot, sentence, at, rest.is_empty()) {
            values.push(value);
            if fit_from(rest, sentence, at + count, values, trace) {
                return true;
            }
            values.pop();
        }
        return false;
    }
    let (choices, optional) = match piece.strip_suffix('?') {
        Some(choices) => (choices, true),
        None => (*piece, false),
    };
    let here = sentence.word(at).is_some_and(|word| choices.split('|').any(|one| one == word));
    (here && fit_from(rest, sentence, at + 1, values, trace))
        || (optional && fit_from(rest, sentence, at, values, trace))
}

/// What a slot can catch at a place: how many words, and the value.
fn catch(slot: &str, sentence: &Sentence, at: usize, last: bool) -> Vec<(usize, Value)> {
    match slot {
        "text" => text(sentence, at, last),
        "reading" => numbers::reading(sentence, at),
        "reason" => reason(sentence, at),
        "entries" => {
            let found = entries::entries(sentence, at).map(Value::Entries);
            let count = sentence.tokens.len().saturating_sub(at);
            found.map(|entries| (count, entries)).into_iter().collect()
        }
        _ => {
            let mut found = slots::named(slot, sentence, at);
            found.extend(numbers::measured(slot, sentence, at));
            found
        }
    }
}

/// A reason at the end of a sentence: what follows `because` or one of its kin, or a comma, colon or
/// semicolon.
fn reason(sentence: &Sentence, at: usize) -> Vec<(usize, Value)> {
    let end = sentence.tokens.len();
    let link = |&&word: &&&str| sentence.word(at) == Some(word);
    let first = ["because", "since", "as", "for"].iter().find(link).map(|_| at + 1);
    let from = first.or_else(|| sentence.ends_clause(at.checked_sub(1)?).then_some(at));
    let text =
        from.map_or("", |from| sentence.between(from, end).trim_start_matches([',', ':', ' ']));
    let found = (!text.is_empty()).then(|| (end - at, Value::Text(text.to_owned())));
    found.into_iter().collect()
}

/// Free text as typed: the rest when it comes last, else as few words as will do.
fn text(sentence: &Sentence, at: usize, last: bool) -> Vec<(usize, Value)> {
    let end = sentence.tokens.len();
    let counts = if last { end.saturating_sub(at)..=end.saturating_sub(at) } else { 1..=end };
    counts
        .take_while(|count| at + count <= end)
        .map(|count| (count, sentence.between(at, at + count)))
        .filter(|(_, text)| !text.is_empty())
        .map(|(count, text)| (count, Value::Text(text.to_owned())))
        .collect()
}
