//! Pages that show a paper: the work order, the certificates.

use bevy::prelude::*;
use bevy::text::EditableText;
use content::SpeechService;
use content::beside::kept_together;
use sim_core::field_book::Field;
use sim_core::session::action::{Action, Sight};

use super::entry;
use crate::desk::{ActRequest, Book, Desk, Papers};
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::overlay;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// On the button below a certificate.
pub const COPY: &str = "copy it into the blanks";

/// Asks for what a certificate says to be written where nothing stands yet.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
struct CopyRequest(u8);

pub struct PapersPlugin;

impl Plugin for PapersPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<CopyRequest>()
            .add_systems(Update, copy.in_set(Frame::Obey).run_if(resource_exists::<Desk>));
    }
}

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
            sheet.spawn(overlay::choices()).with_children(|row| {
                let look = ActRequest(Action::Look { at, eye_mm: 0.0 });
                row.spawn(button("hold it under the loupe", look));
                row.spawn(button(COPY, CopyRequest(number)));
            });
        });
    }
}

/// Writes what a certificate says where nothing stands. Which certificate is the right one is for the
/// trainee to say, and what stands on the calibrator's plate is read there.
fn copy(
    mut requests: MessageReader<CopyRequest>,
    book: Res<Book>,
    mut desk: ResMut<Desk>,
    mut fields: Query<(&entry::EntryField, &mut EditableText)>,
) {
    for CopyRequest(number) in requests.read() {
        let Some(paper) = desk.papers.certificates.get(usize::from(*number)) else { continue };
        let printed = [
            (Field::CertificateSerial, paper.serial.clone()),
            (Field::CertificateDate, paper.date.to_string()),
            (Field::CertificateSlope, format!("{:.4}", paper.standard.slope)),
            (Field::CertificateIntercept, format!("{:.4}", paper.standard.intercept)),
        ];
        entry::fill_blanks(&printed, &book, &mut desk, &mut fields);
    }
}
