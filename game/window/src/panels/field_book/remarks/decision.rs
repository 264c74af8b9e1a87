//! The decision: whether the calibration is accepted, and why.

use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use sim_core::field_book::Field;
use sim_core::session::action::Action;

use super::super::entry::EntryNote;
use super::form::{self, button, choices, heading, label, line};
use crate::desk::{Desk, GoTo, Said};
use crate::ui::controls::{AddRequest as _, Choice, Chosen, Request};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What is asked of the decision.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecisionRequest {
    /// This is the decision.
    Choose(Verdict),
    /// Write it into the book.
    Write,
}

/// Accepted or refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// The calibration is good.
    Accepted,
    /// It is not.
    Refused,
}

impl Verdict {
    /// As it is written.
    const fn word(self) -> &'static str {
        match self {
            Self::Accepted => "accepted",
            Self::Refused => "refused",
        }
    }
}

/// A decision that is not written yet.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Draft {
    verdict: Option<Verdict>,
    reason: String,
}

/// The line for the reason.
#[derive(Component)]
struct ReasonLine;

pub(super) struct DecisionPlugin;

impl Plugin for DecisionPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Draft>()
            .add_request::<DecisionRequest>()
            .add_systems(OnEnter(Screen::Bench), |mut draft: ResMut<Draft>| {
                // Left over from a session before this one.
                *draft = Draft::default();
            })
            .add_systems(
                Update,
                ((keep, obey).chain().in_set(Frame::Obey), (show, go_to).in_set(Frame::Show))
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)),
            );
    }
}

/// The part of the page for the decision.
pub(super) fn spawn(leaf: &mut ChildSpawnerCommands, draft: &Draft) {
    heading(leaf, "Decision");
    let verdicts = [Verdict::Accepted, Verdict::Refused].into_iter();
    choices(leaf, verdicts.map(|verdict| (DecisionRequest::Choose(verdict), verdict.word())));
    label(leaf, "because");
    leaf.spawn((ReasonLine, line("reason for the decision", &draft.reason)));
    button(leaf, "write the decision", DecisionRequest::Write);
    leaf.spawn((EntryNote(Field::Decision), theme::italic("", theme::SMALL, Tone::Caution)));
}

fn keep(lines: form::Changed<ReasonLine>, draft: ResMut<Draft>) {
    form::keep(&lines, draft.map_unchanged(|draft| &mut draft.reason));
}

fn obey(
    mut requests: MessageReader<DecisionRequest>,
    mut draft: ResMut<Draft>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
) {
    for request in requests.read() {
        match (request, draft.verdict) {
            (DecisionRequest::Choose(verdict), _) => draft.verdict = Some(*verdict),
            (DecisionRequest::Write, Some(verdict)) => {
                let text = match draft.reason.trim() {
                    "" => verdict.word().to_owned(),
                    reason => format!("{}: {reason}", verdict.word()),
                };
                desk.ask(Action::Write { field: Field::Decision, text });
            }
            (DecisionRequest::Write, None) => {
                let words = "Choose accepted or refused, then write the decision.";
                *said = Said::Notice(words.to_owned());
            }
        }
    }
}

/// Shows what is chosen.
fn show(draft: Res<Draft>, mut choices: Query<(&Request<DecisionRequest>, &mut Choice)>) {
    for (request, mut choice) in &mut choices {
        if let DecisionRequest::Choose(verdict) = request.0 {
            Choice::set(&mut choice, Chosen::when(draft.verdict, Some(verdict)));
        }
    }
}

/// Where a step is to decide, the focus goes to the choice: the decision is chosen, not typed.
fn go_to(
    mut go: ResMut<GoTo>,
    controls: Query<(Entity, &Request<DecisionRequest>)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let first = DecisionRequest::Choose(Verdict::Accepted);
    if *go == GoTo::Field(Field::Decision)
        && let Some((entity, _)) = controls.iter().find(|(_, request)| request.0 == first)
    {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}
