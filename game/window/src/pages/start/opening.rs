//! Opening what was chosen on the list, beside the frames: a long journal is replayed for it.

use bevy::prelude::*;
use bevy::text::EditableText;
use sessions::{FrontEndError, LiveSession, StorageId};
use sim_core::session::clock::ClockEvent;

use super::library::Library;
use super::note::StartNote;
use super::requests::StartRequest;
use super::seed::SeedField;
use crate::desk::lay_on_desk;
use crate::ui::background::{Background, Job};
use crate::ui::controls::AddRequest as _;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::store::Store;

pub struct OpeningPlugin;

impl Plugin for OpeningPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<StartRequest>().add_systems(
            Update,
            (open, take_over.run_if(resource_exists::<Opening>))
                .chain()
                .in_set(Frame::Obey)
                .run_if(in_state(Screen::Start)),
        );
    }
}

/// A session with what is to be said about it.
type Opened = (Box<dyn LiveSession>, Option<String>);

/// What is being opened, and the screen that it goes to.
#[derive(Resource)]
struct Opening {
    job: Job<Result<Opened, FrontEndError>>,
    to: Screen,
}

/// Begins to open what was asked for, one thing at a time.
fn open(
    mut requests: MessageReader<StartRequest>,
    (library, store, background): (Res<Library>, Res<Store>, Res<Background>),
    opening: Option<Res<Opening>>,
    seeds: Query<&EditableText, With<SeedField>>,
    mut note: ResMut<StartNote>,
    mut commands: Commands,
) {
    let Some(request) = requests.read().last().filter(|_| opening.is_none()) else { return };
    let store = store.clone();
    let (job, to) = match *request {
        StartRequest::Begin(number) => {
            let Some(card) = library.cards.get(number) else { return };
            if let Some(trouble) = card.trouble.clone() {
                *note = StartNote::Trouble(trouble);
                return;
            }
            let typed = seeds.single().map(|field| field.value().to_string());
            let seed = typed.unwrap_or_default().parse().unwrap_or_else(|_| library.fresh_rig());
            let id = card.id.clone();
            (background.begin(move || begun(&store, &id, seed)), Screen::Bench)
        }
        StartRequest::Resume(number) => {
            let Some(kept) = library.kept.get(number) else { return };
            let id = kept.id.clone();
            (background.begin(move || resumed(&store, &id)), Screen::Bench)
        }
        StartRequest::Debrief(number) => {
            let Some(kept) = library.kept.get(number) else { return };
            let id = kept.id.clone();
            let replay = move || store.replay_ended(&id).map(|session| (session, None));
            (background.begin(replay), Screen::Debrief)
        }
    };
    *note = StartNote::Opening;
    commands.insert_resource(Opening { job, to });
}

/// Lays what was opened on the desk.
fn take_over(
    mut opening: ResMut<Opening>,
    mut note: ResMut<StartNote>,
    mut next: ResMut<NextState<Screen>>,
    mut commands: Commands,
) {
    let Some(opened) = opening.job.result() else { return };
    commands.remove_resource::<Opening>();
    *note = match opened {
        Ok((session, said)) => {
            lay_on_desk(&mut commands, session, said);
            next.set(opening.to);
            StartNote::Nothing
        }
        Err(error) => StartNote::Trouble(error.to_string()),
    };
}

/// A new session, its beginning dated where a journal is kept.
fn begun(store: &Store, scenario: &StorageId, seed: u64) -> Result<Opened, FrontEndError> {
    let mut opened = store.begin(scenario, seed)?;
    if opened.journal.is_some() {
        note_clock(store, opened.session.as_mut(), ClockEvent::Begun, "begun in the window")?;
    }
    Ok((opened.session, opened.notice))
}

/// A session that goes on, its return dated.
fn resumed(store: &Store, kept: &StorageId) -> Result<Opened, FrontEndError> {
    let mut session = store.resume(kept)?.session;
    let put_aside = session.clock().last().is_some_and(|note| note.what == ClockEvent::Left);
    let why = if put_aside {
        "resumed"
    } else {
        "resumed; the program had stopped without leaving the bench"
    };
    note_clock(store, session.as_mut(), ClockEvent::Resumed, why)?;
    Ok((session, None))
}

fn note_clock(
    store: &Store,
    session: &mut dyn LiveSession,
    what: ClockEvent,
    why: &str,
) -> Result<(), FrontEndError> {
    session
        .note_clock(what, store.wall_clock_s(), why)
        .map_err(|error| FrontEndError::Wrong(error.to_string()))
}
