//! A person's progress as a document, to be set as a page or as a PDF.

use content::document::{CellAlign, FindingBlock, RichText, Table};

use super::super::document::{Block, Document};
use super::super::names::{CAUTION, severity};
use super::super::number_format::UNKNOWN;
use super::super::plots::Plot;
use super::calibration;
use super::calibration_plot::JudgementPlot;
use super::overview::{LeftOut, Progress};
use super::phrases::{
    begun, brier, counted, error, good_enough, minutes, no_advice, percent, plan_counted, result,
};
use super::plots::{DivisionsPlot, MarksPlot};
use super::recent::recent;
use super::session::ReadScale;

/// The column that says when a session was begun.
const BEGUN: usize = 1;

/// The document.
pub fn document(progress: &Progress) -> Document {
    let mut blocks =
        vec![Block::Paragraph(counted(progress).into()), Block::Caution(CAUTION.to_owned())];
    next_step(progress, &mut blocks);
    plan(progress, &mut blocks);
    drills(progress, &mut blocks);
    next(progress, &mut blocks);
    sessions(progress, &mut blocks);
    rules(progress, &mut blocks);
    readings(progress, &mut blocks);
    judgement(progress, &mut blocks);
    left_out(progress, &mut blocks);
    Document {
        title: match &progress.name {
            Some(name) => format!("Progress of {name}"),
            None => "Progress".to_owned(),
        },
        footer: format!(
            "Steady Draw {}. Every session was replayed from its journal.",
            progress.program
        ),
        blocks,
    }
}

fn next_step(progress: &Progress, blocks: &mut Vec<Block>) {
    let Some(step) = &progress.next_step else { return };
    blocks.push(Block::Heading("Next step".to_owned()));
    blocks.push(Block::Paragraph(RichText::strong_then(
        format!("{}. ", step.what),
        step.why.clone(),
    )));
    if let Some(command) = &step.command {
        blocks.push(Block::Note(format!("To do it: {command}")));
    }
}

fn plan(progress: &Progress, blocks: &mut Vec<Block>) {
    let Some(plan) = &progress.plan else { return };
    blocks.push(Block::Heading(format!("Lesson plan: {}", plan.title)));
    blocks.push(Block::Paragraph(plan_counted(plan).into()));
    let (left, right) = (CellAlign::Left, CellAlign::Right);
    let mut table = Table::new([
        ("step", right),
        ("kind", left),
        ("what", left),
        ("goes on until", left),
        ("about, min", right),
        ("where you stand", left),
        ("box", right),
    ]);
    for row in &plan.steps {
        table.row([
            row.number.to_string(),
            row.kind.to_owned(),
            row.title.clone(),
            row.until.clone(),
            minutes(row.minutes),
            row.state_words(),
            row.box_number.map_or_else(|| UNKNOWN.to_owned(), |number| number.to_string()),
        ]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(format!("{} Due again by {}", plan.time_source, plan.spacing_rule)));
}

fn drills(progress: &Progress, blocks: &mut Vec<Block>) {
    if progress.drills.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Drills".to_owned()));
    let (left, right) = (CellAlign::Left, CellAlign::Right);
    let mut table = Table::new([
        ("drill", left),
        ("attempts", right),
        ("of the last", right),
        ("right and in time", right),
        ("mean time, s", right),
        ("", left),
    ]);
    for row in &progress.drills {
        table.row([
            row.title.to_owned(),
            row.attempts.to_string(),
            row.of_last.to_string(),
            row.counting.to_string(),
            format!("{:.1}", row.seconds),
            good_enough(row).to_owned(),
        ]);
    }
    blocks.push(Block::Table(table));
}

fn judgement(progress: &Progress, blocks: &mut Vec<Block>) {
    let Some(judgement) = &progress.judgement else { return };
    blocks.push(Block::Heading("How well you judge your own work".to_owned()));
    blocks.push(Block::Paragraph(judgement.said.clone().into()));
    let caption = "How sure you were that your volume is as good as you said, and how often it was. On the dashed \
                   line you are as sure as you are right."
        .to_owned();
    let description = judgement.said.clone();
    let plot = Plot::Judgement(JudgementPlot::of(judgement));
    blocks.push(Block::Plot { plot, caption, description });
    blocks.push(Block::Note(format!("{} {}", brier(judgement), calibration::SOURCE)));
}

fn next(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("What to practise next".to_owned()));
    if progress.next.is_empty() {
        blocks.push(Block::Paragraph(no_advice(progress).into()));
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
                vec![("File", one.file.clone()), ("Situation", one.situation.clone())]
            }),
        }));
    }
}

