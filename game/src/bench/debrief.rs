//! After signing: the marks part by part, and every finding.

use bevy::input_focus::tab_navigation::TabGroup;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;
use sim_core::procedure::Finding;
use sim_core::time::TimeOfDay;

use super::Screen;
use super::controls::{Ask, button};
use super::desk::{Desk, Seen};
use super::overlay::FocusFirst;
use super::settings::Settings;
use super::theme::{self, Theme};
use crate::commands::session_files::{Ended, end_of};
use crate::report::words;

/// What the session came to.
#[derive(Resource)]
struct Outcome(Result<Ended, String>);

#[derive(Component)]
struct DebriefRoot;

pub struct DebriefPlugin;

impl Plugin for DebriefPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(OnEnter(Screen::Debrief), (mark, spawn).chain())
            .add_systems(OnExit(Screen::Debrief), clear)
            .add_systems(Update, leave.run_if(in_state(Screen::Debrief)))
            .add_systems(
                PreUpdate,
                (clear, spawn)
                    .chain()
                    .run_if(in_state(Screen::Debrief))
                    .run_if(resource_changed::<Settings>),
            );
    }
}

/// Opens the truth and marks the session.
fn mark(mut desk: ResMut<Desk>, mut commands: Commands) {
    let outcome = match desk.take() {
        Some(session) => end_of(session).map_err(|error| error.to_string()),
        None => Err("there is no session to mark".to_owned()),
    };
    commands.insert_resource(Outcome(outcome));
    commands.remove_resource::<Desk>();
    commands.remove_resource::<Seen>();
}

fn clear(roots: Query<Entity, With<DebriefRoot>>, mut commands: Commands) {
    for root in &roots {
        commands.entity(root).despawn();
    }
}

fn leave(mut asks: MessageReader<Ask>, mut next: ResMut<NextState<Screen>>) {
    if asks.read().any(|ask| *ask == Ask::Leave) {
        next.set(Screen::Start);
    }
}

fn spawn(settings: Res<Settings>, outcome: Res<Outcome>, mut commands: Commands) {
    let theme = Theme::of(settings.contrast);
    commands
        .spawn((
            DebriefRoot,
            TabGroup::new(0),
            ScrollArea,
            FocusFirst,
            Node {
                width: percent(100),
                height: percent(100),
                flex_direction: FlexDirection::Column,
                padding: UiRect::axes(percent(6), px(24)),
                row_gap: px(10),
                overflow: Overflow::scroll_y(),
                ..default()
            },
            BackgroundColor(theme.paper),
        ))
        .with_children(|root| {
            root.spawn(theme::bold("Debrief", 2.2, theme.ink));
            match &outcome.0 {
                Ok(ended) => told(root, &theme, ended),
                Err(why) => {
                    root.spawn(theme::bold(why.clone(), theme::BODY, theme.caution));
                }
            }
            root.spawn(Node { flex_shrink: 0.0, ..default() }).with_children(|row| {
                row.spawn(button(&theme, "back to the scenarios", Ask::Leave));
            });
        });
}

/// The marks and the findings.
fn told(root: &mut ChildSpawnerCommands, theme: &Theme, ended: &Ended) {
    let Ended { signed, head, marks, .. } = ended;
    root.spawn(theme::bold(words::result(marks), theme::HEAD, theme.ink));
    if let Some(gate) = &marks.gate {
        let why = format!("It stands above the sum: {}. {}", gate.title, gate.evidence);
        root.spawn(theme::bold(why, theme::BODY, theme.caution));
    }
    for part in &marks.parts {
        let name = words::part_name(part.name);
        let line = format!("{name}: {:.1} of {:.0}", part.got, part.weight);
        root.spawn(theme::bold(line, theme::BODY, theme.ink));
        for reason in &part.reasons {
            root.spawn(theme::text(format!("\u{2013} {reason}"), theme::SMALL, theme.ink_soft));
        }
    }
    if let Some(error) = marks.set_point_flow_error_pct {
        let line = format!("Volumes at the ordered flow by your own line: {error:+.1} %.");
        root.spawn(theme::text(line, theme::BODY, theme.ink));
    }
    root.spawn(theme::bold("Findings", theme::HEAD, theme.ink));
    if marks.findings.is_empty() {
        root.spawn(theme::text("None.", theme::BODY, theme.ink));
    }
    for finding in &marks.findings {
        found(root, theme, finding, signed.setup.station.start);
    }
    let seal = format!("Head of the journal: {head}");
    root.spawn(theme::text(seal, theme::SMALL, theme.ink_soft));
}

fn found(root: &mut ChildSpawnerCommands, theme: &Theme, finding: &Finding, start: TimeOfDay) {
    let sheet = Node {
        flex_direction: FlexDirection::Column,
        padding: UiRect::axes(px(12), px(8)),
        row_gap: px(3),
        flex_shrink: 0.0,
        ..default()
    };
    root.spawn(theme::sheet(theme, sheet)).with_children(|sheet| {
        let time = start.after(finding.tick);
        let severity = words::severity(finding.severity);
        let point = finding.point.map_or_else(String::new, |point| format!(", point {point}"));
        let title = format!("{time}{point}: {} ({severity})", finding.title);
        sheet.spawn(theme::bold(title, theme::BODY, theme.ink));
        sheet.spawn(theme::text(finding.evidence.clone(), theme::BODY, theme.ink));
        sheet.spawn(theme::text(finding.why, theme::SMALL, theme.ink_soft));
        sheet.spawn(theme::italic(words::source(finding), theme::SMALL, theme.ink_soft));
    });
}
