//! The briefing before a job, from the order and the terms of its scenario. It tells nothing that is
//! not on a paper of the trainee.

use content::briefing::Briefing;
use sim_core::scenario::setup::{
    CheckedLine, LessonHelp, LessonPhases, MarkPartName, SessionTerms, WorkOrder,
};
use sim_core::session::SitePapers;
use sim_core::session::action::ChecklistItem;

/// Minutes at the bench for a calibration without its points, and for each point (CHOSEN: what the
/// careful operator takes with the scenarios that come with the program, rounded up).
const CALIBRATION_MIN: [u32; 2] = [15, 3];
/// The same for a flow check and each of its readings.
const CHECK_MIN: [u32; 2] = [12, 2];
/// Minutes at the bench for setting up a run, recovering its sample and working out its volume.
const RUN_MIN: u32 = 60;
/// People who are learning take about so many times as long (CHOSEN).
const LEARNERS_TAKE: u32 = 2;

/// The briefing of a job.
pub fn briefing(papers: &SitePapers<'_>) -> Briefing {
    let (order, terms) = (papers.work_order, papers.terms);
    Briefing {
        expected: expected(order, terms),
        recorded: recorded(),
        time: time(order, terms),
        help: help(order, terms),
    }
}

/// The briefing as text: a heading and its sentences for each part.
pub fn briefing_text(briefing: &Briefing) -> String {
    let mut text = String::new();
    for (heading, sentences) in briefing.parts() {
        text.push_str(heading);
        text.push('\n');
        for sentence in sentences {
            text.push_str(&format!("  {sentence}\n"));
        }
    }
    text.truncate(text.trim_end().len());
    text
}

fn expected(order: &WorkOrder, terms: &SessionTerms) -> Vec<String> {
    if let Some(phases) = terms.phases {
        return lesson(phases, terms);
    }
    let job = match (order.flow_check.filter(|_| order.is_check_alone()), &order.run) {
        (Some(check), _) if check.line == CheckedLine::ControlledFlow => {
            "You calibrate the sampler at its controlled flow alone."
        }
        (Some(_), _) => "You check the flow of the sampler against a standard.",
        (None, Some(_)) => {
            "You calibrate the sampler, take one sample with it, and work out the volume."
        }
        (None, None) => "You calibrate the sampler and decide whether the line can be accepted.",
    };
    let mut said = vec![
        format!("{job} The work order says the rest."),
        "Do the work as you would on the roof, report whatever is wrong, and sign the field book."
            .to_owned(),
        format!(
            "You pass with {} of 100 marks, if no mandatory step is missed and nothing critical happens.",
            terms.pass_mark
        ),
    ];
    if !terms.assessed.is_empty() {
        let parts: Vec<&str> = terms.assessed.iter().copied().map(MarkPartName::words).collect();
        said.push(format!(
            "For a pass, these parts must have been assessed: {}.",
            parts.join(", ")
        ));
    }
    said
}

/// What is expected in a lesson.
fn lesson(phases: LessonPhases, terms: &SessionTerms) -> Vec<String> {
    vec![
        format!("This is a lesson on a part of the work: {}.", phases.words()),
        "What goes before has been done, and stands in the field book. Do your part, and sign."
            .to_owned(),
        format!("You pass with {} of 100 marks for this part.", terms.pass_mark),
    ]
}

fn recorded() -> Vec<String> {
    vec![
        "Every action, look and entry is recorded with its time, and so is every request for help."
            .to_owned(),
        "After you have signed, you are asked how good your work is. Your answer is recorded, and costs no marks."
            .to_owned(),
    ]
}

fn time(order: &WorkOrder, terms: &SessionTerms) -> Vec<String> {
    let minutes = usual_minutes(order);
    let whole = format!(
        "An operator who knows the work takes about {minutes} min at the bench. Allow {} min while you are learning.",
        LEARNERS_TAKE * minutes
    );
    let lesson = "A lesson takes five to ten minutes.".to_owned();
    let mut said = vec![if terms.phases.is_some() { lesson } else { whole }];
    if order.run.is_some() {
        said.push("The hours of the run are skipped while you are away.".to_owned());
    }
    said.push(match terms.time_limit_min {
        Some(limit) => format!(
            "The time limit is {limit} min. When it runs out, what you have written by then counts."
        ),
        None => "There is no time limit.".to_owned(),
    });
    said
}

/// Minutes that somebody who knows the work is at the bench.
fn usual_minutes(order: &WorkOrder) -> u32 {
    let of = |[whole, each]: [u32; 2], count: u8| whole + each * u32::from(count);
    let work = match order.flow_check.filter(|_| order.is_check_alone()) {
        Some(check) => of(CHECK_MIN, check.readings),
        None => of(CALIBRATION_MIN, order.points),
    };
    work + if order.run.is_some() { RUN_MIN } else { 0 }
}

fn help(order: &WorkOrder, terms: &SessionTerms) -> Vec<String> {
    let mut said = Vec::new();
    if terms.phases.is_some_and(|phases| phases.help == LessonHelp::Shown) {
        said.push("The next step is always shown.".to_owned());
    }
    if terms.help {
        said.push("You can ask what to do now, why, and to be shown the next step.".to_owned());
    } else {
        said.push("There is no help with the next step.".to_owned());
    }
    match (terms.sums, terms.plot) {
        (true, true) => said.push(
            "The calculations and a plot of your points are done for you on request.".to_owned(),
        ),
        (true, false) => said.push("The calculations are done for you on request.".to_owned()),
        (false, true) => said.push(
            "A plot of your points is made on request. You do the calculations yourself."
                .to_owned(),
        ),
        (false, false) => said.push("You do the calculations yourself.".to_owned()),
    }
    if terms.allows_checklist() {
        let count = ChecklistItem::of(order, terms).len();
        said.push(format!(
            "A checklist with the {count} phases of this job is at hand, for you to tick. No marks depend on it."
        ));
    }
    if terms.allows_readings_in_words() {
        said.push("If you cannot see a scale, you can have it read out.".to_owned());
    }
    said
}
