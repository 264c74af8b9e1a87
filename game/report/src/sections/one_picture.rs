//! What the trainee thought of the work, and the one picture: the trainee's volume and the true one on
//! one scale, with the slips between them.

use content::document::RichText;
use sim_core::marking::own_judgement::judged;

use super::super::document::Block;
use super::super::judgement_words::sentences;
use super::super::plots::{OneScalePlot, Plot};
use super::super::session::SessionReport;

/// The section; empty where nothing was said and there is no volume.
pub fn one_picture(report: &SessionReport<'_>) -> Vec<Block> {
    let ended = report.ended;
    let own = ended.session.judgement.as_ref();
    let said = own.map(|own| sentences(&judged(own, &ended.marks))).unwrap_or_default();
    let claim = own.and_then(|own| own.volume).and_then(|claim| claim.off.limit_pct());
    let plot = OneScalePlot::of(&ended.costs, claim);
    let mut blocks = Vec::new();
    if said.is_empty() && plot.is_none() {
        return blocks;
    }
    blocks.push(Block::Heading("Your volume and the true one".to_owned()));
    if !said.is_empty() {
        blocks.push(Block::List(said.into_iter().map(RichText::from).collect()));
    }
    if let Some(plot) = plot {
        blocks.push(Block::Plot {
            description: plot.description(),
            plot: Plot::OneScale(plot),
            caption: "Your volume and the true one on one scale, in percent of the true volume. The bars between \
                      them are your slips, the largest first."
                .to_owned(),
        });
    }
    blocks
}
