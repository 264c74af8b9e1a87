//! Marking the session beside the frames, and what is known of it as long as the page is open.

use std::sync::Arc;

use bevy::prelude::*;
use content::ReportService;
use content::review::SessionReview;
use sessions::{LiveSession, Storage};

use super::earlier;
use super::outcome::{Outcome, Told};
use super::scrub::Scrubbed;
use crate::desk::{Desk, Seen};
use crate::ui::background::{Background, Job};
use crate::ui::marks_known::MarksKnown;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::services::Reporting;
use crate::ui::store::Store;

pub struct MarkingPlugin;

impl Plugin for MarkingPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(OnEnter(Screen::Debrief), mark)
            .add_systems(OnExit(Screen::Debrief), forget)
            .add_systems(Update, take_over.in_set(Frame::Obey).run_if(resource_exists::<Marking>));
    }
}

/// A session with its marks, its report, and the way through it.
type Marked = Result<(Told, SessionReview), String>;

/// The marking that goes on.
#[derive(Resource)]
struct Marking(Job<Marked>);

/// Takes the session off the desk and begins to mark it.
fn mark(
    mut desk: ResMut<Desk>,
    (background, reports): (Res<Background>, Res<Reporting>),
    (store, known): (Res<Store>, Res<MarksKnown>),
    mut commands: Commands,
) {
    match desk.take() {
        Some(session) => {
            let (reports, store) = (Arc::clone(&reports.0), store.clone());
            let known = known.clone();
            let marking =
                background.begin(move || marked(session, reports.as_ref(), (&*store, &known)));
            commands.insert_resource(Marking(marking));
        }
        None => {
            commands.insert_resource(Outcome(Err("there is no session to mark".to_owned())));
        }
    }
    commands.remove_resource::<Desk>();
    commands.remove_resource::<Seen>();
}

/// Opens the truth, marks the session, and lays it out to be gone through again.
fn marked(
    session: Box<dyn LiveSession>,
    reports: &dyn ReportService,
    (storage, known): (&dyn Storage, &MarksKnown),
) -> Marked {
    let ended = session.finish().map_err(|error| error.to_string())?;
    let document = reports.document(&ended);
    let review = SessionReview::of(&ended.session, &ended.marks);
    let earlier = earlier::of(storage, known, &ended);
    Ok((Told { ended, document, earlier }, review))
}

fn take_over(mut marking: ResMut<Marking>, mut commands: Commands) {
    let Some(marked) = marking.0.result() else { return };
    commands.remove_resource::<Marking>();
    let outcome = marked.map(|(told, review)| {
        commands.insert_resource(Scrubbed::new(review));
        told
    });
    commands.insert_resource(Outcome(outcome));
}

/// What was true is not kept beyond the page.
fn forget(mut commands: Commands) {
    commands.remove_resource::<Marking>();
    commands.remove_resource::<Scrubbed>();
    commands.remove_resource::<Outcome>();
}
