//! The report written into a folder, to be printed or sent: the same files as from the command line.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;
use sessions::FrontEndError;

use super::outcome::{Outcome, Told};
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::services::Reporting;
use crate::ui::store::Store;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// So many digits of the journal's head name the folder: as many as a journal's own lines show.
const DIGITS: usize = 16;

/// Asks for the report to be written into the folder that the page names.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct SaveRequest;

/// Where it is said what became of it.
#[derive(Component)]
struct SavedText;

pub struct SavedPlugin;

impl Plugin for SavedPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<SaveRequest>()
            .add_systems(Update, save.in_set(Frame::Obey).run_if(resource_exists::<Outcome>));
    }
}

/// Puts the button onto the page, and a place for what becomes of it.
pub fn spawn(root: &mut ChildSpawnerCommands) {
    root.spawn(Node {
        column_gap: px(12),
        row_gap: px(6),
        align_items: AlignItems::Center,
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        row.spawn(button("save the report for printing", SaveRequest));
        let mut live = spoken(Role::Status, "saved", "");
        live.set_live(Live::Polite);
        row.spawn((SavedText, live, theme::text("", theme::SMALL, Tone::Ink)))
            .entry::<Node>()
            .and_modify(|mut node| node.min_width = px(0));
    });
}

fn save(
    mut requests: MessageReader<SaveRequest>,
    outcome: Res<Outcome>,
    (store, reports): (Res<Store>, Res<Reporting>),
    mut texts: Query<(&mut Text, &mut AccessibilityNode), With<SavedText>>,
) {
    if requests.read().count() == 0 {
        return;
    }
    let (Ok(told), Ok((mut text, mut access))) = (&outcome.0, texts.single_mut()) else { return };
    let said = match kept(&store, &reports, told) {
        Ok((folder, files)) => {
            format!("Saved in {folder}: {}. Print report.pdf.", files.join(", "))
        }
        Err(error) => format!("The report cannot be saved: {error}."),
    };
    access.set_value(said.clone());
    text.0 = said;
}

/// Keeps the report of a session, each under a name of its own: the same session under the same. The
/// folder, and the names of the files in it.
fn kept(
    store: &Store,
    reports: &Reporting,
    told: &Told,
) -> Result<(String, Vec<&'static str>), FrontEndError> {
    let head: String = told.ended.head.chars().take(DIGITS).collect();
    let files = reports.files(&told.ended)?;
    let folder = store.keep_report(&head, &files)?;
    Ok((folder, files.into_iter().map(|(name, _)| name).collect()))
}
