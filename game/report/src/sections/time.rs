//! The time line: phases, waits, readings and findings, and what manometer and pen showed.

use words::phase_name;

use crate::document::{Block, Stands, Table};
use crate::plots::{Plot, Read, TimeLinePlot, TracePlot};
use crate::session::SessionReport;

/// The section.
pub fn time(report: &SessionReport<'_>) -> Vec<Block> {
    let line = &report.time_line;
    let mut blocks = vec![Block::Heading("Time line".to_owned())];
    blocks.push(Block::Plot {
        plot: Plot::TimeLine(TimeLinePlot::of(line)),
        caption: "What was worked at, when readings were written, and where findings were made, by their numbers; \
                  those of safety in a frame."
            .to_owned(),
        told: "A lane for each phase of the work, with waits, readings and findings.".to_owned(),
    });
    let right = Stands::Right;
    let mut phases = Table::new([
        ("phase", Stands::Left),
        ("first begun", right),
        ("min", right),
        ("waited, min", right),
        ("readings", right),
        ("findings", right),
    ]);
    let minutes = |seconds: f64| format!("{:.1}", seconds / 60.0);
    for phase in line.phases() {
        phases.row([
            phase_name(phase.phase).to_owned(),
            report.start().after(phase.first).to_string(),
            minutes(phase.spent_s),
            minutes(phase.waited_s),
            phase.readings.to_string(),
            phase.findings.to_string(),
        ]);
    }
    blocks.push(Block::Table(phases));
    if let Some((from, to)) = line.away {
        let hours = to.seconds_since(from) / 3600.0;
        let words = format!(
            "The sampler was left alone for {hours:.1} h; the scale of minutes leaves them out."
        );
        blocks.push(Block::Paragraph(words.into()));
    }
    let marks = &report.ended.marks;
    for (of, caption) in [
        (
            Read::Manometer,
            "The menisci as they were to be seen while the manometer hung, where they would have stood without any fault, and the readings at the moments at which they were written.",
        ),
        (
            Read::Pen,
            "The pen as it was to be seen while it was uncapped, where it would have stood without any fault, and its readings at the moments at which they were written.",
        ),
    ] {
        if let Some(plot) = TracePlot::of(of, report.track.samples(), line, marks) {
            blocks.push(Block::Plot {
                plot: Plot::Trace(plot),
                caption: caption.to_owned(),
                told: caption.to_owned(),
            });
        }
    }
    blocks
}
