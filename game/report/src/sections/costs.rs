//! What each slip and each fault cost, and the way from the trainee's volume to the true one.

use content::document::{CellAlign, RichText, Table};

use super::super::cost_words;
use super::super::document::Block;
use super::super::number_format::NumberFormat;
use super::super::plots::{Plot, WaterfallPlot};
use super::super::session::SessionReport;

/// The section.
pub fn costs(report: &SessionReport<'_>) -> Vec<Block> {
    let costs = &report.ended.costs;
    let mut blocks = vec![Block::Heading("What each slip cost".to_owned())];
    if let Some(run) = &costs.run {
        blocks.push(Block::Paragraph(cost_words::costed_run(run).into()));
    }
    let mut volumes =
        Table::new([("volume of that run", CellAlign::Left), ("std m³", CellAlign::Right)]);
    for (name, volume) in cost_words::volumes(costs) {
        volumes.row([name.to_owned(), NumberFormat::Plain(1).write_known(volume)]);
    }
    blocks.push(Block::Table(volumes));
    if costs.each.is_empty() {
        blocks.push(Block::Paragraph("No slip and no fault changed the volume.".into()));
    } else {
        let mut each = Table::new([
            ("slip or fault", CellAlign::Left),
            ("cost, %", CellAlign::Right),
            ("note", CellAlign::Left),
        ]);
        for cost in &costs.each {
            each.row([
                cost_words::title(cost),
                cost_words::percent(cost.cost_pct),
                cost.note.clone(),
            ]);
        }
        blocks.push(Block::Table(each));
    }
    let sentences = cost_words::sentences(costs);
    if !sentences.is_empty() {
        blocks.push(Block::List(sentences.into_iter().map(RichText::from).collect()));
    }
    if let Some(plot) = WaterfallPlot::of(costs) {
        blocks.push(Block::Plot {
            plot: Plot::Waterfall(plot),
            caption: "From the volume of your calibration line to the true volume. Each bar shows how the volume \
                      changes when one more slip is corrected, in percent of the true volume."
                .to_owned(),
            description: "A bar for each slip corrected, from your volume to the true volume."
                .to_owned(),
        });
    }
    blocks
}
