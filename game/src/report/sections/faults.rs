//! The faults revealed: where each sat, what gave it away, and what became of it.

use sim_core::fault::Fault;
use sim_core::marking::cost::CostOf;
use sim_core::marking::{FaultJudged, FaultVerdict};
use sim_core::session::action::Response;

use super::findings::cost;
use crate::report::document::{Block, FindingBlock};
use crate::report::session::SessionReport;
use crate::report::words;

/// The section.
pub fn faults(report: &SessionReport<'_>) -> Vec<Block> {
    let faults = &report.ended.marks.faults;
    let mut blocks = vec![Block::Heading("Faults".to_owned())];
    if faults.is_empty() {
        blocks.push(Block::Paragraph("Nothing was wrong, and nothing was reported.".into()));
    }
    let one = |(index, judged): (usize, &FaultJudged)| {
        let number = letter(index);
        Block::Finding(match &judged.fault {
            Some(fault) => there(report, number, judged, fault),
            None => groundless(report, number, judged),
        })
    };
    blocks.extend(faults.iter().enumerate().map(one));
    blocks
}

/// A fault that was in force.
fn there(
    report: &SessionReport<'_>,
    number: String,
    judged: &FaultJudged,
    fault: &Fault,
) -> FindingBlock {
    let sheet = fault.sheet();
    let right: Vec<&str> = sheet.right.iter().map(|response| response_words(*response)).collect();
    FindingBlock {
        number,
        title: format!("At the {}: {}", judged.place.words(), judged.what),
        severity: words::verdict(judged.verdict),
        moment: judged.reported,
        evidence: format!("Sign: {}", sheet.sign),
        lines: vec![
            ("Cause", sheet.cause.to_owned()),
            ("Check", sheet.check.to_owned()),
            ("In force", since(report, fault)),
            ("Right", right.join(", or ")),
            ("Done", done(report, judged)),
            ("Cost", cost(fault.name(), CostOf::Fault, &report.ended.costs)),
        ],
    }
}

/// A report where nothing was wrong.
fn groundless(report: &SessionReport<'_>, number: String, judged: &FaultJudged) -> FindingBlock {
    let evidence = match judged.verdict {
        FaultVerdict::Guessed => "The place was not looked at before; nothing was wrong there.",
        _ => "Nothing was wrong there.",
    };
    FindingBlock {
        number,
        title: format!("At the {}: “{}”", judged.place.words(), judged.what),
        severity: words::verdict(judged.verdict),
        moment: judged.reported,
        evidence: evidence.to_owned(),
        lines: vec![("Done", done(report, judged))],
    }
}

/// From when on a fault was in force, as far as an action shows it.
fn since(report: &SessionReport<'_>, fault: &Fault) -> String {
    let moments = &report.ended.signed.moments;
    let held = |moment: &&sim_core::session::ground_truth::EventRecord| {
        moment.before.faults.contains(fault)
    };
    match moments.iter().position(|moment| held(&moment)) {
        Some(0) => "from the start".to_owned(),
        Some(index) => {
            let time = moments.get(index).map(|moment| report.start().after(moment.tick));
            time.map_or_else(String::new, |time| format!("by {time}"))
        }
        None => "for a while only".to_owned(),
    }
}

fn done(report: &SessionReport<'_>, judged: &FaultJudged) -> String {
    let response = judged.response.map_or("", response_words);
    let gap = if response.is_empty() { "" } else { ", " };
    format!("{}{gap}{response}", words::reported(judged.reported, report.start()))
}

const fn response_words(response: Response) -> &'static str {
    match response {
        Response::Repaired => "put right on the roof",
        Response::Corrected => "allowed for in the sums",
        Response::Rejected => "not used",
        Response::Noted => "noted",
    }
}

/// `A`, `B`, … `Z`, and then numbers.
fn letter(index: usize) -> String {
    let letter = u8::try_from(index).ok().filter(|&index| index < 26);
    letter.map_or_else(|| (index + 1).to_string(), |index| char::from(b'A' + index).to_string())
}
