//! A plot of the trainee's own points, when it is asked for and the scenario allows it.

use bevy::prelude::*;
use content::plot::OwnLines;
use sim_core::field_book::{Field, FieldBook, PointNumber};
use sim_core::session::action::{Action, HelpTopic};

use crate::desk::{Book, Desk};
use crate::panels::plot;
use crate::ui::controls::AddRequest as _;
use crate::ui::order::Frame;
use crate::ui::services::Reporting;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// Asks for the points that are written to be drawn.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlotRequest;

/// Where the plot is drawn.
#[derive(Component)]
struct PlotPanel;

pub struct OwnPlotPlugin;

impl Plugin for OwnPlotPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<PlotRequest>()
            .add_systems(Update, draw.in_set(Frame::Obey).run_if(resource_exists::<Desk>));
    }
}

/// An empty place for the plot.
pub fn spawn(leaf: &mut ChildSpawnerCommands) {
    let node = Node {
        flex_direction: FlexDirection::Column,
        flex_grow: 3.0,
        min_width: percent(60),
        ..default()
    };
    leaf.spawn((PlotPanel, node));
}

/// Flow and corrected chart reading of every point for which both are written as numbers.
fn own_points(book: &FieldBook) -> Vec<(f64, f64)> {
    PointNumber::all()
        .filter_map(|point| {
            let flow = book.number(Field::PointFlow(point))?;
            let term = book
                .number(Field::ChartTerm(point))
                .or_else(|| book.number(Field::Chart(point)))?;
            Some((flow, term))
        })
        .collect()
}

/// Slope and intercept of the line, once both are written as numbers.
fn own_line(book: &FieldBook) -> Option<(f64, f64)> {
    Some((book.number(Field::Slope)?, book.number(Field::Intercept)?))
}

/// What is to be seen on the plot, for those who hear it.
fn told(points: &[(f64, f64)]) -> String {
    let said: Vec<String> =
        points.iter().map(|(flow, term)| format!("{term} at {flow} std m\u{b3}/min")).collect();
    format!("Your points, corrected chart reading against flow: {}.", said.join("; "))
}

fn draw(
    mut requests: MessageReader<PlotRequest>,
    mut desk: ResMut<Desk>,
    (book, reports): (Res<Book>, Res<Reporting>),
    panels: Query<Entity, With<PlotPanel>>,
    mut commands: Commands,
) {
    if requests.read().count() == 0 {
        return;
    }
    desk.ask(Action::AskHelp { topic: HelpTopic::Plot });
    let (true, Ok(panel)) = (desk.papers.terms.plot, panels.single()) else { return };
    let points = own_points(&book.0);
    let axes = ["flow, std m\u{b3}/min", "corrected chart reading"];
    let last = desk.papers.work_order.last_line.as_ref();
    let lines =
        OwnLines { own: own_line(&book.0), last: last.map(|line| (line.slope, line.intercept)) };
    let drawn = reports.own_points_plot(&points, lines, axes);
    commands.entity(panel).despawn_children().with_children(|panel| match drawn {
        Some(drawn) => plot::spawn(panel, &drawn, &told(&points)),
        None => {
            let none = "No point has both a flow and a corrected chart reading yet.";
            panel.spawn(theme::italic(none, theme::SMALL, Tone::InkSoft));
        }
    });
}
