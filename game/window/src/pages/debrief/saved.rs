//! The report written into a folder, to be printed or sent: the same files as from the command line.

use std::path::{Path, PathBuf};

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;
use report::files::{self, object, write};
use report::paper::PaperSize;
use report::session::SessionReport;
use sessions::FrontEndError;

use super::outcome::{Outcome, Told};
use crate::pages::start::Library;
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme::{self, Theme};

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
            .add_systems(Update, save.in_set(Frame::Obey).run_if(in_state(Screen::Debrief)));
    }
}

/// Puts the button onto the page, and a place for what becomes of it.
pub fn spawn(root: &mut ChildSpawnerCommands, theme: &Theme) {
    root.spawn(Node {
        column_gap: px(12),
        row_gap: px(6),
        align_items: AlignItems::Center,
        flex_wrap: FlexWrap::Wrap,
        flex_shrink: 0.0,
        ..default()
    })
    .with_children(|row| {
        row.spawn(button(theme, "save the report, to print it", SaveRequest));
        let mut live = spoken(Role::Status, "saved", "");
        live.set_live(Live::Polite);
        row.spawn((SavedText, live, theme::text("", theme::SMALL, theme.ink)))
            .entry::<Node>()
            .and_modify(|mut node| node.min_width = px(0));
    });
}

fn save(
    mut requests: MessageReader<SaveRequest>,
    outcome: Res<Outcome>,
    library: Res<Library>,
    mut texts: Query<(&mut Text, &mut AccessibilityNode), With<SavedText>>,
) {
    if requests.read().count() == 0 {
        return;
    }
    let (Ok(told), Ok((mut text, mut access))) = (&outcome.0, texts.single_mut()) else { return };
    let said = match library.data.as_deref().map(|data| written(data, told)) {
        Some(Ok(folder)) => {
            let files = files::FILES.join(", ");
            format!("Saved in {}: {files}. Print report.pdf.", folder.display())
        }
        Some(Err(error)) => error.to_string(),
        None => "The report cannot be saved: the system names no folder for data.".to_owned(),
    };
    access.set_value(said.clone());
    text.0 = said;
}

/// Writes the report of a session, each into a folder of its own: the same session into the same.
fn written(data: &Path, told: &Told) -> Result<PathBuf, FrontEndError> {
    let head: String = told.ended.head.chars().take(DIGITS).collect();
    let folder = data.join("reports").join(head);
    std::fs::create_dir_all(&folder)
        .map_err(|error| FrontEndError::file("create", &folder, &error))?;
    let report = SessionReport::of(&told.ended, None);
    write(&folder, &report, &object(&report), PaperSize::default())?;
    Ok(folder)
}
