//! The pages that are only fields one under another.

use bevy::prelude::*;
use sim_core::field_book::{Field, PointNumber};

use super::page::Page;
use super::plot::{self, PlotRequest};
use super::{entry, points};
use crate::desk::{Book, Papers};
use crate::ui::controls::button;
use crate::ui::theme::{self, Theme};

/// A page of plain fields.
pub fn spawn(
    leaf: &mut ChildSpawnerCommands,
    theme: &Theme,
    page: Page,
    book: &Book,
    papers: &Papers,
) {
    let fields: &[Field] = match page {
        Page::Air => &[Field::Temperature, Field::Pressure],
        Page::Run => &[
            Field::FilterNumber,
            Field::StartChart,
            Field::MeterBefore,
            Field::MeterAfter,
            Field::EndChart,
            Field::Custody,
        ],
        Page::Line => &[Field::Expression, Field::Slope, Field::Intercept, Field::Correlation],
        _ => &[Field::TargetFlow, Field::SetPoint],
    };
    let next = page == Page::Run && papers.work_order.next_run().is_some();
    for field in fields.iter().copied().chain(next.then_some(Field::NextFilterNumber)) {
        entry::spawn(leaf, theme, book, field);
    }
    if page == Page::Line && papers.terms.plot {
        leaf.spawn(Node::default()).with_children(|row| {
            row.spawn(button(theme, "plot my points", PlotRequest));
        });
        plot::spawn(leaf, theme);
    }
    let note = match page {
        Page::Air => "As read at the station, thermometer in the shade.",
        Page::Run => {
            "Before the site is left: number, pen and meter. Back again: meter first, then the \
            pen on a warm blower; custody says who has the sample, and from when on."
        }
        Page::Line => "chart term = slope x flow + intercept, from your own points.",
        _ => "At the conditions that are expected over the run: see the order.",
    };
    leaf.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
}

/// The page of the flow check: its air, its readings, and what they come to.
pub fn check(leaf: &mut ChildSpawnerCommands, theme: &Theme, book: &Book, papers: &Papers) {
    for field in [Field::CheckTemperature, Field::CheckPressure] {
        entry::spawn(leaf, theme, book, field);
    }
    let rows = papers.work_order.flow_check.map_or(0, |check| usize::from(check.readings));
    let columns: [fn(PointNumber) -> Field; 3] =
        [Field::CheckUp, Field::CheckDown, Field::CheckChart];
    points::table(leaf, theme, book, &columns, rows);
    for field in
        [Field::CheckFlow, Field::CheckLineFlow, Field::CheckDifference, Field::CheckOutcome]
    {
        entry::spawn(leaf, theme, book, field);
    }
    let note = "On the sampler as it runs: a filter in, the controller in the loop, warm.";
    leaf.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
}
