//! The timeline: phases, waits, readings and findings, and what manometer and pen showed.

use content::document::{CellAlign, Table};
use content::names::phase_name;

use super::super::document::Block;
use super::super::number_format::duration;
use super::super::plots::{Plot, TimeLinePlot, TraceOf, TracePlot};
use super::super::session::SessionReport;

/// The section.
pub fn time(report: &SessionReport<'_>) -> Vec<Block> {
    let line = &report.time_line;
    let mut blocks = vec![
        Block::Heading("Timeline".to_owned()),
        Block::Plot {
            plot: Plot::TimeLine(TimeLinePlot::of(line)),
            caption: "The phases of your work, when you wrote readings, and where findings were made. Findings are \
                      shown by their numbers; those about safety are framed."
                .to_owned(),
            description: "A lane for each phase of the work, with waits, readings and findings."
                .to_owned(),
        },
        Block::Table(phases(report)),
    ];
    if let Some((from, to)) = line.away {
        let away = duration(to.seconds_since(from) / 60.0);
        let words = format!(
            "The sampler ran unattended for {away}; the scale of minutes leaves this time out."
        );
        blocks.push(Block::Paragraph(words.into()));
    }
    let marks = &report.ended.marks;
    for (of, caption) in [
        (
            TraceOf::Manometer,
            "The menisci as they were visible while the manometer was hung, where they would have stood without any \
             fault, and your readings at the times at which you wrote them.",
        ),
        (
            TraceOf::Pen,
            "The pen as it was visible while it was uncapped, where it would have stood without any fault, and your \
             readings at the times at which you wrote them.",
        ),
    ] {
        if let Some(plot) = TracePlot::of(of, report.track.samples(), line, marks) {
            blocks.push(Block::Plot {
                plot: Plot::Trace(plot),
                caption: caption.to_owned(),
                description: caption.to_owned(),
            });
        }
    }
    blocks
}

/// Each phase with its times and what happened in it.
fn phases(report: &SessionReport<'_>) -> Table {
    let right = CellAlign::Right;
    let mut phases = Table::new([
        ("phase", CellAlign::Left),
        ("first started", right),
        ("time, min", right),
        ("of it waiting", right),
        ("readings", right),
        ("findings", right),
    ]);
    let minutes = |seconds: f64| format!("{:.1}", seconds / 60.0);
    for phase in report.time_line.phases() {
        phases.row([
            phase_name(phase.phase).to_owned(),
            report.start().after(phase.first).to_string(),
            minutes(phase.spent_s),
            minutes(phase.waited_s),
            phase.readings.to_string(),
            phase.findings.to_string(),
        ]);
    }
    phases
}
