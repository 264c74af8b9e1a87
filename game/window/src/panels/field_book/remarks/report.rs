//! A report of what was found wrong: where, what, and what was done about it. It is listed once the
//! journal has it.

use bevy::prelude::*;
use bevy::text::EditableText;
use sim_core::session::action::{Action, FaultPlace, Remark, Response};

use super::form::{self, button, choices, heading, label, line};
use crate::desk::{Desk, Reports, Said};
use crate::ui::controls::{AddRequest as _, Choice, Chosen, Request};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What is asked of a report.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReportRequest {
    /// It is about a fault here.
    Place(FaultPlace),
    /// This was done about it.
    Response(Response),
    /// Put it into the journal.
    Send,
}

/// Where faults are found, with their names.
const PLACES: [(FaultPlace, &str); 13] = [
    (FaultPlace::Manometer, "manometer"),
    (FaultPlace::Tube, "tube"),
    (FaultPlace::Calibrator, "calibrator"),
    (FaultPlace::Certificate, "certificate"),
    (FaultPlace::Mounting, "nuts, gaskets, plates"),
    (FaultPlace::Blower, "blower and power supply"),
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
    (Response::Corrected, "corrected in the calculations"),
    (Response::Rejected, "not used"),
    (Response::Noted, "noted only"),
];

/// A report that is not in the journal yet.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Draft {
    place: Option<FaultPlace>,
    what: String,
    response: Option<Response>,
}

/// What a report still lacks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Lacks {
    Place,
    What,
    Response,
}

impl Lacks {
    const fn words(self) -> &'static str {
        match self {
            Self::Place => "Choose where the fault is, then report it.",
            Self::What => "Write what is wrong, then report it.",
            Self::Response => "Choose what you did about it, then report it.",
        }
    }
}

impl Draft {
    /// The report, if it is whole.
    fn remark(&self) -> Result<Remark, Lacks> {
        let place = self.place.ok_or(Lacks::Place)?;
        let what = self.what.trim().to_owned();
        if what.is_empty() {
            return Err(Lacks::What);
        }
        Ok(Remark { place, what, response: self.response.ok_or(Lacks::Response)? })
    }
}

/// The line for what is wrong.
#[derive(Component)]
struct WhatLine;
/// The list of reports that are in the journal.
#[derive(Component)]
struct Listed;

pub(super) struct ReportPlugin;

impl Plugin for ReportPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Draft>()
            .add_request::<ReportRequest>()
            .add_systems(OnEnter(Screen::Bench), |mut draft: ResMut<Draft>| {
                // Left over from a session before this one.
                *draft = Draft::default();
            })
            .add_systems(
                Update,
                (
                    (keep, obey).chain().in_set(Frame::Obey),
                    (forget, show, list).chain().in_set(Frame::Show),
                )
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)),
            );
    }
}

/// The part of the page for a report.
pub(super) fn spawn(leaf: &mut ChildSpawnerCommands, draft: &Draft) {
    heading(leaf, "Report a fault");
    label(leaf, "where");
    choices(leaf, PLACES.iter().map(|(place, words)| (ReportRequest::Place(*place), *words)));
    label(leaf, "what is wrong");
    leaf.spawn((WhatLine, line("what is wrong, in your words", &draft.what)));
    label(leaf, "what you did about it");
    let responses = RESPONSES.iter();
    choices(leaf, responses.map(|(response, words)| (ReportRequest::Response(*response), *words)));
    button(leaf, "report it", ReportRequest::Send);
    leaf.spawn((Listed, theme::italic("", theme::SMALL, Tone::HandInk)));
}

fn keep(lines: form::Changed<WhatLine>, draft: ResMut<Draft>) {
    form::keep(&lines, draft.map_unchanged(|draft| &mut draft.what));
}

fn obey(
    mut requests: MessageReader<ReportRequest>,
    mut draft: ResMut<Draft>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
) {
    for request in requests.read() {
        match request {
            ReportRequest::Place(place) => draft.place = Some(*place),
            ReportRequest::Response(response) => draft.response = Some(*response),
            ReportRequest::Send => match draft.remark() {
                Ok(remark) => desk.ask(Action::Report(remark)),
                Err(lacks) => *said = Said::Notice(lacks.words().to_owned()),
            },
        }
    }
}

/// The draft of a report that the journal has is done with.
fn forget(
    reports: Res<Reports>,
    mut draft: ResMut<Draft>,
    mut lines: Query<&mut EditableText, With<WhatLine>>,
) {
    let sent = draft.remark().is_ok_and(|remark| reports.0.last() == Some(&remark));
    if !reports.is_changed() || !sent {
        return;
    }
    *draft = Draft::default();
    for mut line in &mut lines {
        line.clear();
    }
}

/// Shows what is chosen.
fn show(draft: Res<Draft>, mut choices: Query<(&Request<ReportRequest>, &mut Choice)>) {
    for (request, mut choice) in &mut choices {
        let chosen = match request.0 {
            ReportRequest::Place(place) => Chosen::when(draft.place, Some(place)),
            ReportRequest::Response(response) => Chosen::when(draft.response, Some(response)),
            ReportRequest::Send => Chosen::No,
        };
        Choice::set(&mut choice, chosen);
    }
}

/// Lists the reports that the journal has.
fn list(reports: Res<Reports>, mut lists: Query<(Ref<Listed>, &mut Text)>) {
    for (list, mut text) in &mut lists {
        if reports.is_changed() || list.is_added() {
            let lines: Vec<String> = reports.0.iter().map(in_words).collect();
            text.set_if_neq(Text::new(lines.join("\n")));
        }
    }
}

fn in_words(remark: &Remark) -> String {
    let place = PLACES.iter().find(|(place, _)| *place == remark.place).map_or("", |one| one.1);
    let response = RESPONSES.iter().find(|(response, _)| *response == remark.response);
    format!("{place}: {} ({})", remark.what, response.map_or("", |one| one.1))
}
