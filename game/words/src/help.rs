//! The list of sentences, printed from the table that the parser reads.

use std::fmt::Write;

use super::parse::{Form, forms};

/// Which sentences are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Looking, listening, waiting.
    Looking,
    /// Thermometer and barometer.
    Air,
    /// Lid, nuts, and what is carried.
    Mounting,
    /// Valves, scale, tube.
    Manometer,
    /// Plugs and switches.
    Power,
    /// The calibrator's knob and openings.
    Flow,
    /// Pen and chart.
    Recorder,
    /// Filter and timer of an unattended run.
    Run,
    /// The field book.
    Writing,
    /// What was found wrong.
    Reporting,
    /// Asking, ending.
    Asking,
    /// All of them.
    All,
}

impl Topic {
    /// Every topic in the order of the work, without [`Topic::All`].
    pub const WORK: [Self; 11] = [
        Self::Looking,
        Self::Air,
        Self::Mounting,
        Self::Manometer,
        Self::Power,
        Self::Flow,
        Self::Recorder,
        Self::Run,
        Self::Writing,
        Self::Reporting,
        Self::Asking,
    ];

    /// The word that is said for it, and what it is about.
    const fn title(self) -> (&'static str, &'static str) {
        match self {
            Self::Looking => ("looking", "look, listen, wait"),
            Self::Air => ("air", "thermometer and barometer"),
            Self::Mounting => ("mounting", "lid, nuts, and what is carried"),
            Self::Manometer => ("manometer", "valves, scale, tube"),
            Self::Power => ("power", "plugs and switches"),
            Self::Flow => ("flow", "the calibrator's knob and openings"),
            Self::Recorder => ("recorder", "pen and chart"),
            Self::Run => ("run", "filter, timer, leaving the site"),
            Self::Writing => ("writing", "the field book"),
            Self::Reporting => ("reporting", "what was found wrong, and the answer to it"),
            Self::Asking => ("asking", "ask, show the book, end"),
            Self::All => ("all", "everything"),
        }
    }
}

/// Column at which the notes begin.
const NOTES: usize = 42;
/// Examples of each topic in the overview.
const IN_OVERVIEW: usize = 4;

/// What the answers to a report mean.
const ANSWERS: &str = "
  repaired    put right on the roof
  corrected   allowed for in the readings or the sums
  rejected    the instrument or the paper is not used
  noted       written down, nothing else
";

/// The sentences of a topic, or an overview; no line is longer than 80 characters.
pub fn help(topic: Option<Topic>) -> String {
    let mut text = String::new();
    match topic {
        None => overview(&mut text),
        Some(Topic::All) => {
            for topic in Topic::WORK {
                one_topic(topic, &mut text);
                text.push('\n');
            }
        }
        Some(topic) => one_topic(topic, &mut text),
    }
    text.truncate(text.trim_end().len());
    text
}

/// A few sentences of each topic.
fn overview(text: &mut String) {
    text.push_str("Say what you do in plain words. Articles and capitals do not matter.\n");
    for topic in Topic::WORK {
        let (word, about) = topic.title();
        line(text, "", &format!("{word}: {about}"), "");
        let first = forms(topic).iter().filter_map(|form| form.examples.first());
        for example in first.take(IN_OVERVIEW) {
            line(text, "  ", example, "");
        }
    }
    text.push_str("Say `help manometer` for all of one topic, `help all` for everything.\n");
}

/// Every sentence of a topic.
fn one_topic(topic: Topic, text: &mut String) {
    let (word, about) = topic.title();
    line(text, "", &format!("{word}: {about}"), "");
    for Form { examples, note, .. } in forms(topic) {
        for (at, example) in examples.iter().enumerate() {
            line(text, "  ", example, if at == 0 { note } else { "" });
        }
    }
    if topic == Topic::Reporting {
        text.push_str(ANSWERS);
    }
}

/// A line: a sentence and, behind or under it, a note.
fn line(text: &mut String, indent: &str, sentence: &str, note: &str) {
    let left = format!("{indent}{sentence}");
    // Writing into a String cannot fail.
    let _ = if note.is_empty() {
        writeln!(text, "{left}")
    } else if left.chars().count() < NOTES - 1 && NOTES + note.len() <= 80 {
        writeln!(text, "{left:NOTES$}{note}")
    } else {
        writeln!(text, "{left}\n      {note}")
    };
}
