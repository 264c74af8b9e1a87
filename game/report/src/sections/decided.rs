//! The trainee's results beside the true values: calibration lines, set points, volumes, and points.

use content::document::{CellAlign, Table};
use sim_core::marking::compared::{FlowTermPair, PointCompared};

use super::super::document::Block;
use super::super::figures::{AS_WRITTEN, RECALCULATED, TRUE_VALUE};
use super::super::number_format::NumberFormat;
use super::super::plots::{CalibrationLinePlot, Plot, ResidualPlot};
use super::super::session::SessionReport;

/// The section.
pub fn decided(report: &SessionReport<'_>) -> Vec<Block> {
    let mut blocks = vec![Block::Heading("Your results and the true values".to_owned())];
    compared(report, &mut blocks);
    figures(report, &mut blocks);
    plots(report, &mut blocks);
    if report.compared.points.is_empty() {
        blocks.push(Block::Paragraph("No calibration point was taken.".into()));
    } else {
        blocks.push(Block::Subheading("Flow at each point, std m³/min".to_owned()));
        blocks.push(Block::Table(points(report)));
    }
    blocks
}

/// What was written, what follows from the readings, and what was true.
fn compared(report: &SessionReport<'_>, blocks: &mut Vec<Block>) {
    let rows = report.figures.rows([AS_WRITTEN, RECALCULATED, TRUE_VALUE]);
    if rows.is_empty() {
        return;
    }
    let right = CellAlign::Right;
    let mut table = Table::new([
        ("", CellAlign::Left),
        (AS_WRITTEN, right),
        (RECALCULATED, right),
        (TRUE_VALUE, right),
        ("unit", CellAlign::Left),
    ]);
    for (row, unit, [written, recalculated, truth]) in rows {
        table.row([row, written, recalculated, truth, unit.to_owned()]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(
        "Recalculated: from the readings in your field book, without rounding. True: the response of the rig at rest \
         between the flow limits, without leaks, in the air at the end of the session. Set point and volume are for \
         the air that the work order expects; the volumes are those of a 24-hour run at one chart reading."
            .to_owned(),
    ));
}

/// The single figures.
fn figures(report: &SessionReport<'_>, blocks: &mut Vec<Block>) {
    let mut table = Table::new([
        ("figure", CellAlign::Left),
        ("value", CellAlign::Right),
        ("unit", CellAlign::Left),
    ]);
    for (row, unit, [value]) in report.figures.rows(["value"]) {
        table.row([row, value, unit.to_owned()]);
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Table(table));
    if report.compared.scatter.is_some() {
        blocks.push(Block::Note(
            "The standard errors and the interval come from the scatter of your points about your line. They cannot \
             show an error that all points share, such as a leak or a wrong pressure."
                .to_owned(),
        ));
    }
}

fn plots(report: &SessionReport<'_>, blocks: &mut Vec<Block>) {
    if let Some(plot) = CalibrationLinePlot::of(&report.compared) {
        blocks.push(Block::Plot {
            plot: Plot::CalibrationLine(plot),
            caption: "Your points and your line as written, and the true values when each point was taken: the flow \
                      through the sampler, and the reading at which its pen would have come to rest. The points \
                      include 1.1 to 1.7 std m³/min (40 CFR Part 50, App. B, 9.3.8)."
                .to_owned(),
            description: "Corrected chart reading against flow: your points and line, and the true values and line."
                .to_owned(),
        });
    }
    if let Some(plot) = ResidualPlot::of(&report.compared) {
        blocks.push(Block::Plot {
            plot: Plot::Residuals(plot),
            caption: "Distance of each point from the line through your readings, enlarged. Where a true value lies \
                      above zero, your line gives too high a flow. Limit: 0.04 m³/min (common practice)."
                .to_owned(),
            description: "Distance of each point from your line, with the limit of 0.04 m³/min."
                .to_owned(),
        });
    }
}

fn points(report: &SessionReport<'_>) -> Table {
    let right = CellAlign::Right;
    let mut table = Table::new([
        ("point", right),
        (AS_WRITTEN, right),
        (RECALCULATED, right),
        (TRUE_VALUE, right),
        ("distance from your line", right),
    ]);
    let three = NumberFormat::Plain(3);
    for point in &report.compared.points {
        let PointCompared { number, written, redone, truth, off_line_m3_min, .. } = point;
        let flow =
            |pair: &Option<FlowTermPair>| three.write_known(pair.map(|pair| pair.flow_std_m3_min));
        let off = NumberFormat::Signed(3).write_known(*off_line_m3_min);
        table.row([number.to_string(), flow(written), flow(redone), flow(truth), off]);
    }
    table
}
