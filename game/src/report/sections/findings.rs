//! Every finding, opened to its evidence: the moment, the rule, why it matters, where it comes from,
//! and what it cost.

use sim_core::marking::cost::{CostOf, Costs};

use crate::report::cost_words::signed;
use crate::report::document::{Block, FindingBlock};
use crate::report::session::SessionReport;
use crate::report::words::{self, Together, points_words, together};

/// The section.
pub fn findings(report: &SessionReport<'_>) -> Vec<Block> {
    let findings = &report.ended.marks.findings;
    let mut blocks = vec![Block::Heading("Findings".to_owned())];
    if findings.is_empty() {
        blocks.push(Block::Paragraph("None: every rule in force was kept.".into()));
        return blocks;
    }
    let one = |(index, Together { finding, points }): (usize, Together<'_>)| {
        let points = match points_words(&points) {
            words if words.is_empty() => words,
            words => format!(", {words}"),
        };
        let time = report.start().after(finding.tick);
        Block::Finding(FindingBlock {
            number: (index + 1).to_string(),
            title: format!("{time}{points}: {}", finding.title),
            severity: severity(finding),
            moment: Some(finding.tick),
            evidence: finding.evidence.clone(),
            lines: vec![
                ("Why", finding.why.to_owned()),
                ("Source", words::source(finding)),
                ("Cost", cost(finding.rule, CostOf::Rule, &report.ended.costs)),
            ],
        })
    };
    blocks.extend(together(findings).into_iter().enumerate().map(one));
    blocks
}

/// What is at stake, and whether it decided the result.
fn severity(finding: &sim_core::procedure::ProcedureFinding) -> String {
    let name = words::severity(finding.severity);
    let decides = if finding.critical || finding.decisive { ", decides" } else { "" };
    format!("{name}{decides}")
}

/// What a slip or a fault cost, in words.
pub(super) fn cost(id: &str, of: CostOf, costs: &Costs) -> String {
    let Some(cost) = costs.each.iter().find(|cost| cost.id == id && cost.of == of) else {
        return "no volume hangs on it".to_owned();
    };
    let note = if cost.note.is_empty() { String::new() } else { format!(" ({})", cost.note) };
    match cost.cost_pct {
        Some(percent) => format!("{} % of the volume{note}", signed(percent)),
        None => format!("cannot be told{note}"),
    }
}
