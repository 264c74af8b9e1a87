//! A plot of the trainee's own points, when it is asked for and the scenario allows it.

use bevy::prelude::*;
use sim_core::field_book::{Field, FieldBook};
use sim_core::session::action::{Action, HelpTopic};

use crate::desk::{Book, Desk};
use crate::ui::controls::AddRequest as _;
use crate::ui::order::Frame;
use crate::ui::settings::Settings;
use crate::ui::theme::{self, Theme};

/// Asks for the points that are written to be drawn.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlotRequest;

/// Where the plot is drawn.
#[derive(Component)]
struct PlotPanel;

/// Side of the plot, logical pixels.
const HEIGHT_PX: f32 = 220.0;

pub struct PlotPlugin;

impl Plugin for PlotPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<PlotRequest>()
            .add_systems(Update, draw.in_set(Frame::Obey).run_if(resource_exists::<Desk>));
    }
}

/// An empty place for the plot.
pub fn spawn(leaf: &mut ChildSpawnerCommands, _theme: &Theme) {
    leaf.spawn((
        PlotPanel,
        Node { flex_direction: FlexDirection::Column, flex_shrink: 0.0, ..default() },
    ));
}

/// Flow and chart term of every point for which both are written as numbers.
fn own_points(book: &FieldBook) -> Vec<(f64, f64)> {
    book.points()
        .into_iter()
        .filter_map(|point| {
            let flow = book.number(Field::PointFlow(point))?;
            let term = book
                .number(Field::ChartTerm(point))
                .or_else(|| book.number(Field::Chart(point)))?;
            Some((flow, term))
        })
        .collect()
}

fn draw(
    mut requests: MessageReader<PlotRequest>,
    mut desk: ResMut<Desk>,
    book: Res<Book>,
    settings: Res<Settings>,
    panels: Query<Entity, With<PlotPanel>>,
    mut commands: Commands,
) {
    if requests.read().count() == 0 {
        return;
    }
    desk.ask(Action::AskHelp { topic: HelpTopic::Plot });
    let (true, Ok(panel)) = (desk.papers.terms.plot, panels.single()) else { return };
    let theme = Theme::of(settings.contrast);
    let points = own_points(&book.0);
    commands.entity(panel).despawn_children().with_children(|panel| {
        if points.is_empty() {
            let none = "No point has both a flow and a chart term yet.";
            panel.spawn(theme::italic(none, theme::SMALL, theme.ink_soft));
            return;
        }
        let (flows, terms): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        let (x, y) = (span(&flows), span(&terms));
        let top = format!("chart term, {:.1} to {:.1}", y.0, y.1);
        panel.spawn(theme::text(top, theme::SMALL, theme.ink_soft));
        panel
            .spawn((
                Node {
                    height: px(HEIGHT_PX),
                    width: percent(100),
                    border: UiRect { left: px(1.5), bottom: px(1.5), ..default() },
                    ..default()
                },
                BorderColor::all(theme.ink),
            ))
            .with_children(|plot| {
                for (flow, term) in points {
                    dot(plot, &theme, share(flow, x), share(term, y));
                }
            });
        let below = format!("flow, {:.2} to {:.2} std m\u{b3}/min", x.0, x.1);
        panel.spawn(theme::text(below, theme::SMALL, theme.ink_soft));
    });
}

/// From a little under the least to a little over the most.
fn span(values: &[f64]) -> (f64, f64) {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let room = ((most - least) * 0.1).max(0.05);
    (least - room, most + room)
}

/// Where a value lies in a span, percent.
fn share(value: f64, (from, to): (f64, f64)) -> f32 {
    ((value - from) / (to - from) * 100.0) as f32
}

fn dot(plot: &mut ChildSpawnerCommands, theme: &Theme, x: f32, y: f32) {
    plot.spawn((
        Node {
            position_type: PositionType::Absolute,
            left: percent(x),
            bottom: percent(y),
            width: px(9),
            height: px(9),
            margin: UiRect { left: px(-4.5), bottom: px(-4.5), ..default() },
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::MAX,
            ..default()
        },
        BackgroundColor(theme.copper),
        BorderColor::all(theme.ink),
    ));
}
