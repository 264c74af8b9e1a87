//! The known sentence that is nearest to what was said.

use super::sentence::Sentence;
use super::table::forms;
use crate::topic::Topic;

/// Characters of a sentence that are compared.
const COMPARED: usize = 60;

/// The nearest example of the help, when one is near: less than half of its letters differ.
pub(super) fn nearest(sentence: &Sentence) -> Option<&'static str> {
    let said = plain(sentence);
    let examples = Topic::WORK.iter().flat_map(|&topic| forms(topic)).flat_map(|f| f.examples);
    examples
        .map(|&example| (distance(&said, &plain(&Sentence::read(example))), example))
        .filter(|&(apart, example)| apart * 2 < example.chars().count().max(said.len()))
        .min_by_key(|&(apart, _)| apart)
        .map(|(_, example)| example)
}

/// The words that count, cut to what is compared.
fn plain(sentence: &Sentence) -> Vec<char> {
    let mut letters = Vec::with_capacity(COMPARED);
    for token in &sentence.tokens {
        if !letters.is_empty() {
            letters.push(' ');
        }
        letters.extend(token.word.chars());
        if letters.len() >= COMPARED {
            break;
        }
    }
    letters.truncate(COMPARED);
    letters
}

/// How many letters must be put in, taken out or changed to make `b` of `a` (Levenshtein).
fn distance(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.iter().enumerate() {
        let mut diagonal = i;
        let mut left = i + 1;
        let mut next = vec![left];
        for (to, &above) in b.iter().zip(row.iter().skip(1)) {
            let best = (diagonal + usize::from(from != to)).min(above + 1).min(left + 1);
            next.push(best);
            diagonal = above;
            left = best;
        }
        row = next;
    }
    row.last().copied().unwrap_or(a.len())
}
