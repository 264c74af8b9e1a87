//! A sentence cut into words that can be compared, each with its place in what was typed.

/// A word of the sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Token {
    /// In small letters, without punctuation behind it and without a possessive s.
    pub word: String,
    /// Where it starts in the sentence, bytes.
    pub start: usize,
    /// Where it ends in the sentence, bytes, with its punctuation.
    pub end: usize,
}

/// A sentence.
#[derive(Debug, Clone)]
pub(super) struct Sentence<'a> {
    /// As typed.
    pub raw: &'a str,
    /// Its words, without articles and courtesies.
    pub tokens: Vec<Token>,
}

/// Words that change nothing.
const IDLE: [&str; 6] = ["the", "a", "an", "please", "my", "of"];

impl<'a> Sentence<'a> {
    /// Cuts a sentence into words.
    pub fn read(raw: &'a str) -> Self {
        let mut tokens = Vec::new();
        let mut start = None;
        for (at, c) in raw.char_indices().chain([(raw.len(), ' ')]) {
            match (c.is_whitespace(), start) {
                (false, None) => start = Some(at),
                (true, Some(from)) => {
                    push(raw, from, at, &mut tokens);
                    start = None;
                }
                _ => {}
            }
        }
        Self { raw, tokens }
    }

    /// The word at a place.
    pub fn word(&self, at: usize) -> Option<&str> {
        self.tokens.get(at).map(|token| token.word.as_str())
    }

    /// Whether a comma, colon, semicolon or dash stands behind a word.
    pub fn ends_clause(&self, at: usize) -> bool {
        let typed = self.tokens.get(at).and_then(|token| self.raw.get(token.start..token.end));
        typed.is_some_and(|typed| typed.ends_with([',', ';', ':', '\u{2013}', '\u{2014}']))
    }

    /// What was typed from behind word `from - 1` up to word `to`, articles and all.
    pub fn between(&self, from: usize, to: usize) -> &'a str {
        let start = from.checked_sub(1).and_then(|at| self.tokens.get(at)).map_or(0, |t| t.end);
        let end = self.tokens.get(to).map_or(self.raw.len(), |token| token.start);
        self.raw.get(start..end).unwrap_or_default().trim()
    }

    /// Whether the words of `phrase` stand at a place; gives their number. Words that change nothing
    /// count on neither side.
    pub fn phrase_at(&self, at: usize, phrase: &str) -> Option<usize> {
        let mut count = 0;
        for word in phrase.split(' ').filter(|word| !IDLE.contains(word)) {
            if self.word(at + count) != Some(word) {
                return None;
            }
            count += 1;
        }
        Some(count)
    }
}

/// Takes one pair of quotation marks off.
pub(super) fn unquoted(text: &str) -> &str {
    text.strip_prefix('"').and_then(|text| text.strip_suffix('"')).unwrap_or(text)
}

/// Adds the word or, where a unit is glued to a number, the two words from `from` to `to`.
fn push(raw: &str, from: usize, to: usize, tokens: &mut Vec<Token>) {
    let text = raw.get(from..to).unwrap_or_default();
    let cut = unit_behind_number(text).map(|at| from + at);
    for (start, end) in [(from, cut.unwrap_or(to)), (cut.unwrap_or(to), to)] {
        let word = raw.get(start..end).unwrap_or_default().to_lowercase().replace('’', "'");
        let word = word.trim_end_matches(['.', ',', ';', ':', '!', '?']);
        let word = word.strip_suffix("'s").unwrap_or(word);
        if !word.is_empty() && !IDLE.contains(&word) {
            tokens.push(Token { word: word.to_owned(), start, end });
        }
    }
}

/// Where a unit begins that is glued to a number, as in `5min`, `40%`, `2°`.
fn unit_behind_number(text: &str) -> Option<usize> {
    let unsigned = text.trim_start_matches(['-', '+', '\u{2212}', '.']);
    if !unsigned.starts_with(|c: char| c.is_numeric()) {
        return None;
    }
    text.char_indices()
        .find(|&(_, c)| c.is_alphabetic() || matches!(c, '%' | '°' | '"' | '″'))
        .map(|(at, _)| at)
}
