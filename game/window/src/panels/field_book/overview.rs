//! What is still blank in the field book, page by page: on the page of the order, and above the
//! signature. A button for each page says how much of it is written, and turns to it.

use accesskit::Role;
use bevy::prelude::*;
use sim_core::field_book::{Field, FieldBook, PointNumber};

use super::page::{Page, PageTurn};
use super::papers::CERTIFICATE;
use super::plain;
use super::points::{self, ReadOn};
use crate::desk::{Book, Desk, Papers, Seen};
use crate::ui::access::spoken;
use crate::ui::controls::{Caption, button};
use crate::ui::order::Frame;
use crate::ui::overlay;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// A button that says how much of a page is written.
#[derive(Component, Debug, Clone, Copy, PartialEq, Eq)]
struct Progress(Page);

pub struct OverviewPlugin;

impl Plugin for OverviewPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, show.in_set(Frame::Show).run_if(resource_exists::<Seen>));
    }
}

/// The overview.
pub fn spawn(leaf: &mut ChildSpawnerCommands, papers: &Papers) {
    leaf.spawn(theme::bold("What is written", theme::BODY, Tone::Ink));
    leaf.spawn((overlay::choices(), spoken(Role::Group, "what is written", ""))).with_children(
        |row| {
            for page in Page::ALL {
                if page.is_there(&papers.work_order)
                    && !asked(page, papers, ReadOn::Legs).is_empty()
                {
                    row.spawn((button(page.name(), PageTurn(page)), Progress(page)))
                        .insert(Caption::new(page.name()));
                }
            }
        },
    );
}

/// The fields of a page that the order asks for.
pub(super) fn asked(page: Page, papers: &Papers, read_on: ReadOn) -> Vec<Field> {
    let order = &papers.work_order;
    let calibrates = !order.is_check_alone();
    let each = |count: usize, columns: &[points::Column]| {
        let rows = PointNumber::all().take(count);
        rows.flat_map(|point| columns.iter().map(move |column| column(point)).collect::<Vec<_>>())
            .collect::<Vec<Field>>()
    };
    match page {
        Page::Order => Vec::new(),
        Page::Certificate => CERTIFICATE.to_vec(),
        Page::Points if calibrates => each(usize::from(order.points), points::columns(read_on)),
        Page::Line | Page::SetPoint if calibrates => plain::fields(page, papers),
        Page::Points | Page::Line | Page::SetPoint => Vec::new(),
        Page::Air | Page::Run => plain::fields(page, papers),
        Page::Check => {
            let rows = order.flow_check.map_or(0, |check| usize::from(check.readings));
            let air = [Field::CheckTemperature, Field::CheckPressure];
            let sums = [
                Field::CheckFlow,
                Field::CheckLineFlow,
                Field::CheckDifference,
                Field::CheckOutcome,
            ];
            [&air[..], &each(rows, &plain::CHECKED)[..], &sums[..]].concat()
        }
        Page::History => vec![Field::HistoryPoint, Field::HistoryReading],
        Page::Volume => vec![
            Field::RunMinutes,
            Field::MeanChart,
            Field::RunPressure,
            Field::RunTemperature,
            Field::RunFlow,
            Field::Volume,
            Field::Concentration,
            Field::Validity,
        ],
        Page::Remarks if calibrates => vec![Field::Decision],
        Page::Remarks => Vec::new(),
    }
}

/// How much of a page is written, in words.
fn words(page: Page, fields: &[Field], book: &FieldBook) -> String {
    let written = fields.iter().filter(|field| book.text(**field).is_some()).count();
    match (written, fields.len()) {
        (written, all) if written == all => format!("{}: complete", page.name()),
        (0, _) => format!("{}: blank", page.name()),
        (written, all) => format!("{}: {written} of {all}", page.name()),
    }
}

/// Says how much is written now.
fn show(
    (desk, seen): (Option<Res<Desk>>, Res<Seen>),
    book: Option<Res<Book>>,
    added: Query<(), Added<Progress>>,
    mut buttons: Query<(&Progress, &mut Caption)>,
) {
    let (Some(desk), Some(book)) = (desk, book) else { return };
    if !book.is_changed() && added.is_empty() {
        return;
    }
    for (Progress(page), mut caption) in &mut buttons {
        let fields = asked(*page, &desk.papers, ReadOn::of(&seen.0));
        Caption::set(&mut caption, &words(*page, &fields, &book.0));
    }
}

#[cfg(test)]
mod tests {
    use sim_core::field_book::{Field, FieldBook};

    use super::{Page, words};

    #[test]
    fn nothing_written_is_blank() {
        let book = FieldBook::default();
        assert_eq!(words(Page::Air, &[Field::Temperature, Field::Pressure], &book), "air: blank");
        assert_eq!(words(Page::Air, &[], &book), "air: complete");
    }
}
