//! Several entries of the field book in one sentence: `point 1 up 3.3, down 3.3, chart 57.5`. Each
//! value has a name before it (`up 3.3`) or behind it (`3.3 up`); a point, a reading of a check or a
//! part named before holds for those that follow.

use sim_core::field_book::{Field, PointNumber, number_as_written};

use super::sentence::Sentence;
use super::typed::as_typed;
use super::vocabulary::{CHECK_FIELDS, FIELDS, PART_FIELDS, POINT_FIELDS, PointField};
use crate::names::Names;

/// The entries of a sentence.
#[derive(Debug, Clone, Default)]
pub(crate) struct Entries {
    /// Where, and what.
    pub written: Vec<(Field, String)>,
    /// Names that have no value.
    pub lacking: Vec<String>,
}

/// Words between a name and its value that change nothing.
const LINKS: [&str; 17] = [
    "and", "is", "was", "are", "as", "at", "reads", "read", "shows", "to", "for", "from", "=",
    "equals", "with", "on", "by",
];
/// Words of a unit, at most.
const LONGEST_UNIT: usize = 3;

/// What the names in a sentence belong to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Context {
    /// The book as a whole.
    Book,
    /// The certificate.
    Certificate,
    /// The flow check as a whole.
    Check,
    /// The run.
    Run,
    /// A point.
    Point(PointNumber),
    /// A reading of the check.
    Reading(PointNumber),
    /// A part of the run.
    Part(PointNumber),
}

/// A name that waits for its value.
#[derive(Debug, Clone, Copy)]
struct Name<'a> {
    words: &'a str,
    count: usize,
}

/// The entries from a word to the end, if that is what the rest of the sentence is.
pub(super) fn entries(sentence: &Sentence, from: usize) -> Option<Entries> {
    let end = sentence.tokens.len();
    // What stands in quotation marks is somebody's own words.
    if sentence.raw.contains('"') {
        return None;
    }
    let of_paper = |at: usize| {
        matches!(sentence.word(at), Some("from" | "on"))
            && sentence.word(at + 1) == Some("certificate")
    };
    let copied = (from..end).any(of_paper);
    let context = if copied { Context::Certificate } else { Context::Book };
    Reader { sentence, context }.read(from)
}

struct Reader<'a> {
    sentence: &'a Sentence<'a>,
    context: Context,
}

