//! A person's progress as a document, to be set as HTML or PDF.

use super::plots::{DivisionsPlot, MarksPlot};
use super::session::Scale;
use super::words::{begun, counted, error, nothing_next, percent, result};
use super::{LATELY, Progress};
use crate::document::{Block, Document, FindingBlock, Stands, Table, Text};
use crate::figures::UNKNOWN;
use crate::plots::Plot;
use crate::text::{CAUTION, severity};

/// The column that says when a session was begun.
const BEGUN: usize = 1;

/// The document.
pub fn document(progress: &Progress) -> Document {
    let mut blocks =
        vec![Block::Paragraph(counted(progress).into()), Block::Caution(CAUTION.to_owned())];
    next(progress, &mut blocks);
    sessions(progress, &mut blocks);
    rules(progress, &mut blocks);
    readings(progress, &mut blocks);
    left_out(progress, &mut blocks);
    Document {
        title: "Progress".to_owned(),
        foot: format!(
            "Steady Draw {}. Every session was had again from its journal.",
            progress.program
        ),
        blocks,
    }
}

fn next(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("What to practise next".to_owned()));
    if progress.next.is_empty() {
        blocks.push(Block::Paragraph(nothing_next(progress).into()));
    }
    for (index, advice) in progress.next.iter().enumerate() {
        let scenario = advice.scenario.as_ref();
        blocks.push(Block::Finding(FindingBlock {
            number: (index + 1).to_string(),
            title: advice.what.clone(),
            severity: scenario.map_or_else(String::new, |one| one.title.clone()),
            moment: None,
            evidence: advice.why.clone(),
            lines: scenario.map_or_else(Vec::new, |one| {
                vec![("File", one.file.clone()), ("Teaches", one.lesson.clone())]
            }),
        }));
    }
}

fn sessions(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Marks by part".to_owned()));
    if let Some(plot) = MarksPlot::of(progress) {
        let caption =
            "Each part in percent of what it could give, session after session.".to_owned();
        blocks.push(Block::Plot { plot: Plot::Marks(plot), told: caption.clone(), caption });
    }
    let (left, right) = (Stands::Left, Stands::Right);
    let mut table = Table::new([
        ("session", right),
        ("begun, UTC", left),
        ("scenario", left),
        ("safety", right),
        ("readings", right),
        ("fit", right),
        ("procedure", right),
        ("judgement", right),
        ("record", right),
        ("total", right),
        ("result", left),
    ]);
    for (index, session) in progress.sessions.iter().enumerate() {
        let [safety, readings, fit, procedure, judgement, record] =
            session.parts.map(|share| percent(share.percent));
        table.row([
            (index + 1).to_string(),
            begun(session),
            session.scenario.clone(),
            safety,
            readings,
            fit,
            procedure,
            judgement,
            record,
            format!("{:.1}", session.total),
            result(session).to_owned(),
        ]);
    }
    blocks.push(Block::Table(table.without_unknown(BEGUN, UNKNOWN)));
    blocks.push(Block::Note(
        "Parts in percent of what each could give; total in marks of 100. Sessions that no clock was told of stand \
         first, by the names of their journals."
            .to_owned(),
    ));
}

fn rules(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Rules that were broken".to_owned()));
    if progress.rules.is_empty() {
        blocks.push(Block::Paragraph("None.".into()));
        return;
    }
    let (left, right) = (Stands::Left, Stands::Right);
    let mut table = Table::new([
        ("rule", left),
        ("stake", left),
        ("sessions", right),
        ("of the last", right),
        ("keeps being broken", left),
    ]);
    let last = progress.sessions.len().min(LATELY);
    for rule in &progress.rules {
        table.row([
            rule.title.to_owned(),
            severity(rule.severity).to_owned(),
            format!("{} of {}", rule.broken, progress.sessions.len()),
            format!("{} of {last}", rule.lately),
            if rule.keeps { "yes" } else { "no" }.to_owned(),
        ]);
    }
    blocks.push(Block::Table(table));
}

fn readings(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Reading error in divisions".to_owned()));
    if let Some(plot) = DivisionsPlot::of(progress) {
        let caption =
            "Mean distance of the readings from what was to be seen, session after session."
                .to_owned();
        blocks.push(Block::Plot { plot: Plot::Divisions(plot), told: caption.clone(), caption });
    }
    let right = Stands::Right;
    let [legs, pen, air] = Scale::ALL.map(Scale::words);
    let mut table = Table::new([("session", right), (legs, right), (pen, right), (air, right)]);
    for (index, session) in progress.sessions.iter().enumerate() {
        let [legs, pen, air] = Scale::ALL.map(|scale| error(session, scale));
        table.row([(index + 1).to_string(), legs, pen, air]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(
        "Mean distance; in brackets the mean with its sign, plus when too much was written."
            .to_owned(),
    ));
}

fn left_out(progress: &Progress, blocks: &mut Vec<Block>) {
    if progress.left_out.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Journals left out".to_owned()));
    let one =
        |left: &super::LeftOut| Text::strong_then(left.file.clone(), format!(": {}", left.why));
    blocks.push(Block::List(progress.left_out.iter().map(one).collect()));
}
