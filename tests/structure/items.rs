//! What a source declares, imports and names by path, read from its tokens. Whatever is compiled for
//! tests only is left out.

use super::tokens::{Kind, Token, tokens};

/// A path that stands in a source.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mention {
    /// The line, from 1.
    pub line: usize,
    /// The modules written in this file round the place, outermost first.
    pub within: Vec<String>,
    /// The path's names.
    pub path: Vec<String>,
    /// What it does.
    pub kind: MentionKind,
}

/// What a mention does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MentionKind {
    /// `use a::b;` or `use a::b as c;`: the path gets a name here.
    Import(String),
    /// `use a::*;`: everything in the path is named here.
    Glob,
    /// The path stands in code.
    Code,
}

/// What a source says, its tests left out.
#[derive(Debug, Default)]
pub struct Items {
    /// Modules that have a file of their own, each with the modules written round it.
    pub files: Vec<(Vec<String>, String)>,
    /// Modules written in this file, each with those written round it.
    pub inline: Vec<(Vec<String>, String)>,
    /// Other things that are declared.
    pub declared: Vec<(Vec<String>, String)>,
    /// Imports and paths.
    pub mentions: Vec<Mention>,
}

/// Reads a source.
pub fn items(source: &str) -> Items {
    let tokens = tokens(source);
    let mut reader =
        Reader { tokens: &tokens, at: 0, depth: 0, modules: Vec::new(), found: Items::default() };
    while reader.at < tokens.len() {
        reader.step();
    }
    reader.found
}

struct Reader<'a> {
    tokens: &'a [Token],
    at: usize,
    /// How many brackets are open.
    depth: usize,
    /// Modules written in this file that are open, each with the depth of what stands in it.
    modules: Vec<(String, usize)>,
    found: Items,
}

