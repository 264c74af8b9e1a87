//! The list of sentences, printed from the table that the parser reads.

use std::fmt::Write;

use super::musts::explained;
use super::parse::form::Form;
use super::parse::table::forms;
use super::topic::Topic;

/// Column at which the notes begin.
const NOTES: usize = 42;
/// Examples of each topic in the overview.
const IN_OVERVIEW: usize = 3;

/// What the answers of a report mean.
const ANSWERS: &str = "
  repaired    you fixed it on the roof
  corrected   you allow for it in the readings or the calculations
  rejected    you do not use the instrument or the paper
  noted       you wrote it down, and nothing else
";

/// The sentences of a topic, or an overview; no line is longer than 80 characters.
pub fn help(topic: Option<Topic>) -> String {
    let mut text = String::new();
    match topic {
        None => overview(&mut text),
        Some(Topic::Musts) => text = explained(None),
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
    text.push_str("Say `help manometer` for one topic, or `help all` for all of them.\n");
    text.push_str("`help musts` lists the mandatory steps of this visit.\n");
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
