//! The pages that are only fields one under another.

use bevy::prelude::*;
use sim_core::field_book::{Field, PointNumber};

use super::decision::{self, Question};
use super::entry;
use super::page::Page;
use super::plot::{self, PlotRequest};
use super::points::{self, RowEnd};
use crate::desk::{Book, Papers};
use crate::ui::controls::button;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// A page of plain fields.
pub fn spawn(leaf: &mut ChildSpawnerCommands, page: Page, book: &Book, papers: &Papers) {
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
    let added = papers.work_order.added_filters().filter(|_| page == Page::Run);
    let added = Field::of_added_filters(added.map_or(0, |order| order.sheets));
    let fields = fields.iter().copied().chain(added);
    for field in fields.chain(next.then_some(Field::NextFilterNumber)) {
        entry::spawn(leaf, book, field);
    }
    if page == Page::Line && papers.terms.plot {
        leaf.spawn(Node::default()).with_children(|row| {
            row.spawn(button("plot my points", PlotRequest));
        });
        plot::spawn(leaf);
    }
    let note = match page {
        Page::Air => "Read both at the station, with the thermometer in the shade.",
        Page::Run => {
            "Before you leave the site, write the filter number, the pen and the elapsed-time meter. \
            When you are back, read the meter first, then the pen with the blower warm. The chain of \
            custody says who holds the sample, and since when."
        }
        Page::Line if papers.work_order.averages.is_some() => {
            "Corrected chart reading = slope \u{d7} flow + intercept, from your points, with the averages \
            of the order built in where the day is near enough to them."
        }
        Page::Line => "Corrected chart reading = slope \u{d7} flow + intercept, from your points.",
        _ => "For the conditions expected during the run: see the work order.",
    };
    leaf.spawn(theme::italic(note, theme::SMALL, Tone::InkSoft));
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
}

/// The page of the flow check: its air, its readings, and what they come to.
pub fn check(
    leaf: &mut ChildSpawnerCommands,
    book: &Book,
    (papers, decisions): (&Papers, &decision::Drafts),
) {
    for field in [Field::CheckTemperature, Field::CheckPressure] {
        entry::spawn(leaf, book, field);
    }
    let rows = papers.work_order.flow_check.map_or(0, |check| usize::from(check.readings));
    let columns: [fn(PointNumber) -> Field; 3] =
        [Field::CheckUp, Field::CheckDown, Field::CheckChart];
    leaf.spawn(points::sheet("readings of the check")).with_children(|leaf| {
        points::table(leaf, book, &columns, rows, RowEnd::Nothing);
    });
    for &field in papers.work_order.flow_check.iter().flat_map(|check| check.sums()) {
        entry::spawn(leaf, book, field);
    }
    decision::spawn(leaf, Question::Check, (papers, decisions));
    let note =
        "Check the sampler as it runs: with a filter, through the flow controller, and warm.";
    leaf.spawn(theme::italic(note, theme::SMALL, Tone::InkSoft));
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
}
