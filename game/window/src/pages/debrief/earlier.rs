//! This session beside the earlier ones of the same scenario.

use content::document::{Block, CellAlign, Table};
use sessions::{KeptState, MarkedSession, MarksGot, Storage};
use sim_core::scenario::{KnownRules, check};

use crate::ui::marks_known::MarksKnown;

/// The heading of the section.
pub const HEADING: &str = "Beside your earlier sessions";
/// So many earlier sessions are looked at, the latest.
const MOST: usize = 12;

/// What was got in the earlier sessions of the same scenario, the latest first.
pub fn of(storage: &dyn Storage, known: &MarksKnown, this: &MarkedSession) -> Vec<MarksGot> {
    let Ok(scenario) = check(&this.session.source.text, KnownRules::Any) else {
        return Vec::new();
    };
    let kept = storage.kept_sessions().into_iter();
    let ended = kept.filter(|kept| kept.state == KeptState::Ended && kept.title == scenario.title);
    let got = ended.take(MOST + 1).filter_map(|kept| known.of(storage, &kept.id));
    got.filter(|got| got.head != this.head).take(MOST).collect()
}

/// The section, if there were earlier ones.
pub fn blocks(earlier: &[MarksGot], this: &MarkedSession) -> Vec<Block> {
    let Some(last) = earlier.first() else { return Vec::new() };
    let now = this.marks.percent();
    let best = earlier.iter().map(|got| got.percent).fold(f64::MIN, f64::max);
    let change = now - last.percent;
    let beside_last = if change.abs() < 0.5 {
        "as many as the time before".to_owned()
    } else {
        let (by, word) = (change.abs(), if change > 0.0 { "more" } else { "fewer" });
        format!("{by:.0} {word} than the time before")
    };
    let beside_best = if now > best {
        "the best so far".to_owned()
    } else {
        format!("the best so far were {best:.0}")
    };
    let words = format!("{now:.0} of 100 marks this time: {beside_last}; {beside_best}.");
    let mut table = Table::new([
        ("session", CellAlign::Left),
        ("marks of 100", CellAlign::Right),
        ("", CellAlign::Left),
    ]);
    let verdict = |passed: bool| if passed { "passed" } else { "not passed" }.to_owned();
    table.total(["this one".to_owned(), format!("{now:.0}"), verdict(this.marks.passed)]);
    for (before, got) in (1..).zip(earlier) {
        let name = match before {
            1 => "the one before".to_owned(),
            before => format!("{before} before"),
        };
        table.row([name, format!("{:.0}", got.percent), verdict(got.passed)]);
    }
    vec![Block::Heading(HEADING.to_owned()), Block::Paragraph(words.into()), Block::Table(table)]
}
