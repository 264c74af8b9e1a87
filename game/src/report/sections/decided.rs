//! What was decided and what was true: the lines, the set points, the volumes, and the points.

use sim_core::marking::compared::PointCompared;

use crate::report::document::{Block, Stands, Table};
use crate::report::figures::{Digits, OWN, REDONE, TRUE, UNKNOWN};
use crate::report::plots::{LinePlot, Plot, ResidualPlot};
use crate::report::session::SessionReport;

/// The section.
pub fn decided(report: &SessionReport<'_>) -> Vec<Block> {
    let right = Stands::Right;
    let mut blocks = vec![Block::Heading("What was decided and what was true".to_owned())];
    let rows = report.figures.rows([OWN, REDONE, TRUE]);
    if !rows.is_empty() {
        let mut table = Table::new([
            ("", Stands::Left),
            (OWN, right),
            (REDONE, right),
            (TRUE, right),
            ("unit", Stands::Left),
        ]);
        for (row, unit, [own, redone, truth]) in rows {
            table.row([row, own, redone, truth, unit.to_owned()]);
        }
        blocks.push(Block::Table(table));
        blocks.push(Block::Note(
            "Sums done again: from the readings in the field book, without rounding. Truth: what the rig does at rest \
             between the limits of the flow, nothing leaking, in the air at the end; the set point and the volume in \
             the air that the work order expects, at the chart reading of the day's run."
                .to_owned(),
        ));
    }
    let mut table =
        Table::new([("figure", Stands::Left), ("value", right), ("unit", Stands::Left)]);
    for (row, unit, [value]) in report.figures.rows(["value"]) {
        table.row([row, value, unit.to_owned()]);
    }
    if !table.rows.is_empty() {
        blocks.push(Block::Table(table));
        if report.compared.scatter.is_some() {
            blocks.push(Block::Note(
            "Standard errors and the interval come from the scatter of the own points about their line. They know \
             nothing of an error that all points share, such as a leak or a wrong pressure."
                .to_owned(),
        ));
        }
    }
    plots(report, &mut blocks);
    if report.compared.points.is_empty() {
        blocks.push(Block::Paragraph("No point of a calibration was taken.".into()));
    } else {
        blocks.push(Block::Subheading("Flow at each point, m³/min".to_owned()));
        blocks.push(Block::Table(points(report)));
    }
    blocks
}

fn plots(report: &SessionReport<'_>, blocks: &mut Vec<Block>) {
    if let Some(plot) = LinePlot::of(&report.compared) {
        blocks.push(Block::Plot {
            plot: Plot::Line(plot),
            caption: "Points and line as written, and what was true when they were taken: the flow that the sampler drew, and where its pen would have come to rest. Limits of the flow: 1.1 and 1.7 m³/min \
                      (40 CFR 50 App. B, 7.2 and 8.8)."
                .to_owned(),
            told: "Chart term against flow: own points and line, true pairs and line.".to_owned(),
        });
    }
    if let Some(plot) = ResidualPlot::of(&report.compared) {
        blocks.push(Block::Plot {
            plot: Plot::Residuals(plot),
            caption: "How far each point lies off the line through the own readings, enlarged. A true pair above zero: \
                      there the own line tells too much. Limit: 0.04 m³/min (calibration forms of the sampling \
                      manuals, from memory)."
                .to_owned(),
            told: "Distance of each point off the own line, with the limit of 0.04 m³/min.".to_owned(),
        });
    }
}

fn points(report: &SessionReport<'_>) -> Table {
    let right = Stands::Right;
    let mut table = Table::new([
        ("point", right),
        (OWN, right),
        (REDONE, right),
        (TRUE, right),
        ("off the own line", right),
    ]);
    let write = |value: Option<f64>, digits: Digits| {
        value.map_or_else(|| UNKNOWN.to_owned(), |value| digits.write(value))
    };
    let three = Digits::Plain(3);
    for point in &report.compared.points {
        let PointCompared { number, written, redone, truth, off_line_m3_min, .. } = point;
        let flow = |pair: &Option<sim_core::marking::compared::FlowTermPair>| {
            write(pair.map(|pair| pair.flow_std_m3_min), three)
        };
        let off = write(*off_line_m3_min, Digits::Signed(3));
        table.row([number.to_string(), flow(written), flow(redone), flow(truth), off]);
    }
    table
}
