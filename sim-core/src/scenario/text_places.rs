//! Where each entry of a RON text is, by its path.
//!
//! The parser knows the place of what it cannot read, but not of what it has read. Rules that compare
//! entries name paths such as `weather.pressure_mmhg` or `faults[1].fault.ratio`; this module finds
//! their lines and columns. It also counts brackets before the parser recurses into them.

use std::collections::BTreeMap;

/// A line and a column, both from 1; columns count characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct TextPlace {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
}

impl TextPlace {
    /// Where every text begins.
    pub const START: Self = Self { line: 1, column: 1 };
}

/// The deepest nesting of brackets; a scenario needs six levels.
pub const DEEPEST: usize = 64;

/// The largest number of entries kept; a scenario has a few hundred.
const MOST_ENTRIES: usize = 20_000;

/// The places of a text's entries.
#[derive(Debug, Clone, Default)]
pub struct TextPlaces {
    entries: BTreeMap<String, Entry>,
    too_deep: Option<TextPlace>,
}

#[derive(Debug, Clone)]
struct Entry {
    place: TextPlace,
    word: Option<String>,
}

impl TextPlaces {
    /// Scans a text once. Any text will do, whether it is RON or not.
    pub fn of(text: &str) -> Self {
        let mut scan = Scan::new(text);
        while scan.found.too_deep.is_none() && scan.step() {}
        scan.found
    }

    /// The place of an entry, or of the nearest enclosing entry that is in the text.
    pub fn find(&self, path: &str) -> TextPlace {
        let mut path = path;
        loop {
            if let Some(entry) = self.entries.get(path) {
                return entry.place;
            }
            match path.rfind(['.', '[']) {
                Some(at) => path = path.get(..at).unwrap_or(""),
                None => return TextPlace::START,
            }
        }
    }

    /// Whether the text has an entry of this path.
    pub fn has(&self, path: &str) -> bool {
        self.entries.contains_key(path)
    }

    /// The first word of an entry's value: a number or a name.
    pub fn word(&self, path: &str) -> Option<&str> {
        self.entries.get(path)?.word.as_deref()
    }

    /// The first bracket that is nested too deep.
    pub const fn too_deep(&self) -> Option<TextPlace> {
        self.too_deep
    }
}

/// One open bracket.
struct Level {
    path: String,
    key: Option<String>,
    index: usize,
    value_begun: bool,
}

impl Level {
    const fn at(path: String) -> Self {
        Self { path, key: None, index: 0, value_begun: false }
    }

    /// The path of the value that is, or will be, here.
    fn value_path(&self) -> String {
        match &self.key {
            Some(key) if self.path.is_empty() => key.clone(),
            Some(key) => format!("{}.{key}", self.path),
            None if self.path.is_empty() => String::new(),
            None => format!("{}[{}]", self.path, self.index),
        }
    }
}

/// How a text is quoted.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Quoted {
    /// A backslash escapes the next character.
    Escaped,
    /// Nothing is escaped; this many hash signs follow the closing quote.
    Raw(usize),
}

struct Scan<'a> {
    rest: &'a str,
    place: TextPlace,
    levels: Vec<Level>,
    found: TextPlaces,
}

impl<'a> Scan<'a> {
    fn new(text: &'a str) -> Self {
        // The text's own value and whatever its outermost brackets hold share the empty path.
        let levels = vec![Level::at(String::new())];
        Self { rest: text, place: TextPlace::START, levels, found: TextPlaces::default() }
    }

