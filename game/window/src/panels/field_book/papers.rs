//! Pages that show a paper: the work order, the certificates.

use bevy::prelude::*;
use content::SpeechService;
use content::beside::kept_together;
use sim_core::field_book::Field;
use sim_core::session::action::{Action, Sight};

use super::entry;
use crate::desk::{ActRequest, Book, Papers};
use crate::ui::controls::button;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// What is copied from a certificate and from the calibrator's plate.
pub const CERTIFICATE: [Field; 5] = [
    Field::CalibratorSerial,
    Field::CertificateSerial,
    Field::CertificateDate,
    Field::CertificateSlope,
    Field::CertificateIntercept,
];

/// The work order and the station's card.
pub fn order(leaf: &mut ChildSpawnerCommands, papers: &Papers, speech: &dyn SpeechService) {
    let station = &papers.station;
    let card = format!(
        "{}, {:.0} m above sea level\n{}\nsampler {}",
        station.name, station.elevation_m, station.date, station.sampler_serial
    );
    leaf.spawn(theme::bold(card, theme::BODY, Tone::Ink));
    let text = kept_together(&speech.paper(Sight::WorkOrder, &papers.as_words()));
    leaf.spawn(theme::text(text, theme::BODY, Tone::Ink));
}

/// Every certificate in the box, and the fields into which one is copied.
pub fn certificates(
    leaf: &mut ChildSpawnerCommands,
    (papers, book): (&Papers, &Book),
    speech: &dyn SpeechService,
) {
    for field in CERTIFICATE {
        entry::spawn(leaf, book, field);
    }
    leaf.spawn(theme::italic(entry::TO_STRIKE_OUT, theme::SMALL, Tone::InkSoft));
    for number in 0..u8::try_from(papers.certificates.len()).unwrap_or(u8::MAX) {
        let sheet = Node {
            padding: UiRect::axes(px(10), px(8)),
            flex_direction: FlexDirection::Column,
            row_gap: px(6),
            flex_shrink: 0.0,
            ..default()
        };
        let at = Sight::Certificate(number);
        let printed = kept_together(&speech.paper(at, &papers.as_words()));
        leaf.spawn(theme::sheet(sheet)).with_children(|sheet| {
            sheet.spawn(theme::text(printed, theme::SMALL, Tone::Ink));
            sheet.spawn(Node::default()).with_children(|row| {
                let look = ActRequest(Action::Look { at, eye_mm: 0.0 });
                row.spawn(button("hold it under the loupe", look));
            });
        });
    }
}
