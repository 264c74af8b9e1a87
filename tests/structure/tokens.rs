//! Cutting Rust source into words and signs: comments and what stands in quotation marks fall away.

use std::iter::Peekable;
use std::str::Chars;

/// A word or a sign, with the line on which it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token {
    /// The line, from 1.
    pub line: usize,
    /// What it is.
    pub kind: Kind,
}

/// What a token is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// A word: a keyword or a name.
    Word(String),
    /// The two colons of a path.
    Colons,
    /// Any other sign.
    Sign(char),
    /// A text, a character or a number: nothing of it is looked at.
    Literal,
}

impl Token {
    /// The word, if it is one.
    pub fn word(&self) -> Option<&str> {
        match &self.kind {
            Kind::Word(word) => Some(word),
            _ => None,
        }
    }

    /// Whether it is this sign.
    pub fn is(&self, sign: char) -> bool {
        self.kind == Kind::Sign(sign)
    }
}

/// The tokens of a source.
pub fn tokens(source: &str) -> Vec<Token> {
    let mut reader = Reader { rest: source.chars().peekable(), line: 1 };
    std::iter::from_fn(|| reader.next()).collect()
}

struct Reader<'a> {
    rest: Peekable<Chars<'a>>,
    line: usize,
}

impl Reader<'_> {
    fn take(&mut self) -> Option<char> {
        let c = self.rest.next();
        self.line += usize::from(c == Some('\n'));
        c
    }

    fn ahead(&self, wanted: &str) -> bool {
        let mut rest = self.rest.clone();
        wanted.chars().all(|c| rest.next() == Some(c))
    }

    fn next(&mut self) -> Option<Token> {
        self.skip_blanks();
        let line = self.line;
        let c = self.take()?;
        let kind = match c {
            'r' | 'b' | 'c' if self.quoted_after(c) => Kind::Literal,
            '"' => {
                self.skip_text();
                Kind::Literal
            }
            '\'' => self.character_or_lifetime(),
            ':' if self.ahead(":") => {
                self.take();
                Kind::Colons
            }
            c if c.is_ascii_digit() => {
                self.skip_number();
                Kind::Literal
            }
            c if c.is_alphabetic() || c == '_' => Kind::Word(self.word_from(c)),
            c => Kind::Sign(c),
        };
        Some(Token { line, kind })
    }

    fn skip_blanks(&mut self) {
        loop {
            if self.ahead("//") {
                while self.rest.peek().is_some_and(|&c| c != '\n') {
                    self.take();
                }
            } else if self.ahead("/*") {
                self.skip_block_comment();
            } else if self.rest.peek().is_some_and(|c| c.is_whitespace()) {
                self.take();
            } else {
                return;
            }
        }
    }

    fn skip_block_comment(&mut self) {
        let mut depth = 0_usize;
        loop {
            if self.ahead("/*") {
                depth += 1;
                self.take();
            } else if self.ahead("*/") {
                depth -= 1;
                self.take();
            }
            if self.take().is_none() || depth == 0 {
                return;
            }
        }
    }

    /// Takes a text that begins with a letter, such as `b"…"` or `r#"…"#`; false when none does.
    fn quoted_after(&mut self, letter: char) -> bool {
        let mut rest = self.rest.clone();
        let raw = letter == 'r' || rest.next_if_eq(&'r').is_some();
        let mut hashes = 0;
        while raw && rest.next_if_eq(&'#').is_some() {
            hashes += 1;
        }
        match rest.next() {
            Some('"') => {}
            Some('\'') if letter == 'b' && !raw => {
                self.take();
                self.character_or_lifetime();
                return true;
            }
            _ => return false,
        }
        while self.take() != Some('"') {}
        if raw {
            let end = format!("\"{}", "#".repeat(hashes));
            while self.rest.peek().is_some() && !self.ahead(&end) {
                self.take();
            }
            for _ in 0..end.len() {
                self.take();
            }
        } else {
            self.skip_text();
        }
        true
    }

    /// Behind the opening quotation mark: up to the closing one and past it.
    fn skip_text(&mut self) {
        while let Some(c) = self.take() {
            match c {
                '"' => return,
                '\\' => {
                    self.take();
                }
                _ => {}
            }
        }
    }

    /// Behind an apostrophe: the rest of a character, or nothing of a lifetime but its sign.
    fn character_or_lifetime(&mut self) -> Kind {
        let mut rest = self.rest.clone();
        let (first, second) = (rest.next(), rest.next());
        if first != Some('\\') && second != Some('\'') {
            return Kind::Sign('\'');
        }
        self.take();
        if first == Some('\\') {
            self.take();
        }
        while let Some(c) = self.take() {
            if c == '\'' {
                break;
            }
        }
        Kind::Literal
    }

    fn skip_number(&mut self) {
        let mut before = '0';
        while let Some(&c) = self.rest.peek() {
            let mut rest = self.rest.clone();
            rest.next();
            let decimals = c == '.' && rest.next().is_some_and(|c| c.is_ascii_digit());
            let exponent = matches!(c, '+' | '-') && matches!(before, 'e' | 'E');
            if !(c.is_alphanumeric() || c == '_' || decimals || exponent) {
                return;
            }
            before = c;
            self.take();
        }
    }

    fn word_from(&mut self, first: char) -> String {
        let mut word = String::from(first);
        while let Some(c) = self.rest.next_if(|c| c.is_alphanumeric() || *c == '_') {
            word.push(c);
        }
        // A raw name, `r#type`, is the name.
        if word == "r" && self.ahead("#") {
            self.take();
            word.clear();
            while let Some(c) = self.rest.next_if(|c| c.is_alphanumeric() || *c == '_') {
                word.push(c);
            }
        }
        word
    }
}