impl<'a> Reader<'a> {
    fn token(&self, ahead: usize) -> Option<&'a Token> {
        self.tokens.get(self.at + ahead)
    }

    fn word(&self, ahead: usize) -> Option<&'a str> {
        self.token(ahead)?.word()
    }

    fn is(&self, ahead: usize, sign: char) -> bool {
        self.token(ahead).is_some_and(|token| token.is(sign))
    }

    fn within(&self) -> Vec<String> {
        self.modules.iter().map(|(name, _)| name.clone()).collect()
    }

    /// Whether the next token stands directly in a module, not in a function or a type.
    fn in_module(&self) -> bool {
        self.depth == self.modules.last().map_or(0, |&(_, depth)| depth)
    }

    fn step(&mut self) {
        if self.is(0, '#') {
            self.attribute();
        } else if let Some(word) = self.word(0) {
            self.word_step(word);
        } else {
            if let Some(token) = self.token(0) {
                if "([{".chars().any(|sign| token.is(sign)) {
                    self.depth += 1;
                } else if ")]}".chars().any(|sign| token.is(sign)) {
                    self.close();
                }
            }
            self.at += 1;
        }
    }

    fn close(&mut self) {
        if self.modules.last().is_some_and(|&(_, depth)| depth == self.depth) {
            self.modules.pop();
        }
        self.depth = self.depth.saturating_sub(1);
    }

    fn word_step(&mut self, word: &str) {
        match word {
            // In a type, `use<'a>` says what is captured.
            "use" if !self.is(1, '<') => self.imports(),
            "mod" => self.module(),
            // In `pub(in a::b)` the path says who may see, not what is used.
            "pub" if self.is(1, '(') => {
                self.at += 1;
                self.skip_brackets();
            }
            "struct" | "enum" | "trait" | "type" | "union" | "fn" | "const" | "static" => {
                self.declaration();
            }
            "macro_rules" if self.is(1, '!') => self.macro_rules(),
            _ => self.path(),
        }
    }

    fn module(&mut self) {
        let Some(name) = self.word(1).map(str::to_owned) else {
            self.at += 1;
            return;
        };
        if self.is(2, ';') {
            self.found.files.push((self.within(), name));
        } else if self.is(2, '{') {
            self.found.inline.push((self.within(), name.clone()));
            self.depth += 1;
            self.modules.push((name, self.depth));
        }
        self.at += 3;
    }

    fn declaration(&mut self) {
        if let Some(name) = self.word(1) {
            // In `const fn f` and `static mut X` the name comes later.
            if !matches!(name, "fn" | "mut" | "unsafe" | "async" | "extern") && self.in_module() {
                self.found.declared.push((self.within(), name.to_owned()));
            }
        }
        self.at += 1;
    }

    /// `macro_rules! name { … }`: the name is declared, and the rules are nobody's paths.
    fn macro_rules(&mut self) {
        if let Some(name) = self.word(2) {
            self.found.declared.push((self.within(), name.to_owned()));
        }
        self.at += 2;
        self.skip_item();
    }

    /// `#[…]`: it is skipped, and so is what follows when it is for tests only.
    fn attribute(&mut self) {
        let open = if self.is(1, '!') { 2 } else { 1 };
        if !self.is(open, '[') {
            self.at += 1;
            return;
        }
        let start = self.at;
        self.at += open;
        self.skip_brackets();
        let words: Vec<&str> = self.tokens[start..self.at].iter().filter_map(Token::word).collect();
        let for_tests = words.first() == Some(&"test")
            || words.first() == Some(&"cfg") && words.contains(&"test") && !words.contains(&"not");
        if for_tests && open == 1 {
            while self.is(0, '#') {
                self.at += 1;
                self.skip_brackets();
            }
            self.skip_item();
        }
    }

    /// Past the bracket that opens here, to behind the one that closes it.
    fn skip_brackets(&mut self) {
        let mut depth = 0_usize;
        while let Some(token) = self.token(0) {
            self.at += 1;
            if "([{".chars().any(|sign| token.is(sign)) {
                depth += 1;
            } else if ")]}".chars().any(|sign| token.is(sign)) {
                depth -= 1;
                if depth == 0 {
                    return;
                }
            }
        }
    }

    /// Past one item: to its semicolon, or to the end of its body.
    fn skip_item(&mut self) {
        while let Some(token) = self.token(0) {
            if token.is('{') {
                self.skip_brackets();
                // A struct's value in a constant goes on to its semicolon.
                if self.is(0, ';') {
                    self.at += 1;
                }
                return;
            }
            if token.is('(') || token.is('[') {
                self.skip_brackets();
            } else {
                self.at += 1;
                if token.is(';') || token.is(',') {
                    return;
                }
            }
        }
    }

    fn imports(&mut self) {
        self.at += 1;
        let mut end = 0;
        while self.token(end).is_some_and(|token| !token.is(';')) {
            end += 1;
        }
        let tree = &self.tokens[self.at..self.at + end];
        self.at += end;
        let mut rest = tree;
        self.tree(&mut rest, &[]);
    }

    /// One branch of an import, behind the names that lead to it.
    fn tree(&mut self, rest: &mut &'a [Token], prefix: &[String]) {
        let mut path = prefix.to_vec();
        let mut line = rest.first().map_or(0, |token| token.line);
        while let Some((token, after)) = rest.split_first() {
            match &token.kind {
                Kind::Word(word) if word == "as" => {
                    let name = after.first().and_then(Token::word).unwrap_or("_").to_owned();
                    *rest = after.get(1..).unwrap_or_default();
                    return self.import(line, path, name);
                }
                Kind::Word(word) => {
                    path.push(word.clone());
                    line = token.line;
                    *rest = after;
                }
                Kind::Colons => *rest = after,
                Kind::Sign('*') => {
                    *rest = after;
                    return self.mention(line, path, MentionKind::Glob);
                }
                Kind::Sign('{') => {
                    *rest = after;
                    while rest.first().is_some_and(|token| !token.is('}')) {
                        self.tree(rest, &path);
                        if rest.first().is_some_and(|token| token.is(',')) {
                            *rest = &rest[1..];
                        }
                    }
                    *rest = rest.get(1..).unwrap_or_default();
                    return;
                }
                _ => break,
            }
        }
        if path.last().is_some_and(|name| name == "self") {
            path.pop();
        }
        let name = path.last().cloned().unwrap_or_default();
        self.import(line, path, name);
    }

    fn import(&mut self, line: usize, path: Vec<String>, name: String) {
        self.mention(line, path, MentionKind::Import(name));
    }

    fn mention(&mut self, line: usize, path: Vec<String>, kind: MentionKind) {
        let within = self.within();
        self.found.mentions.push(Mention { line, within, path, kind });
    }

    /// A path in code; a name alone is none.
    fn path(&mut self) {
        let line = self.token(0).map_or(0, |token| token.line);
        let leads = self.at > 0
            && (self.tokens[self.at - 1].kind == Kind::Colons || self.tokens[self.at - 1].is('.'));
        let mut path: Vec<String> = self.word(0).map(str::to_owned).into_iter().collect();
        self.at += 1;
        while self.token(0).is_some_and(|token| token.kind == Kind::Colons) {
            let Some(name) = self.word(1) else { break };
            path.push(name.to_owned());
            self.at += 2;
        }
        if path.len() > 1 && !leads {
            self.mention(line, path, MentionKind::Code);
        }
    }
}