fn sessions(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Marks by part".to_owned()));
    if let Some(plot) = MarksPlot::of(progress) {
        let caption =
            "Each part in percent of the marks that it can give, session by session.".to_owned();
        let description = caption.clone();
        blocks.push(Block::Plot { plot: Plot::Marks(plot), description, caption });
    }
    let (left, right) = (CellAlign::Left, CellAlign::Right);
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
        "Parts are in percent of the marks that each can give; the total is in marks of 100. Sessions whose journals \
         give no date come first, in the order of their file names."
            .to_owned(),
    ));
}

fn rules(progress: &Progress, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading("Rules that were broken".to_owned()));
    if progress.rules.is_empty() {
        blocks.push(Block::Paragraph("None.".into()));
        return;
    }
    let (left, right) = (CellAlign::Left, CellAlign::Right);
    let mut table = Table::new([
        ("rule", left),
        ("at stake", left),
        ("sessions", right),
        ("recent sessions", right),
        ("keeps being broken", left),
    ]);
    let last = recent(&progress.sessions).len();
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
            "Mean distance of your readings from what was visible, session by session.".to_owned();
        let description = caption.clone();
        blocks.push(Block::Plot { plot: Plot::Divisions(plot), description, caption });
    }
    let right = CellAlign::Right;
    let [legs, pen, air] = ReadScale::ALL.map(ReadScale::words);
    let mut table = Table::new([("session", right), (legs, right), (pen, right), (air, right)]);
    for (index, session) in progress.sessions.iter().enumerate() {
        let [legs, pen, air] = ReadScale::ALL.map(|scale| error(session, scale));
        table.row([(index + 1).to_string(), legs, pen, air]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(
        "Mean distance, and in brackets the mean with its sign; plus means that you wrote too much."
            .to_owned(),
    ));
}

fn left_out(progress: &Progress, blocks: &mut Vec<Block>) {
    if progress.left_out.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Journals left out".to_owned()));
    let one = |left: &LeftOut| RichText::strong_then(left.file.clone(), format!(": {}", left.why));
    blocks.push(Block::List(progress.left_out.iter().map(one).collect()));
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::lesson::ScenarioLesson;
    use super::super::lesson::tests::{lesson, passed};
    use super::super::session::SessionSummary;
    use super::super::session::tests::summary;
    use super::super::terminal;
    use super::*;

    /// What terminal and page say about what comes next.
    fn said(sessions: Vec<SessionSummary>, lessons: &[ScenarioLesson]) -> (String, bool) {
        let progress = Progress::of(sessions, Vec::new(), lessons);
        let mut out = Vec::new();
        terminal::write(&mut out, &progress).unwrap();
        let page = format!("{:?}", document(&progress).blocks);
        let on_page = page.contains(no_advice(&progress));
        (String::from_utf8(out).unwrap(), on_page)
    }

    #[test]
    fn where_no_scenario_is_at_hand_none_is_said_to_be_passed() {
        let (words, on_page) = said(vec![summary("a", &[])], &[]);
        assert!(words.contains("No scenarios were found"), "{words}");
        assert!(!words.contains("have passed") && on_page);

        let lesson = lesson("08_number_six");
        let (words, on_page) = said(vec![passed(&lesson)], &[lesson]);
        assert!(words.contains("you have passed every scenario at hand") && on_page, "{words}");
    }
}
