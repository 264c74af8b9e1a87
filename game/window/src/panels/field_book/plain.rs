//! The pages that are only fields one under another.

use bevy::prelude::*;
use sim_core::field_book::Field;

use super::decision::{self, Question};
use super::entry;
use super::page::Page;
use super::plot::{self, PlotRequest};
use super::points::{self, Column, RowEnd};
use super::sums::{self, CALCULATE, SumsRequest};
use crate::desk::{Book, Papers};
use crate::ui::controls::button;
use crate::ui::overlay;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// The fields of a page of plain fields.
pub fn fields(page: Page, papers: &Papers) -> Vec<Field> {
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
    fields.chain(next.then_some(Field::NextFilterNumber)).collect()
}

/// A page of plain fields.
pub fn spawn(leaf: &mut ChildSpawnerCommands, page: Page, book: &Book, papers: &Papers) {
    for field in fields(page, papers) {
        entry::spawn(leaf, book, field);
    }
    if page == Page::Line {
        asked_for(leaf, papers);
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

/// Plot and calculations side by side, as far as the scenario allows them, and the buttons that ask for
/// them.
fn asked_for(leaf: &mut ChildSpawnerCommands, papers: &Papers) {
    let (plot, sums) = (papers.terms.plot, papers.terms.sums);
    leaf.spawn(overlay::choices()).with_children(|row| {
        if plot {
            row.spawn(button("plot my points", PlotRequest));
        }
        if sums {
            row.spawn(button(CALCULATE, SumsRequest));
        }
    });
    let beside = Node { column_gap: px(12), row_gap: px(8), ..overlay::choices() };
    leaf.spawn(beside).with_children(|row| {
        if plot {
            plot::spawn(row);
        }
        if sums {
            sums::spawn(row);
        }
    });
}

/// The columns of the check's readings.
pub const CHECKED: [Column; 3] = [Field::CheckUp, Field::CheckDown, Field::CheckChart];

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
    leaf.spawn(points::sheet("readings of the check")).with_children(|leaf| {
        points::table(leaf, book, &CHECKED, rows, RowEnd::Nothing);
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
