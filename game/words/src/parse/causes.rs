//! What can be wrong, as people say it.

use sim_core::session::action::{FaultKind, FaultPlace};

use super::causes_measuring::MEASURING;
use super::causes_sampling::SAMPLING;
use super::causes_upkeep::UPKEEP;
use super::sentence::Sentence;
use crate::names::Names;

/// What a phrase says is wrong: the longest name of which every word is in it, in any order. A place
/// that is known leaves out what cannot be wrong there. Empty where nothing fits, several where the
/// phrase does not say which.
pub(super) fn causes(sentence: &Sentence, place: Option<FaultPlace>) -> Vec<FaultKind> {
    let fits = named().filter(|(_, kind)| place.is_none_or(|place| kind.place() == place)).filter(
        |(name, _)| Sentence::read(name).tokens.iter().all(|token| has(sentence, &token.word)),
    );
    let mut best: (usize, Vec<FaultKind>) = (0, Vec::new());
    for (name, kind) in fits {
        let words = Sentence::read(name).tokens.len();
        if words > best.0 {
            best = (words, Vec::new());
        }
        if words == best.0 && !best.1.contains(&kind) {
            best.1.push(kind);
        }
    }
    best.1
}

/// Words that turn what follows into its opposite.
const DENIALS: [&str; 9] =
    ["not", "no", "never", "without", "isn't", "doesn't", "aren't", "neither", "nor"];

/// Whether a phrase denies what it names: a denial stands among the words of its name or right before
/// them, and is not part of the name itself.
pub(super) fn denied(sentence: &Sentence, kind: FaultKind) -> bool {
    let names = named().filter(|(_, named)| *named == kind);
    let words = names
        .map(|(name, _)| Sentence::read(name).tokens)
        .filter(|words| words.iter().all(|token| has(sentence, &token.word)))
        .max_by_key(Vec::len)
        .unwrap_or_default();
    let is_denial = |word: &str| DENIALS.contains(&word);
    if words.iter().any(|token| is_denial(&token.word)) {
        return false;
    }
    let at = |token: &super::sentence::Token| {
        sentence.tokens.iter().position(|said| same(&said.word, &token.word))
    };
    let places: Vec<usize> = words.iter().filter_map(at).collect();
    let (Some(first), Some(last)) = (places.iter().min(), places.iter().max()) else {
        return false;
    };
    let said = sentence.tokens.iter().enumerate();
    said.filter(|(at, _)| at + 2 >= *first && at <= last).any(|(_, token)| is_denial(&token.word))
}

/// Whether a word is in the sentence, in one of its forms.
fn has(sentence: &Sentence, word: &str) -> bool {
    sentence.tokens.iter().any(|token| same(&token.word, word))
}

/// Whether two words are one, but for a plural or the ending of a verb.
fn same(said: &str, word: &str) -> bool {
    let stem = |word: &str| word.strip_suffix('s').unwrap_or(word).to_owned();
    said == word || stem(said) == stem(word)
}

/// Every name and what it names: those that people use, and the title of each cause that has none of
/// them.
fn named() -> impl Iterator<Item = (&'static str, FaultKind)> {
    MEASURING
        .iter()
        .chain(SAMPLING)
        .chain(UPKEEP)
        .copied()
        .chain(by_title(&[MEASURING, SAMPLING, UPKEEP]))
}

/// The titles of the causes that have no name in these tables.
fn by_title(
    tables: &'static [Names<FaultKind>],
) -> impl Iterator<Item = (&'static str, FaultKind)> {
    let has_name = |kind| tables.iter().any(|table| table.iter().any(|(_, named)| *named == kind));
    let without = FaultKind::ALL.iter().filter(move |kind| !has_name(**kind));
    without.map(|kind| (bare(kind.sheet().title), *kind))
}

/// A title without its article.
fn bare(title: &str) -> &str {
    ["a ", "an ", "the "].iter().find_map(|article| title.strip_prefix(article)).unwrap_or(title)
}

/// The name by which a cause is said.
pub(crate) fn cause_name(kind: FaultKind) -> &'static str {
    named().find(|(_, named)| *named == kind).map_or("it", |(name, _)| name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cause_without_a_name_is_named_by_its_title() {
        let titles: Vec<_> = by_title(&[]).collect();
        assert_eq!(titles.len(), FaultKind::ALL.len());
        assert!(titles.contains(&("barometer set to sea level", FaultKind::BarometerAtSeaLevel)));
        for (title, kind) in &titles {
            let same = titles.iter().filter(|(other, _)| other == title).count();
            assert_eq!(same, 1, "{title} of {kind:?} is the title of another cause too");
        }
    }
}
