//! The calculations done for whoever asks, beside the plot, where the scenario allows it. Asking is in the
//! journal.

use bevy::prelude::*;
use bevy::text::EditableText;
use content::own_sums::OwnSums;
use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::{Action, HelpTopic};

use super::entry::{self, EntryField};
use crate::desk::{Book, Desk};
use crate::panels::help::{self, CopySums};
use crate::ui::controls::AddRequest as _;
use crate::ui::order::Frame;
use crate::ui::services::Speech;
use crate::ui::settings::Settings;

/// On the button.
pub const CALCULATE: &str = "do the calculations";

/// Asks for flows, corrected readings and line to be worked out from what is written.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct SumsRequest;

/// Where the calculations stand.
#[derive(Component)]
struct SumsPanel;

pub struct SumsPlugin;

impl Plugin for SumsPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<SumsRequest>().add_systems(
            Update,
            (work_out, copy).in_set(Frame::Obey).run_if(resource_exists::<Desk>),
        );
    }
}

/// An empty place for the calculations.
pub fn spawn(row: &mut ChildSpawnerCommands) {
    let node = Node {
        flex_direction: FlexDirection::Column,
        flex_grow: 1.0,
        row_gap: px(2),
        min_width: px(0),
        ..default()
    };
    row.spawn((SumsPanel, node));
}

fn work_out(
    mut requests: MessageReader<SumsRequest>,
    mut desk: ResMut<Desk>,
    (book, speech, settings): (Res<Book>, Res<Speech>, Res<Settings>),
    panels: Query<Entity, With<SumsPanel>>,
    mut commands: Commands,
) {
    if requests.read().count() == 0 {
        return;
    }
    desk.ask(Action::AskHelp { topic: HelpTopic::Sums });
    let (true, Ok(panel)) = (desk.papers.terms.sums, panels.single()) else { return };
    let averages = desk.papers.work_order.averages;
    let said = help::sums(speech.own_sums(&book.0, averages), settings.units);
    commands.entity(panel).despawn_children().with_children(|panel| help::lay_answer(panel, &said));
}

/// What was calculated, as it is written into the book.
fn as_written(own: &OwnSums) -> Vec<(Field, String)> {
    let point = |number: u8| PointNumber::all().find(|point| point.number() == number);
    let rows = own.points.iter().filter_map(|(number, flow, term)| {
        let point = point(*number)?;
        Some([
            (Field::PointFlow(point), format!("{flow:.3}")),
            (Field::ChartTerm(point), format!("{term:.2}")),
        ])
    });
    let line = [
        (Field::Slope, format!("{:.2}", own.slope)),
        (Field::Intercept, format!("{:.2}", own.intercept)),
        (Field::Correlation, format!("{:.4}", own.correlation)),
    ];
    rows.flatten().chain(line).collect()
}

/// Writes what was calculated where nothing stands. What the trainee wrote stays.
fn copy(
    mut requests: MessageReader<CopySums>,
    (book, speech): (Res<Book>, Res<Speech>),
    mut desk: ResMut<Desk>,
    mut fields: Query<(&EntryField, &mut EditableText)>,
) {
    if requests.read().count() == 0 || !desk.papers.terms.sums {
        return;
    }
    let averages = desk.papers.work_order.averages;
    let Ok(own) = speech.own_sums(&book.0, averages) else { return };
    entry::fill_blanks(&as_written(&own), &book, &mut desk, &mut fields);
}
