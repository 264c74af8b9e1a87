//! What those who hear the bench are told without asking: what was read, heard or refused, what was done
//! and how the thing stands now, what was written, that time passes, and that something has to be asked
//! for once more.

use bevy::a11y::AccessibilityNode;
use bevy::prelude::*;
use hands::{spot_of, state_of};
use sim_core::session::action::Action;
use sim_core::session::action_traits::ActionEffect;
use sim_core::session::view::View;

use crate::desk::{Book, Desk, Said, Seen};
use crate::panels::field_book::{SIGN_AGAIN, SignRequest, said_about, spoken_label};
use crate::ui::announce::{Announce, TellingReaders};
use crate::ui::controls::Request;
use crate::ui::screen::Screen;
use crate::ui::services::Speech;

pub struct HeardPlugin;

impl Plugin for HeardPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Known>()
            .add_systems(OnEnter(Screen::Bench), |mut known: ResMut<Known>| {
                *known = Known::default();
            })
            .add_systems(
                PostUpdate,
                (said, done, written, waiting, signing)
                    .chain()
                    // Buttons have their new names by then.
                    .after(bevy::ui::UiSystems::Prepare)
                    .before(TellingReaders)
                    .run_if(
                        in_state(Screen::Bench)
                            .and_then(resource_exists::<Desk>)
                            .and_then(resource_exists::<Seen>),
                    ),
            );
    }
}

/// How much was told already; nothing of what was there when the bench was come to.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Known {
    deeds: Option<usize>,
    entries: Option<usize>,
    waits: bool,
}

/// What the bench says, and its refusals at once.
fn said(said: Res<Said>, mut announce: MessageWriter<Announce>) {
    if !said.is_changed() || *said == Said::Nothing {
        return;
    }
    announce.write(match *said {
        Said::Refused(_) | Said::AskAgain(_) => Announce::assertive(said.words()),
        _ => Announce::polite(said.words()),
    });
}

/// What hands did, and how the thing stands after it.
fn done(
    (desk, seen, speech): (Res<Desk>, Res<Seen>, Res<Speech>),
    mut known: ResMut<Known>,
    mut announce: MessageWriter<Announce>,
) {
    let (true, Some(session)) = (seen.is_changed(), desk.session()) else { return };
    let count = session.done().count();
    let Some(told) = known.deeds.replace(count) else { return };
    for (_, action) in session.done().skip(told) {
        if let Some(words) = deed(action, &seen.0, &speech) {
            announce.write(Announce::polite(words));
        }
    }
}

/// A deed in words; none of those of which the bench tells otherwise.
fn deed(action: &Action, view: &View, speech: &Speech) -> Option<String> {
    if let Action::Report(report) = action {
        return Some(format!("Reported: {}: {}.", report.place.words(), report.words()));
    }
    if action.traits().effect == ActionEffect::Observes {
        return None;
    }
    let words = format!("Done: {}.", speech.action(action));
    let state = spot_of(view, action).map(|spot| (spot.name(), state_of(view, spot)));
    Some(match state {
        Some((name, state)) if !state.is_empty() => format!("{words} {name}: {state}."),
        _ => words,
    })
}

/// What was written into the field book, and what is wrong with it.
fn written(book: Res<Book>, mut known: ResMut<Known>, mut announce: MessageWriter<Announce>) {
    if !book.is_changed() && known.entries.is_some() {
        return;
    }
    let entries = book.0.entries();
    let Some(told) = known.entries.replace(entries.len()) else { return };
    for entry in entries.get(told..).unwrap_or_default() {
        let name = spoken_label(entry.field);
        let words = if entry.strikes_out {
            format!("Struck out: {name}.")
        } else {
            let note = said_about(&book, entry.field);
            let note = if note.is_empty() { note } else { format!(" {note}.") };
            format!("Written: {name}: {}.{note}", entry.text.trim())
        };
        announce.write(Announce::polite(words));
    }
}

/// That time passes, and when it has passed.
fn waiting(
    (desk, seen): (Res<Desk>, Res<Seen>),
    mut known: ResMut<Known>,
    mut announce: MessageWriter<Announce>,
) {
    let waits = desk.passing().is_some();
    if waits == known.waits {
        return;
    }
    known.waits = waits;
    let now = seen.0.time;
    announce.write(Announce::polite(match desk.passing() {
        Some(until) => {
            let seconds = until.seconds_since(seen.0.tick).max(0.0);
            format!("Time passes, {seconds:.0} seconds. Escape stops it.")
        }
        None => format!("The time has passed: it is {now}."),
    }));
}

/// That the signature is asked for once more.
fn signing(
    buttons: Query<&AccessibilityNode, (With<Request<SignRequest>>, Changed<AccessibilityNode>)>,
    mut asked: Local<bool>,
    mut announce: MessageWriter<Announce>,
) {
    for node in &buttons {
        let again = node.label() == Some(SIGN_AGAIN);
        if again && !*asked {
            announce.write(Announce::assertive(format!("{SIGN_AGAIN}.")));
        }
        *asked = again;
    }
}
