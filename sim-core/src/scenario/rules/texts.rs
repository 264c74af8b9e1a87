//! Rules on texts and serial numbers.

use super::{KnownRules, ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;
use crate::scenario::history::VisitEntry;
use crate::text::is_bidi_control;

/// Every text is readable.
pub(super) const READABLE_TEXT: ScenarioRule = ScenarioRule {
    id: "text-readable",
    about: "Every text has words in it, fits into its place on the page, and contains no hidden \
            characters: a blank title or a work order that runs off the page helps nobody.",
    find: readable_text,
};

fn readable_text(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let order = &scenario.work_order;
    let mut texts = vec![
        ("title".to_owned(), &scenario.title, 80),
        ("lesson".to_owned(), &scenario.lesson, 600),
        ("station.name".to_owned(), &scenario.station.name, 60),
        ("work_order.number".to_owned(), &order.number, 24),
        ("work_order.text".to_owned(), &order.text, 1200),
    ];
    if let Some(situation) = &scenario.situation {
        texts.push(("situation".to_owned(), situation, LONGEST_SITUATION));
    }
    for (index, paper) in scenario.certificates.iter().enumerate() {
        let laboratory = paper.laboratory.iter();
        texts
            .extend(laboratory.map(|name| (format!("certificates[{index}].laboratory"), name, 60)));
    }
    for (index, visit) in scenario.history.iter().flat_map(|one| one.visits.iter().enumerate()) {
        if let VisitEntry::Repair { text, .. } | VisitEntry::Note { text, .. } = visit {
            texts.push((format!("history.visits[{index}].text"), text, LONGEST_VISIT));
        }
    }
    for (path, text, longest) in texts {
        let name = path.rsplit('.').next().unwrap_or("text").to_owned();
        let length = text.chars().count();
        if text.trim().is_empty() {
            findings.add(path, format!("`{name}` is empty"), "write what the trainee is to read");
        } else if length > longest {
            findings.add(
                path,
                format!("`{name}` has {length} characters, more than the {longest} allowed"),
                "shorten it",
            );
        } else if let Some(c) = text.chars().find(|&c| hidden(c)) {
            findings.add(
                path,
                format!("`{name}` contains a hidden character ({})", c.escape_unicode()),
                "remove it; only line breaks are allowed",
            );
        }
    }
}

/// The longest text about a visit of the past, characters: two lines of a record.
const LONGEST_VISIT: usize = 120;

/// The longest situation, characters: two sentences on a card.
const LONGEST_SITUATION: usize = 320;

/// Every scenario tells its situation.
pub(super) const SITUATION: ScenarioRule = ScenarioRule {
    id: "situation-told",
    about: "A scenario that has a lesson also tells its situation: its card shows the situation before \
            the work and the lesson only after it. The situation does not repeat the lesson.",
    find: situation,
};

/// Sessions are read whether they tell it or not: an author is asked for it, a trainee is not.
fn situation(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    if matches!(findings.known_rules, KnownRules::Any) {
        return;
    }
    match &scenario.situation {
        None => findings.add(
            "lesson",
            "there is a lesson and no `situation`",
            "add `situation: …`: one or two sentences about the place, the season and the visit, \
             but not about what is wrong",
        ),
        Some(told) if told.trim() == scenario.lesson.trim() => findings.add(
            "situation",
            "`situation` repeats the lesson, which is told only after the work",
            "write what anybody would see on arrival",
        ),
        Some(_) => {}
    }
}

fn hidden(c: char) -> bool {
    (c.is_control() && c != '\n') || is_bidi_control(c)
}

/// Every serial number can be copied by hand.
pub(super) const SERIAL: ScenarioRule = ScenarioRule {
    id: "serial-legible",
    about: "A serial number has 2 to 20 capital letters, digits and hyphens: the trainee copies it \
            by hand from a plate.",
    find: serial,
};

fn serial(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let mut serials = vec![
        ("station.sampler_serial".to_owned(), &scenario.station.sampler_serial),
        ("work_order.calibrator_serial".to_owned(), &scenario.work_order.calibrator_serial),
    ];
    for (index, paper) in scenario.certificates.iter().enumerate() {
        serials.push((format!("certificates[{index}].serial"), &paper.serial));
    }
    for (path, serial) in serials {
        let legible = (2..=20).contains(&serial.len())
            && serial.bytes().all(|b| b.is_ascii_uppercase() || b.is_ascii_digit() || b == b'-');
        if !legible {
            findings.add(
                path,
                format!("`{serial}` is not a serial number"),
                "write 2 to 20 capital letters, digits and hyphens, such as `C-402`",
            );
        }
    }
}