impl Reader<'_> {
    /// Reads to the end; nothing where a word belongs to no entry, or no value is named.
    fn read(mut self, from: usize) -> Option<Entries> {
        let end = self.sentence.tokens.len();
        let mut entries = Entries::default();
        let mut waiting: Option<Name> = None;
        let mut at = from;
        while at < end {
            if let Some((count, field, text)) = waiting.and_then(|name| self.value(name, at)) {
                entries.written.push((field, text));
                waiting = None;
                at += count;
            } else if let Some((count, field, text)) = self.value_before_name(at, waiting) {
                entries.written.push((field, text));
                at += count;
            } else if let Some(name) = self.name_at(at).filter(|name| self.is_name(*name, at)) {
                if self.takes_words(name) {
                    return None;
                }
                entries.lacking.extend(waiting.map(|name| name.words.to_owned()));
                self.context = self.of_name(name);
                waiting = Some(name);
                at += name.count;
            } else if let Some((count, context)) = self.context_at(at) {
                self.context = context;
                at += count;
            } else if self.sentence.word(at).is_some_and(|word| LINKS.contains(&word)) {
                at += 1;
            } else {
                return None;
            }
        }
        entries.lacking.extend(waiting.map(|name| name.words.to_owned()));
        (!entries.written.is_empty()).then_some(entries)
    }

    /// Whether a name says more than the context that stands at the same place.
    fn is_name(&self, name: Name, at: usize) -> bool {
        self.context_at(at).is_none_or(|(count, _)| name.count > count)
    }

    /// Whether free text is written where a name means.
    fn takes_words(&self, name: Name) -> bool {
        self.field(name.words).is_some_and(|field| field.is_words() && !is_marked(field))
    }

    /// What the names behind a name belong to.
    fn of_name(&self, name: Name) -> Context {
        match name.words.split(' ').next() {
            Some("certificate") => Context::Certificate,
            Some("check") => Context::Check,
            Some("run") => Context::Run,
            _ => self.context,
        }
    }

    /// A point, a reading or a part with its number, or what the names that follow belong to.
    fn context_at(&self, at: usize) -> Option<(usize, Context)> {
        let number = |at: usize| {
            let word = self.sentence.word(at)?;
            word.parse::<u8>().ok().and_then(|number| PointNumber::try_from(number).ok())
        };
        let word = self.sentence.word(at)?;
        Some(match (word, number(at + 1)) {
            ("point", Some(number)) => (2, Context::Point(number)),
            ("part", Some(number)) => (2, Context::Part(number)),
            ("check" | "reading", Some(number)) => (2, Context::Reading(number)),
            ("check", None) if self.sentence.word(at + 1) == Some("reading") => {
                (3, Context::Reading(number(at + 2)?))
            }
            ("certificate", _) => (1, Context::Certificate),
            ("check", _) => (1, Context::Check),
            ("run", _) => (1, Context::Run),
            ("line", _) => (1, Context::Book),
            ("calibration", _) if self.sentence.word(at + 1) == Some("line") => (2, Context::Book),
            _ => return None,
        })
    }

    /// The longest name at a place, whatever it belongs to.
    fn name_at(&self, at: usize) -> Option<Name<'static>> {
        let of = |names: Names<PointField>| longest(self.sentence, names, at);
        let found = [of(POINT_FIELDS), of(CHECK_FIELDS), of(PART_FIELDS)];
        let plain = longest(self.sentence, FIELDS, at);
        found
            .into_iter()
            .chain([plain])
            .flatten()
            .map(|(words, count)| Name { words, count })
            .max_by_key(|name| name.count)
    }

    /// The value of a name that was said before it.
    fn value(&self, name: Name, at: usize) -> Option<(usize, Field, String)> {
        let field = self.field(name.words)?;
        let (count, text) = self.text(field, at)?;
        Some((count, field, text))
    }

    /// A value with its name behind it: `3.3 up`. Not while a name waits for its value.
    fn value_before_name(
        &self,
        at: usize,
        waiting: Option<Name>,
    ) -> Option<(usize, Field, String)> {
        if waiting.is_some() {
            return None;
        }
        (1..=1 + LONGEST_UNIT).find_map(|count| {
            let is_link = |at: &usize| self.sentence.word(*at).is_some_and(|w| LINKS.contains(&w));
            let links = (at + count..).take_while(is_link).count();
            let name = self.name_at(at + count + links)?;
            let field = self.field(name.words)?;
            let (taken, text) = self.text(field, at)?;
            (taken == count).then_some((count + links + name.count, field, text))
        })
    }

    /// The field that a name means where it is said.
    fn field(&self, name: &str) -> Option<Field> {
        let of = |names: Names<PointField>, number| named(names, name).map(|field| field(number));
        let plain = |name: &str| named(FIELDS, name);
        match self.context {
            Context::Point(number) => of(POINT_FIELDS, number).or_else(|| plain(name)),
            Context::Reading(number) => of(CHECK_FIELDS, number).or_else(|| plain(name)),
            Context::Part(number) => of(PART_FIELDS, number).or_else(|| plain(name)),
            Context::Certificate => plain(&format!("certificate {name}")).or_else(|| plain(name)),
            Context::Check => plain(&format!("check {name}")).or_else(|| plain(name)),
            Context::Run => plain(&format!("run {name}")).or_else(|| plain(name)),
            Context::Book => plain(name),
        }
    }

    /// What is written in a field: a number with its unit or, for a serial number or a date, a word
    /// with a digit.
    fn text(&self, field: Field, at: usize) -> Option<(usize, String)> {
        let end = self.sentence.tokens.len();
        let between = |count: usize| {
            let text = self.sentence.between(at, at + count);
            as_typed(field, text.trim_end_matches([',', ';', ':', '.', '!', '?']))
        };
        if !field.is_words() {
            let counts = (1..=2 + LONGEST_UNIT).rev().filter(|count| at + count <= end);
            let number = |text: &String| number_as_written(text).is_ok();
            return counts.map(|count| (count, between(count))).find(|(_, text)| number(text));
        }
        let digits = self.sentence.word(at)?.contains(|c: char| c.is_ascii_digit());
        (is_marked(field) && digits).then(|| (1, between(1)))
    }
}

/// Whether a mark is written in a field: a serial number, a date, the number of a filter.
const fn is_marked(field: Field) -> bool {
    matches!(
        field,
        Field::CalibratorSerial
            | Field::CertificateSerial
            | Field::CertificateDate
            | Field::FilterNumber
            | Field::NextFilterNumber
    )
}

/// The longest name of a table that stands at a place.
fn longest<T: Copy>(
    sentence: &Sentence,
    names: Names<T>,
    at: usize,
) -> Option<(&'static str, usize)> {
    let found = names.iter().filter_map(|&(name, _)| Some((name, sentence.phrase_at(at, name)?)));
    found.max_by_key(|&(_, count)| count)
}

/// What a name of a table names.
fn named<T: Copy>(names: Names<T>, name: &str) -> Option<T> {
    names.iter().find(|(known, _)| *known == name).map(|&(_, value)| value)
}
