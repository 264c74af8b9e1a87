//! The last page: what was found wrong, the decision, remarks, and the signature.

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use bevy::text::EditableText;
use sim_core::field_book::Field;
use sim_core::session::action::{
    Action, Decision, FaultPlace, FaultReport, Response, SuspectedCause,
};

use super::entry;
use crate::desk::{Book, Desk, GoTo, Said};
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, Request, button, face};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme::{self, Theme};

/// What is asked of this page.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum RemarkRequest {
    /// Choose one of several.
    Choose(Choice),
    /// Put the report into the book.
    Report,
    /// Put the decision into the book.
    Decide,
    /// Sign; asks once more first.
    Sign,
}

/// Something chosen on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choice {
    /// Where a fault sits, counted as in the list.
    Place(usize),
    /// What was done about it, counted as in the list.
    Response(usize),
    /// Whether the calibration is accepted.
    Accepted(Verdict),
}

/// Accepted or refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// The calibration is good.
    Accepted,
    /// It is not.
    Refused,
}

/// Where faults sit, with their names.
const PLACES: [(FaultPlace, &str); 13] = [
    (FaultPlace::Manometer, "manometer"),
    (FaultPlace::Tube, "tube"),
    (FaultPlace::Calibrator, "calibrator"),
    (FaultPlace::Certificate, "certificate"),
    (FaultPlace::Mounting, "nuts, gaskets, plates"),
    (FaultPlace::Blower, "blower and supply"),
    (FaultPlace::FlowController, "flow controller"),
    (FaultPlace::Recorder, "recorder and chart"),
    (FaultPlace::Barometer, "barometer"),
    (FaultPlace::Thermometer, "thermometer"),
    (FaultPlace::Weather, "weather and roof"),
    (FaultPlace::Filter, "filter"),
    (FaultPlace::Timer, "timer"),
];

/// What is done about them.
const RESPONSES: [(Response, &str); 4] = [
    (Response::Repaired, "put right"),
    (Response::Corrected, "allowed for in the sums"),
    (Response::Rejected, "not used"),
    (Response::Noted, "only noted"),
];

/// What is being put together on this page.
#[derive(Resource, Debug, Clone, PartialEq, Default)]
pub struct Remarking {
    place: Option<usize>,
    response: Option<usize>,
    verdict: Option<Verdict>,
    sure: bool,
    reported: Vec<String>,
}

/// The words of a choice, told apart by a mark and not by colour alone.
#[derive(Component)]
struct ChoiceText(Choice, &'static str);
#[derive(Component)]
struct WhatField;
#[derive(Component)]
struct ReasonField;
#[derive(Component)]
struct ReportedText;
#[derive(Component)]
struct SignText;

pub struct RemarksPlugin;

impl Plugin for RemarksPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Remarking>()
            .add_request::<RemarkRequest>()
            .add_systems(OnEnter(Screen::Bench), |mut remarking: ResMut<Remarking>| {
                // Of a session before this one.
                *remarking = Remarking::default();
            })
            .add_systems(
                Update,
                (
                    obey.in_set(Frame::Obey).run_if(resource_exists::<Desk>),
                    (show.run_if(shown), go_to).in_set(Frame::Show),
                ),
            );
    }
}

fn shown(remarking: Res<Remarking>, added: Query<(), Added<SignText>>) -> bool {
    remarking.is_changed() || !added.is_empty()
}

/// The page.
pub fn spawn(leaf: &mut ChildSpawnerCommands, theme: &Theme, book: &Book, _now: &Remarking) {
    leaf.spawn(theme::bold("Something found wrong", theme::BODY, theme.ink));
    leaf.spawn(theme::text("where", theme::SMALL, theme.ink_soft));
    choices(leaf, theme, PLACES.iter().enumerate().map(|(at, place)| (Choice::Place(at), place.1)));
    leaf.spawn(theme::text("what", theme::SMALL, theme.ink_soft));
    leaf.spawn((WhatField, field(theme, "what is wrong, in your words")));
    leaf.spawn(theme::text("what was done about it", theme::SMALL, theme.ink_soft));
    let responses = RESPONSES.iter().enumerate();
    choices(leaf, theme, responses.map(|(at, response)| (Choice::Response(at), response.1)));
    leaf.spawn(Node { flex_shrink: 0.0, ..default() }).with_children(|row| {
        row.spawn(button(theme, "report it", RemarkRequest::Report));
    });
    leaf.spawn((ReportedText, theme::italic("", theme::SMALL, theme.hand_ink)));

    leaf.spawn(theme::bold("Decision", theme::BODY, theme.ink));
    let verdicts = [
        (Choice::Accepted(Verdict::Accepted), "accepted"),
        (Choice::Accepted(Verdict::Refused), "refused"),
    ];
    choices(leaf, theme, verdicts.into_iter());
    leaf.spawn(theme::text("because", theme::SMALL, theme.ink_soft));
    leaf.spawn((ReasonField, field(theme, "reason of the decision")));
    leaf.spawn(Node { flex_shrink: 0.0, ..default() }).with_children(|row| {
        row.spawn(button(theme, "write the decision", RemarkRequest::Decide));
    });
    leaf.spawn((entry::EntryNote(Field::Decision), theme::italic("", theme::SMALL, theme.caution)));

    entry::spawn(leaf, theme, book, Field::Remarks);
    leaf.spawn(Node { flex_shrink: 0.0, ..default() }).with_children(|row| {
        row.spawn(face(theme, "sign the field book", RemarkRequest::Sign, theme.caution_wash))
            .with_children(|button| {
                button.spawn((SignText, theme::bold("", theme::BODY, theme.ink)));
            });
    });
}

