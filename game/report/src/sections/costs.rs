//! What each slip and each fault cost, and the way from the own volume to the true one.

use crate::cost_words;
use crate::document::{Block, Stands, Table, Text};
use crate::plots::{Plot, WaterfallPlot};
use crate::session::SessionReport;

/// The section.
pub fn costs(report: &SessionReport<'_>) -> Vec<Block> {
    let costs = &report.ended.costs;
    let mut blocks = vec![Block::Heading("What each slip cost".to_owned())];
    if let Some(run) = &costs.run {
        blocks.push(Block::Paragraph(cost_words::of_run(run).into()));
    }
    let mut volumes = Table::new([("volume of that run", Stands::Left), ("m³", Stands::Right)]);
    for (name, volume) in cost_words::volumes(costs) {
        let text = volume.map_or_else(|| "–".to_owned(), |volume| format!("{volume:.1}"));
        volumes.row([name.to_owned(), text]);
    }
    blocks.push(Block::Table(volumes));
    if costs.each.is_empty() {
        blocks.push(Block::Paragraph("No slip and no fault moved a volume.".into()));
    } else {
        let mut each = Table::new([
            ("slip or fault", Stands::Left),
            ("cost, %", Stands::Right),
            ("note", Stands::Left),
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
        blocks.push(Block::List(sentences.into_iter().map(Text::from).collect()));
    }
    if let Some(plot) = WaterfallPlot::of(costs) {
        blocks.push(Block::Plot {
            plot: Plot::Waterfall(plot),
            caption: "From the volume by the own line to the true one: each bar is what changes when that slip is \
                      undone as well, in percent of the true volume."
                .to_owned(),
            told: "A bar for each slip undone, from the own volume to the true one.".to_owned(),
        });
    }
    blocks
}
