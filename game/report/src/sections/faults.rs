//! The faults revealed: where each was, what gave it away, and what became of it.

use content::document::FindingBlock;
use sim_core::fault::Fault;
use sim_core::marking::FaultJudged;
use sim_core::marking::cost::CostOf;
use sim_core::session::ground_truth::EventRecord;
use sim_core::session::signs::{FirstSign, Witness, first_sign};
use words::sight_name;

use super::super::cost_words::cost_of;
use super::super::document::Block;
use super::super::names;
use super::super::session::SessionReport;

/// The section.
pub fn faults(report: &SessionReport<'_>) -> Vec<Block> {
    let faults = &report.ended.marks.faults;
    let mut blocks = vec![Block::Heading("Faults".to_owned())];
    if faults.is_empty() {
        blocks.push(Block::Paragraph("There were no faults, and none was reported.".into()));
    }
    let one = |(index, judged): (usize, &FaultJudged)| {
        let number = letter(index);
        Block::Finding(match &judged.fault {
            Some(fault) => present(report, number, judged, fault),
            None => groundless(report, number, judged),
        })
    };
    blocks.extend(faults.iter().enumerate().map(one));
    blocks
}

/// A fault that was in force.
fn present(
    report: &SessionReport<'_>,
    number: String,
    judged: &FaultJudged,
    fault: &Fault,
) -> FindingBlock {
    let sheet = fault.sheet();
    let right: Vec<&str> = sheet.right.iter().map(|one| names::response(*one)).collect();
    FindingBlock {
        number,
        title: format!("At the {}: {}", judged.place.words(), judged.what),
        severity: names::verdict(judged.verdict).to_owned(),
        moment: judged.reported,
        evidence: format!("Sign: {}", sheet.sign),
        lines: vec![
            ("Cause", sheet.cause.to_owned()),
            ("Check", sheet.check.to_owned()),
            ("Present", since(report, fault)),
            ("Shown", shown(report, fault)),
            ("Expected", right.join(", or ")),
            ("Yours", done(report, judged)),
            ("Cost", cost_of(fault.name(), CostOf::Fault, &report.ended.costs)),
        ],
    }
}

/// A report where nothing was wrong. What the trainee wrote is in quotation marks.
fn groundless(report: &SessionReport<'_>, number: String, judged: &FaultJudged) -> FindingBlock {
    FindingBlock {
        number,
        title: format!("At the {}: “{}”", judged.place.words(), judged.what),
        severity: names::verdict(judged.verdict).to_owned(),
        moment: judged.reported,
        evidence: "Nothing of the kind was wrong there.".to_owned(),
        lines: vec![("Yours", done(report, judged))],
    }
}

/// From when on a fault could be told from a sound rig, by anybody and from what the trainee perceived.
fn shown(report: &SessionReport<'_>, fault: &Fault) -> String {
    let signed = &report.ended.session;
    let start = signed.setup.station.start;
    let told = |sign: FirstSign| {
        let time = start.after(sign.tick);
        match sign.at {
            Some(at) => format!("from {time}, by a look at the {}", sight_name(at)),
            None => format!("from {time}, by ear or by hand"),
        }
    };
    let Some(anybody) = first_sign(signed, fault, Witness::Anybody) else {
        return "at no time: nobody on the roof could have told it".to_owned();
    };
    match first_sign(signed, fault, Witness::Trainee) {
        Some(yours) => format!("{}; to you {}", told(anybody), told(yours)),
        None => format!("{}; nothing that you looked at showed it", told(anybody)),
    }
}

/// From when on a fault was in force, as far as an action shows it.
fn since(report: &SessionReport<'_>, fault: &Fault) -> String {
    let events = &report.ended.session.events;
    let held = |event: &EventRecord| event.before.faults.contains(fault);
    match events.iter().position(held) {
        Some(0) => "from the start".to_owned(),
        Some(index) => {
            let time = events.get(index).map(|event| report.start().after(event.tick));
            time.map_or_else(String::new, |time| format!("by {time}"))
        }
        None => "for part of the time only".to_owned(),
    }
}

/// What the trainee did about it.
fn done(report: &SessionReport<'_>, judged: &FaultJudged) -> String {
    let reported = names::reported(judged.reported, report.start());
    match judged.response {
        Some(response) => format!("{reported}, {}", names::response(response)),
        None => reported,
    }
}

/// `A`, `B`, … `Z`, and then numbers.
fn letter(index: usize) -> String {
    let letter = u8::try_from(index).ok().filter(|&index| index < 26);
    letter.map_or_else(|| (index + 1).to_string(), |index| char::from(b'A' + index).to_string())
}