    /// Takes one token; `false` at the end.
    fn step(&mut self) -> bool {
        let Some(next) = self.rest.chars().next() else { return false };
        match next {
            '/' if self.rest.starts_with("//") => self.skip_line(),
            '/' if self.rest.starts_with("/*") => self.skip_block(),
            '#' if self.rest.starts_with("#!") => self.skip_through(']'),
            '(' | '[' | '{' => self.open(),
            ')' | ']' | '}' => {
                // The outermost level stays, even if too many brackets are closed.
                if self.levels.len() > 1 {
                    self.levels.pop();
                }
                self.take(1);
            }
            ',' => {
                if let Some(level) = self.levels.last_mut() {
                    level.index += 1;
                    level.key = None;
                    level.value_begun = false;
                }
                self.take(1);
            }
            '"' => self.quoted(Quoted::Escaped),
            '\'' => self.character(),
            c if c.is_whitespace() || c == ':' => self.take(1),
            _ => self.word(),
        }
        true
    }

    /// Moves on by some bytes, which must end at the end of a character.
    fn take(&mut self, bytes: usize) {
        let (taken, rest) = self.rest.split_at_checked(bytes).unwrap_or((self.rest, ""));
        for c in taken.chars() {
            if c == '\n' {
                self.place = TextPlace { line: self.place.line + 1, column: 1 };
            } else {
                self.place.column += 1;
            }
        }
        self.rest = rest;
    }

    fn open(&mut self) {
        if self.levels.len() > DEEPEST {
            self.found.too_deep = Some(self.place);
            return;
        }
        self.begin_value(None);
        let path = self.levels.last().map(Level::value_path).unwrap_or_default();
        self.levels.push(Level::at(path));
        self.take(1);
    }

    /// Notes where a value without a key begins; the place of a value with a key is that of the key.
    fn begin_value(&mut self, word: Option<&str>) {
        let place = self.place;
        let Some(level) = self.levels.last_mut() else { return };
        if level.value_begun {
            return;
        }
        level.value_begun = true;
        let path = level.value_path();
        let full = self.found.entries.len() >= MOST_ENTRIES;
        if let Some(entry) = self.found.entries.get_mut(&path) {
            entry.word = word.map(str::to_owned);
        } else if !full && !path.is_empty() {
            self.found.entries.insert(path, Entry { place, word: word.map(str::to_owned) });
        }
    }

    /// A name or a number: a key if a colon follows, else a value.
    fn word(&mut self) {
        let ends = |c: char| {
            c.is_whitespace() || matches!(c, '(' | ')' | '[' | ']' | '{' | '}' | ',' | ':' | '"')
        };
        let length = self.rest.find(ends).unwrap_or(self.rest.len());
        let (word, after) = self.rest.split_at_checked(length).unwrap_or((self.rest, ""));
        let hashes = word.len() - word.trim_end_matches('#').len();
        if after.starts_with('"') && matches!(word.trim_end_matches('#'), "r" | "b" | "br") {
            let kind = if word == "b" { Quoted::Escaped } else { Quoted::Raw(hashes) };
            return self.quoted(kind);
        }
        if after.trim_start().starts_with(':') {
            self.key(word.trim_start_matches("r#"));
        } else {
            self.begin_value(Some(word));
        }
        self.take(length.max(1));
    }

    fn key(&mut self, name: &str) {
        let place = self.place;
        let Some(level) = self.levels.last_mut() else { return };
        level.key = Some(name.to_owned());
        level.value_begun = false;
        let path = level.value_path();
        if self.found.entries.len() < MOST_ENTRIES {
            self.found.entries.entry(path).or_insert(Entry { place, word: None });
        }
    }

    /// A text in quotes, from any letters before it to its end.
    fn quoted(&mut self, kind: Quoted) {
        self.begin_value(None);
        let hashes = if let Quoted::Raw(hashes) = kind { hashes } else { 0 };
        let Some(start) = self.rest.find('"') else { return self.take(self.rest.len()) };
        let closing = format!("\"{}", "#".repeat(hashes));
        let mut at = start + 1;
        loop {
            let Some(tail) = self.rest.get(at..) else { return self.take(self.rest.len()) };
            if tail.starts_with(&closing) {
                return self.take(at + closing.len());
            }
            let Some(c) = tail.chars().next() else { return self.take(self.rest.len()) };
            at += c.len_utf8();
            if c == '\\' && kind == Quoted::Escaped {
                at += self.rest.get(at..).and_then(|t| t.chars().next()).map_or(0, char::len_utf8);
            }
        }
    }

