//! The part of a page on which something is decided.

use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use sim_core::field_book::Struck;
use sim_core::session::action::Action;
use sim_core::time::Date;

use super::super::entry::EntryNote;
use super::super::form::{button, checks, choices, heading, label, line};
use super::draft::Drafts;
use super::question::{Consequence, Question, Verdict};
use crate::desk::{ActRequest, Desk, GoTo, Papers, Said};
use crate::ui::controls::{AddRequest as _, Choice, Chosen, Request};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What is asked of a decision.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecisionRequest {
    /// This is the answer.
    Choose(Verdict),
    /// State what follows from a failed check or from the control chart, or take it back.
    Toggle(Consequence),
    /// Write the answer into the field book.
    Write(Question),
}

/// Repairs that are offered as days since which flows are in doubt.
const MOST_REPAIRS: usize = 3;

/// The line for the reason.
#[derive(Component)]
struct ReasonLine(Question);

pub struct DecisionPlugin;

impl Plugin for DecisionPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Drafts>()
            .add_request::<DecisionRequest>()
            .add_systems(OnEnter(Screen::Bench), |mut drafts: ResMut<Drafts>| {
                // Left over from a session before this one.
                *drafts = Drafts::default();
            })
            .add_systems(
                Update,
                ((keep, obey).chain().in_set(Frame::Obey), (show, go_to).in_set(Frame::Show))
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)),
            );
    }
}

/// The part of the page for a question.
pub fn spawn(
    leaf: &mut ChildSpawnerCommands,
    question: Question,
    (papers, drafts): (&Papers, &Drafts),
) {
    heading(leaf, question.heading());
    let verdicts = question.verdicts().iter();
    let offered = verdicts.map(|&verdict| (DecisionRequest::Choose(verdict), verdict.words()));
    choices(leaf, question.heading(), offered);
    match question {
        Question::Check => consequences(leaf, last_good(papers)),
        Question::History => of_signal(leaf, papers),
        Question::Calibration | Question::Sample => {}
    }
    label(leaf, "because");
    leaf.spawn((
        ReasonLine(question),
        line("reason for the decision", &drafts.about(question).reason),
    ));
    button(leaf, "write the decision", DecisionRequest::Write(question));
    let strike = Action::Strike { what: Struck::Field(question.field()) };
    button(leaf, "strike out the decision", ActRequest(strike));
    leaf.spawn((EntryNote(question.field()), theme::italic("", theme::SMALL, Tone::HandInk)));
}

/// What follows if the check failed.
fn consequences(leaf: &mut ChildSpawnerCommands, last_good: Option<Date>) {
    label(leaf, "if it failed, what follows");
    let again = (Consequence::CalibrateAgain, "calibrate again".to_owned());
    let since = last_good.map(|date| {
        let words = format!("samples since {date} (the last good check) are not valid");
        (Consequence::SamplesNotValid, words)
    });
    let offered = std::iter::once(again).chain(since);
    checks(
        leaf,
        "what follows from a failed check",
        offered.map(|(consequence, words)| (DecisionRequest::Toggle(consequence), words)),
    );
}

/// What follows from a signal on the control chart. The days of repairs are offered, the last first,
/// and that of the last good check.
fn of_signal(leaf: &mut ChildSpawnerCommands, papers: &Papers) {
    label(leaf, "if it is not in control, what follows");
    let again = (Consequence::CalibrateForChart, "calibrate again".to_owned());
    let since = |date: Date, what: &str| {
        (Consequence::InDoubtSince(date), format!("flows since {date} ({what}) are in doubt"))
    };
    let repairs = papers.work_order.history.iter().flat_map(|history| {
        history.repairs().rev().take(MOST_REPAIRS).map(|(date, _)| since(date, "a repair"))
    });
    let good = last_good(papers).map(|date| since(date, "the last good check"));
    checks(
        leaf,
        "what follows from the control chart",
        std::iter::once(again)
            .chain(repairs)
            .chain(good)
            .map(|(consequence, words)| (DecisionRequest::Toggle(consequence), words)),
    );
}

/// The day of the last good check, from the work order.
fn last_good(papers: &Papers) -> Option<Date> {
    papers.work_order.flow_check.and_then(|check| check.last_good)
}

/// Keeps what is typed.
fn keep(
    lines: Query<(&ReasonLine, &EditableText), Changed<EditableText>>,
    mut drafts: ResMut<Drafts>,
) {
    for (ReasonLine(question), typed) in &lines {
        let typed = typed.value().to_string();
        if drafts.about(*question).reason != typed {
            drafts.about_mut(*question).reason = typed;
        }
    }
}

fn obey(
    mut requests: MessageReader<DecisionRequest>,
    mut drafts: ResMut<Drafts>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
) {
    for request in requests.read() {
        match request {
            DecisionRequest::Choose(verdict) => {
                drafts.about_mut(verdict.question()).choose(*verdict);
            }
            DecisionRequest::Toggle(consequence) => {
                drafts.about_mut(consequence.question()).toggle(*consequence);
            }
            DecisionRequest::Write(question) => {
                let draft = drafts.about(*question);
                match draft.decision(last_good(&desk.papers)) {
                    Some(decision) => {
                        let reason = draft.reason.trim().to_owned();
                        desk.ask(Action::Decide { decision, reason });
                    }
                    None => *said = Said::Notice(choose_first(*question)),
                }
            }
        }
    }
}

/// What is said where nothing is chosen yet.
fn choose_first(question: Question) -> String {
    let words: Vec<&str> = question.verdicts().iter().map(|one| one.words()).collect();
    format!("Choose {}, then write the decision.", words.join(" or "))
}

/// Shows what is chosen.
fn show(drafts: Res<Drafts>, mut choices: Query<(&Request<DecisionRequest>, &mut Choice)>) {
    for (request, mut choice) in &mut choices {
        let chosen = match request.0 {
            DecisionRequest::Choose(verdict) => {
                Chosen::when(drafts.about(verdict.question()).verdict, Some(verdict))
            }
            DecisionRequest::Toggle(consequence) => {
                Chosen::when(drafts.about(consequence.question()).states(consequence), true)
            }
            DecisionRequest::Write(_) => Chosen::No,
        };
        Choice::set(&mut choice, chosen);
    }
}

/// Where a step is to decide, the focus goes to the first answer.
fn go_to(
    mut go: ResMut<GoTo>,
    controls: Query<(Entity, &Request<DecisionRequest>)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let GoTo::Field(field) = *go else { return };
    let first = Question::of(field).and_then(|question| question.verdicts().first());
    let Some(first) = first.map(|&verdict| DecisionRequest::Choose(verdict)) else { return };
    if let Some((entity, _)) = controls.iter().find(|(_, request)| request.0 == first) {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}