fn choices(
    leaf: &mut ChildSpawnerCommands,
    theme: &Theme,
    all: impl Iterator<Item = (Choice, &'static str)>,
) {
    leaf.spawn(Node {
        column_gap: px(4),
        row_gap: px(4),
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        for (choice, words) in all {
            row.spawn(face(theme, words, RemarkRequest::Choose(choice), theme.paper_shade))
                .with_children(|button| {
                    let text = theme::text(words, theme::SMALL, theme.ink);
                    button.spawn((ChoiceText(choice, words), text));
                });
        }
    });
}

fn field(theme: &Theme, label: &str) -> impl Bundle {
    (
        EditableText { max_characters: Some(300), ..default() },
        spoken(Role::TextInput, label, ""),
        TabIndex(0),
        theme::handwriting(theme),
        Node {
            width: percent(100),
            padding: UiRect::axes(px(4), px(3)),
            border: UiRect::all(px(1)),
            flex_shrink: 0.0,
            ..default()
        },
        BorderColor::all(theme.line),
        BackgroundColor(theme.page),
        theme::ring(),
    )
}

/// What is typed in a field of this page.
fn typed<T: Component>(fields: &Query<&EditableText, With<T>>) -> String {
    fields.single().map(|field| field.value().to_string().trim().to_owned()).unwrap_or_default()
}

fn obey(
    mut requests: MessageReader<RemarkRequest>,
    mut remarking: ResMut<Remarking>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
    what: Query<&EditableText, With<WhatField>>,
    reason: Query<&EditableText, With<ReasonField>>,
) {
    for request in requests.read() {
        match request {
            RemarkRequest::Choose(Choice::Place(at)) => remarking.place = Some(*at),
            RemarkRequest::Choose(Choice::Response(at)) => remarking.response = Some(*at),
            RemarkRequest::Choose(Choice::Accepted(verdict)) => remarking.verdict = Some(*verdict),
            RemarkRequest::Report => match remark(&remarking, typed(&what)) {
                Ok((remark, words)) => {
                    desk.ask(Action::Report(remark));
                    remarking.reported.push(words);
                    (remarking.place, remarking.response) = (None, None);
                }
                Err(why) => said.0 = why.to_owned(),
            },
            RemarkRequest::Decide => match remarking.verdict {
                None => said.0 = "Choose accepted or refused first.".to_owned(),
                Some(verdict) => {
                    let decision = match verdict {
                        Verdict::Accepted => Decision::CalibrationAccepted { line_moved: false },
                        Verdict::Refused => Decision::CalibrationRefused,
                    };
                    desk.ask(Action::Decide { decision, reason: typed(&reason) });
                }
            },
            RemarkRequest::Sign if remarking.sure => {
                desk.ask(Action::Sign);
                *remarking = Remarking::default();
            }
            RemarkRequest::Sign => {
                remarking.sure = true;
                continue;
            }
        }
        // Whatever else is done takes the hand off the pen again.
        if remarking.sure {
            remarking.sure = false;
        }
    }
}

/// The decision, where a step is to choose it, or the signature gets the focus.
fn go_to(
    mut go: ResMut<GoTo>,
    controls: Query<(Entity, &Request<RemarkRequest>)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let wanted = match *go {
        // The decision is chosen, not typed.
        GoTo::Field(Field::Decision) => RemarkRequest::Choose(Choice::Accepted(Verdict::Accepted)),
        GoTo::Signature => RemarkRequest::Sign,
        _ => return,
    };
    if let Some((entity, _)) = controls.iter().find(|(_, request)| request.0 == wanted) {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
        *go = GoTo::Nowhere;
    }
}

/// The report, or what is still missing.
fn remark(remarking: &Remarking, what: String) -> Result<(FaultReport, String), &'static str> {
    let place = remarking.place.and_then(|at| PLACES.get(at)).ok_or("Choose where it is first.")?;
    if what.is_empty() {
        return Err("Write what is wrong first.");
    }
    let response = remarking
        .response
        .and_then(|at| RESPONSES.get(at))
        .ok_or("Choose what was done about it first.")?;
    let words = format!("{}: {what} ({})", place.1, response.1);
    let (place, response) = (place.0, response.0);
    let cause = SuspectedCause::SomethingElse(what);
    let (seen, shown_by) = (String::new(), Vec::new());
    Ok((FaultReport { place, cause, seen, shown_by, response }, words))
}

fn show(
    remarking: Res<Remarking>,
    mut choices: Query<(&ChoiceText, &mut Text), (Without<ReportedText>, Without<SignText>)>,
    mut reported: Query<&mut Text, (With<ReportedText>, Without<SignText>)>,
    mut sign: Query<&mut Text, (With<SignText>, Without<ReportedText>)>,
) {
    for (ChoiceText(choice, words), mut text) in &mut choices {
        let chosen = match choice {
            Choice::Place(at) => remarking.place == Some(*at),
            Choice::Response(at) => remarking.response == Some(*at),
            Choice::Accepted(verdict) => remarking.verdict == Some(*verdict),
        };
        let said = if chosen { format!("\u{2022} {words}") } else { (*words).to_owned() };
        if text.0 != said {
            text.0 = said;
        }
    }
    if let Ok(mut text) = reported.single_mut() {
        text.0 = remarking.reported.join("\n");
    }
    if let Ok(mut text) = sign.single_mut() {
        text.0 = if remarking.sure {
            "press once more to sign: the session ends".to_owned()
        } else {
            "sign the field book".to_owned()
        };
    }
}
