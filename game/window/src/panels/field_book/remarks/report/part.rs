//! The part of the page for a report: where, what is suspected, what was seen, and what was done about it.
//! A report is listed once the journal has it.

use bevy::prelude::*;
use bevy::text::EditableText;
use sim_core::session::action::{Action, FaultPlace, Response};

use super::super::super::form::{self, button, choices, heading, label, line};
use super::draft::{Draft, PLACES, RESPONSES, Suspected, in_words};
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
    /// This is suspected.
    Cause(Suspected),
    /// This was done about it.
    Response(Response),
    /// Put it into the journal.
    Send,
}

/// The group of what can be suspected, with the place for which it is laid out.
#[derive(Component)]
struct Causes(Option<FaultPlace>);
/// What stands about the line for something else, and whether the line is in it.
#[derive(Component)]
struct OtherPlace(bool);
/// The line for something else.
#[derive(Component)]
struct OtherLine;
/// The line for what was seen.
#[derive(Component)]
struct SeenLine;
/// The list of reports that are in the journal.
#[derive(Component)]
struct Listed;

pub struct ReportPlugin;

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
                    (keep_other, keep_seen, obey).chain().in_set(Frame::Obey),
                    (forget, lay_causes, lay_other).chain().in_set(Frame::Lay),
                    (show, list).in_set(Frame::Show),
                )
                    .run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)),
            );
    }
}

/// The part of the page for a report.
pub fn spawn(leaf: &mut ChildSpawnerCommands, draft: &Draft) {
    heading(leaf, "Report a fault");
    label(leaf, "where");
    let places = PLACES.iter();
    choices(leaf, "where", places.map(|(place, words)| (ReportRequest::Place(*place), *words)));
    label(leaf, "what you suspect");
    leaf.spawn((Causes(draft.place), form::group("what you suspect")))
        .with_children(|group| causes(group, draft.place));
    leaf.spawn((
        OtherPlace(draft.needs_words()),
        Node { flex_direction: FlexDirection::Column, flex_shrink: 0.0, ..default() },
    ))
    .with_children(|place| other(place, draft));
    label(leaf, "what you saw, heard or felt (optional)");
    leaf.spawn((SeenLine, line("what you saw, heard or felt", &draft.seen)));
    label(leaf, "what you did about it");
    let responses = RESPONSES.iter();
    choices(
        leaf,
        "what you did about it",
        responses.map(|(response, words)| (ReportRequest::Response(*response), *words)),
    );
    button(leaf, "report it", ReportRequest::Send);
    leaf.spawn((Listed, theme::italic("", theme::SMALL, Tone::HandInk)));
}

/// What can be suspected at a place.
fn causes(group: &mut ChildSpawnerCommands, place: Option<FaultPlace>) {
    let Some(place) = place else {
        let words = "First choose where the fault is.";
        group.spawn(theme::italic(words, theme::SMALL, Tone::InkSoft));
        return;
    };
    form::fill(group, Suspected::at(place).map(|one| (ReportRequest::Cause(one), one.words())));
}

/// The line for something else, where that is suspected.
fn other(place: &mut ChildSpawnerCommands, draft: &Draft) {
    if draft.needs_words() {
        place.spawn((OtherLine, line("what you suspect, in your words", &draft.other)));
    }
}

fn keep_other(lines: form::Changed<OtherLine>, draft: ResMut<Draft>) {
    form::keep(&lines, draft.map_unchanged(|draft| &mut draft.other));
}

fn keep_seen(lines: form::Changed<SeenLine>, draft: ResMut<Draft>) {
    form::keep(&lines, draft.map_unchanged(|draft| &mut draft.seen));
}

fn obey(
    mut requests: MessageReader<ReportRequest>,
    mut draft: ResMut<Draft>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
) {
    for request in requests.read() {
        match request {
            ReportRequest::Place(place) => draft.choose_place(*place),
            ReportRequest::Cause(cause) => draft.cause = Some(*cause),
            ReportRequest::Response(response) => draft.response = Some(*response),
            ReportRequest::Send => match draft.report() {
                Ok(report) => desk.ask(Action::Report(report)),
                Err(lacks) => *said = Said::Notice(lacks.words().to_owned()),
            },
        }
    }
}

/// The draft of a report that the journal has is done with.
fn forget(
    reports: Res<Reports>,
    mut draft: ResMut<Draft>,
    mut lines: Query<&mut EditableText, Or<(With<SeenLine>, With<OtherLine>)>>,
) {
    if !reports.is_changed() {
        return;
    }
    let sent = draft.report().is_ok_and(|report| reports.0.last() == Some(&report));
    if !sent {
        return;
    }
    *draft = Draft::default();
    for mut line in &mut lines {
        line.clear();
    }
}

/// Lays out what can be suspected where another place is chosen.
fn lay_causes(draft: Res<Draft>, mut groups: Query<(Entity, &mut Causes)>, mut commands: Commands) {
    for (entity, mut laid) in &mut groups {
        if laid.0 != draft.place {
            laid.0 = draft.place;
            let mut group = commands.entity(entity);
            group.despawn_children().with_children(|group| causes(group, draft.place));
        }
    }
}

/// Gives a line to what is suspected where it is something else.
fn lay_other(
    draft: Res<Draft>,
    mut places: Query<(Entity, &mut OtherPlace)>,
    mut commands: Commands,
) {
    for (entity, mut has_line) in &mut places {
        if has_line.0 != draft.needs_words() {
            has_line.0 = draft.needs_words();
            let mut place = commands.entity(entity);
            place.despawn_children().with_children(|place| other(place, &draft));
        }
    }
}

/// Shows what is chosen.
fn show(draft: Res<Draft>, mut choices: Query<(&Request<ReportRequest>, &mut Choice)>) {
    for (request, mut choice) in &mut choices {
        let chosen = match request.0 {
            ReportRequest::Place(place) => Chosen::when(draft.place, Some(place)),
            ReportRequest::Cause(cause) => Chosen::when(draft.cause, Some(cause)),
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