    /// A character in single quotes, or a stray quote.
    fn character(&mut self) {
        self.begin_value(None);
        let mut chars = self.rest.char_indices().skip(1);
        match (chars.next(), chars.next(), chars.next()) {
            (Some((_, '\\')), Some(_), Some((at, '\''))) => self.take(at + 1),
            (Some(_), Some((at, '\'')), _) => self.take(at + 1),
            _ => self.take(1),
        }
    }

    fn skip_line(&mut self) {
        self.take(self.rest.find('\n').unwrap_or(self.rest.len()));
    }

    /// A block comment; RON nests them.
    fn skip_block(&mut self) {
        let mut depth = 0_usize;
        let mut at = 0;
        while let Some(tail) = self.rest.get(at..) {
            if tail.starts_with("/*") {
                depth += 1;
                at += 2;
            } else if tail.starts_with("*/") {
                depth -= 1;
                at += 2;
                if depth == 0 {
                    break;
                }
            } else if let Some(c) = tail.chars().next() {
                at += c.len_utf8();
            } else {
                break;
            }
        }
        self.take(at);
    }

    fn skip_through(&mut self, end: char) {
        self.take(self.rest.find(end).map_or(self.rest.len(), |at| at + end.len_utf8()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(text: &str, path: &str) -> (usize, usize) {
        let TextPlace { line, column } = TextPlaces::of(text).find(path);
        (line, column)
    }

    const TEXT: &str = r##"#![enable(implicit_some)]
// a comment: (with brackets
(
    title: "a \" tricky ) text",
    raw: r#"another " one ("#,
    weather: (pressure_mmhg: Normal(750, 3), /* why: /* not */ */ sun_k: Fixed(2)),
    faults: [
        (fault: TubeKinked), (fault: TubeCracked(ratio: 0.5), onset: Start),
    ],
    sign: '(', last: 4,
)"##;

    #[test]
    fn finds_entries_by_path() {
        for (path, expected) in [
            ("title", (4, 5)),
            ("raw", (5, 5)),
            ("weather", (6, 5)),
            ("weather.pressure_mmhg", (6, 15)),
            ("weather.sun_k", (6, 67)),
            ("faults[0]", (8, 9)),
            ("faults[1]", (8, 30)),
            ("faults[1].fault.ratio", (8, 50)),
            ("faults[1].onset", (8, 63)),
            ("last", (10, 16)),
        ] {
            assert_eq!(place(TEXT, path), expected, "{path}");
        }
    }

    #[test]
    fn an_entry_left_out_is_shown_by_what_is_around_it() {
        assert_eq!(place(TEXT, "faults[0].onset"), (8, 9));
        assert_eq!(place(TEXT, "terms.weights"), (1, 1));
    }

    #[test]
    fn gives_the_word_of_an_entry() {
        let places = TextPlaces::of(TEXT);
        assert_eq!(places.word("last"), Some("4"));
        assert_eq!(places.word("weather.pressure_mmhg"), Some("Normal"));
        assert_eq!(places.word("title"), None);
    }

    #[test]
    fn counts_brackets_that_are_brackets() {
        let deep = format!("(a: {}", "[".repeat(70));
        assert_eq!(TextPlaces::of(&deep).too_deep(), Some(TextPlace { line: 1, column: 68 }));
        let text = format!("(a: \"{}\")", "[".repeat(70));
        assert_eq!(TextPlaces::of(&text).too_deep(), None);
    }

    #[test]
    fn any_text_comes_to_an_end() {
        for text in [
            "",
            ")",
            "\"",
            "r#\"",
            "'",
            "'\\",
            "/*",
            "/* /*",
            "#!",
            "a:",
            "µ\u{301}:(",
            "\\",
            "b",
            "::",
        ] {
            TextPlaces::of(text);
        }
    }
}
