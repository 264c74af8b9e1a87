//! The page of the sampler's history: its control chart, what was done to it, today's check, and what
//! the chart shows.

use bevy::prelude::*;
use sim_core::field_book::Field;
use sim_core::scenario::setup::{PastWork, SamplerHistory};

use super::decision::{self, Question};
use super::entry;
use super::form::heading;
use crate::desk::{Book, Desk, Papers};
use crate::panels::plot;
use crate::ui::order::Frame;
use crate::ui::services::{Reporting, Speech};
use crate::ui::theme;
use crate::ui::tone::Tone;

/// Where the chart is drawn.
#[derive(Component)]
struct ChartPanel;

pub struct HistoryPlugin;

impl Plugin for HistoryPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, draw.in_set(Frame::Show).run_if(resource_exists::<Desk>));
    }
}

/// The page.
pub fn spawn(
    leaf: &mut ChildSpawnerCommands,
    book: &Book,
    (papers, decisions): (&Papers, &decision::Drafts),
) {
    heading(leaf, "Control chart of the flow checks");
    leaf.spawn((
        ChartPanel,
        Node { flex_direction: FlexDirection::Column, flex_shrink: 0.0, ..default() },
    ));
    entry::spawn(leaf, book, Field::HistoryPoint);
    let limits = "The limits come from the first twelve checks. A signal stands if the last point is \
                  beyond an action limit, if two of the last three are beyond the same warning limit, or \
                  if the last six all rise or all fall.";
    leaf.spawn(theme::italic(limits, theme::SMALL, Tone::InkSoft));
    if let Some(history) = &papers.work_order.history {
        heading(leaf, "What was done");
        for line in visits(history) {
            leaf.spawn(theme::text(line, theme::SMALL, Tone::Ink));
        }
    }
    decision::spawn(leaf, Question::History, (papers, decisions));
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
}

/// Calibrations, repairs and notes, a line each.
fn visits(history: &SamplerHistory) -> Vec<String> {
    let line = |date, what: String| Some(format!("{date}  {what}"));
    let visits = history.visits().iter();
    let lines = visits.filter_map(|visit| match &visit.work {
        PastWork::FlowCheck { .. } => None,
        PastWork::Calibration { slope, intercept } => {
            line(visit.date, format!("Calibration: slope {slope:.2}, intercept {intercept:.2}."))
        }
        PastWork::Repair { text } => line(visit.date, format!("Repair: {text}")),
        PastWork::Note { text } => line(visit.date, format!("Note: {text}")),
    });
    lines.collect()
}

/// Draws the chart on a page that was just turned to, and again once today's check is entered.
fn draw(
    (desk, book): (Res<Desk>, Res<Book>),
    (reports, speech): (Res<Reporting>, Res<Speech>),
    panels: Query<Entity, With<ChartPanel>>,
    added: Query<(), Added<ChartPanel>>,
    mut drawn: Local<Option<String>>,
    mut commands: Commands,
) {
    let Ok(panel) = panels.single() else { return };
    let entered = book.0.text(Field::HistoryPoint).map(str::to_owned);
    if added.is_empty() && *drawn == entered {
        return;
    }
    *drawn = entered;
    let papers = desk.papers.as_words();
    let chart = reports.control_chart_plot(&papers, &book.0);
    let told = speech.control_chart(&papers, &book.0).unwrap_or_default();
    commands.entity(panel).despawn_children().with_children(|panel| {
        if let Some(chart) = &chart {
            plot::spawn(panel, chart, &told);
        }
    });
}
