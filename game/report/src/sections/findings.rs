//! Every finding with its evidence: the time, the rule, why it matters, its source, and what it cost.

use content::document::{FindingBlock, RichText};
use sim_core::marking::cost::CostOf;
use sim_core::procedure::ProcedureFinding;
use words::source_words;

use super::super::cost_words::cost_of;
use super::super::document::Block;
use super::super::grouped_findings::{GroupedFinding, at_points, grouped};
use super::super::names;
use super::super::rule_outcomes;
use super::super::session::SessionReport;

/// The section.
pub fn findings(report: &SessionReport<'_>) -> Vec<Block> {
    let findings = &report.ended.marks.findings;
    let mut blocks = vec![Block::Heading("Findings".to_owned())];
    if findings.is_empty() {
        let text = "None: every rule that the work came to was followed.";
        blocks.push(Block::Paragraph(text.into()));
    }
    let one = |(index, GroupedFinding { finding, points }): (usize, GroupedFinding<'_>)| {
        let (time, points) = (report.start().after(finding.tick), at_points(&points));
        Block::Finding(FindingBlock {
            number: (index + 1).to_string(),
            title: format!("{time}{points}: {}", finding.title),
            severity: severity(finding),
            moment: Some(finding.tick),
            evidence: finding.evidence.clone(),
            lines: vec![
                ("Why", finding.why.to_owned()),
                ("Source", source_words(finding.source)),
                ("Cost", cost_of(finding.rule, CostOf::Rule, &report.ended.costs)),
            ],
        })
    };
    blocks.extend(grouped(findings).into_iter().enumerate().map(one));
    blocks.push(Block::Subheading("Rules and their outcomes".to_owned()));
    let outcomes = rule_outcomes::sentences(&report.ended.marks.rules);
    blocks.push(Block::List(outcomes.iter().map(RichText::from).collect()));
    blocks
}

/// What is at stake, and whether it decided the result.
fn severity(finding: &ProcedureFinding) -> String {
    let name = names::severity(finding.severity);
    let decides = if finding.critical || finding.decisive { ", decided the result" } else { "" };
    format!("{name}{decides}")
}
