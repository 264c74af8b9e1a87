//! What happens to the desk as time goes on: the one place where the session is acted on and a tick
//! passes, waiting, and the hours of a run.

use std::fmt::Display;
use std::time::Duration;

use bevy::input::keyboard::Key;
use bevy::platform::time::Instant;
use bevy::prelude::*;
use bevy::window::RequestRedraw;
use content::SpeechService;
use content::names::ending as ending_words;
use hands::turn;
use sessions::LiveSession;
use sim_core::session::ActError;
use sim_core::session::action::{Action, Sight};
use sim_core::session::clock::ClockEvent;
use sim_core::time::TICKS_PER_SECOND;

use super::requests::{ActRequest, LeaveRequest};
use super::seen::{Book, Reports, Said, Seen};
use super::state::{Asked, Desk, Lapse, ticks_of};
use crate::ui::controls::AddRequest as _;
use crate::ui::keys::KeyPress;
use crate::ui::order::{DeskStep, Frame};
use crate::ui::overlay::Overlay;
use crate::ui::screen::Screen;
use crate::ui::services::Speech;
use crate::ui::settings::Settings;
use crate::ui::store::Store;

/// Time of the bench that goes by in a tick while nobody is there: four minutes, so that a night and
/// a day are over in less than half a minute.
const LAPSE_TICKS: u64 = 4 * 60 * TICKS_PER_SECOND;

/// How often a bench is looked after when nobody has stirred for a while. A sitting's is never left
/// for so long, as its time runs out.
pub const RESTING: Duration = Duration::from_secs(10);

/// Longest time of a frame that is spent on letting time pass.
const FRAME_BUDGET: Duration = Duration::from_millis(8);

/// Keeps the session under the window going.
pub struct DeskPlugin;

impl Plugin for DeskPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Said>()
            .init_resource::<Book>()
            .init_resource::<Reports>()
            .add_request::<ActRequest>()
            .add_request::<LeaveRequest>()
            .insert_resource(Time::<Fixed>::from_hz(TICKS_PER_SECOND as f64))
            .add_systems(FixedUpdate, tick.run_if(resource_exists::<Desk>))
            .add_systems(
                RunFixedMainLoop,
                (
                    let_time_pass.in_set(DeskStep::Pass),
                    look_again.in_set(DeskStep::Look),
                    (end, leave).chain().in_set(DeskStep::Leave),
                )
                    .run_if(resource_exists::<Desk>),
            )
            .add_systems(Update, act.in_set(Frame::Obey).run_if(resource_exists::<Desk>))
            .add_observer(
                on_escape.run_if(in_state(Screen::Bench).and_then(resource_exists::<Desk>)),
            )
            .add_systems(Last, put_aside.run_if(resource_exists::<Desk>));
        // A bench at rest is drawn seldom; no time may be lost between two drawings.
        app.world_mut()
            .get_resource_or_insert_with(Time::<Virtual>::default)
            .set_max_delta(2 * RESTING);
    }
}

/// Puts what controls ask for behind what waits already.
fn act(mut requests: MessageReader<ActRequest>, mut desk: ResMut<Desk>) {
    for ActRequest(action) in requests.read() {
        desk.ask(action.clone());
    }
}

/// Stops what goes on by itself.
fn on_escape(press: On<KeyPress>, mut desk: ResMut<Desk>) {
    if press.key == Key::Escape {
        desk.stop();
    }
}

/// The one place where the session is acted on and a tick passes.
fn tick(
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
    mut reports: ResMut<Reports>,
    (speech, overlay, settings): (Res<Speech>, Res<Overlay>, Res<Settings>),
) {
    let stands = stands_under(&overlay, &desk);
    let desk = desk.bypass_change_detection();
    let Desk { session, queue, passing, showing, lapse, .. } = desk;
    let Some(session) = session else { return };
    for asked in queue.drain(..) {
        let action = match asked {
            Asked::Do(action) => action,
            Asked::Turn(spot, steps, grain) => {
                let Some(action) = turn(&session.view(), spot, steps, grain) else { continue };
                action
            }
        };
        let waits = match action {
            Action::Wait { seconds } => Some(seconds),
            _ => None,
        };
        let reads = settings.readings_in_words && is_read_out(&action) && !session.is_away();
        let mut answer = done(session.as_mut(), action, &mut reports, &**speech);
        if reads && answer.is_none() {
            answer = done(session.as_mut(), Action::ReadInWords, &mut reports, &**speech);
        }
        if let Some(answer) = answer {
            // What is said once more is announced once more.
            if answer == Said::Nothing {
                said.set_if_neq(answer);
            } else {
                *said = answer;
            }
        } else if let (Some(seconds), Some(until)) = (waits, passing.as_mut()) {
            // A wait begins when the hands are free, which may be later than it was asked for.
            *until = session.now().later(ticks_of(seconds));
        }
    }
    if let Some(show) = showing {
        // The session stands still while something is shown on its copy.
        if !show.tick(&**speech) {
            desk.end_show();
        }
        return;
    }
    if passing.is_some() || stands {
        return;
    }
    let ticks = match (session.is_away(), *lapse) {
        (false, _) => 1,
        (true, Lapse::Runs) => LAPSE_TICKS,
        // What is skipped is let pass where a frame has room for it.
        (true, Lapse::Stopped | Lapse::Skipped) => return,
    };
    if let Err(error) = session.advance(ticks) {
        said.set_if_neq(stopped(&error));
    }
}

/// Whether the bench's clock stands because a sheet lies over the bench: whoever practises may read
/// help and settings at leisure. In a sitting, which has a limit of time, it goes on.
fn stands_under(overlay: &Overlay, desk: &Desk) -> bool {
    overlay.0.is_some() && !desk.papers.is_sitting()
}

/// Whether an action shows something that is read out to whoever wants readings in words. Papers are read
/// on their pages.
const fn is_read_out(action: &Action) -> bool {
    matches!(action, Action::Look { at, .. } if !matches!(at, Sight::WorkOrder | Sight::Certificate(_)))
}

/// Does one action, and returns what is said of it; to look or to wait says nothing.
fn done(
    session: &mut dyn LiveSession,
    action: Action,
    reports: &mut ResMut<Reports>,
    speech: &dyn SpeechService,
) -> Option<Said> {
    match session.act(action.clone()) {
        Ok(()) => match action {
            Action::Listen => Some(Said::Heard(speech.listen(&session.view()))),
            Action::ReadInWords => session
                .read_in_words()
                .map(|read| Said::Read(speech.look(&read, read.focus, &session.papers()))),
            Action::Look { .. } | Action::Wait { .. } => None,
            Action::Report(remark) => {
                let what = written("Report written", &Action::Report(remark.clone()), speech);
                reports.0.push(remark);
                Some(what)
            }
            Action::Write { .. } => Some(written("Written", &action, speech)),
            Action::Strike { .. } => Some(written("Done", &action, speech)),
            Action::Decide { .. } => Some(written("Decision written", &action, speech)),
            _ => Some(Said::Nothing),
        },
        Err(ActError::Refused(why)) => Some(Said::Refused(why.to_string())),
        Err(error) => Some(stopped(&error)),
    }
}

/// What was written, as it stands in the book now.
fn written(kind: &str, action: &Action, speech: &dyn SpeechService) -> Said {
    let words = speech.action(action);
    let verbs = ["write ", "report ", "decide "];
    let what = verbs.iter().find_map(|verb| words.strip_prefix(verb)).unwrap_or(&words);
    Said::Done(format!("{kind}: {what}."))
}

/// What is said where the session does not go on.
fn stopped(error: &dyn Display) -> Said {
    Said::Notice(format!("{error}."))
}

/// Lets as much of the asked time pass as a frame has room for.
fn let_time_pass(
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
    overlay: Res<Overlay>,
    mut redraw: MessageWriter<RequestRedraw>,
) {
    if stands_under(&overlay, &desk) {
        return;
    }
    let Desk { session, passing, queue, lapse, .. } = desk.bypass_change_detection();
    let Some(session) = session.as_mut() else { return };
    if *lapse == Lapse::Skipped && passing.is_none() && session.is_away() {
        skip(session.as_mut(), &mut said);
        redraw.write(RequestRedraw);
        return;
    }
    let Some(until) = *passing else { return };
    // What was asked for before is done first, and by the one system that does it.
    if !queue.is_empty() {
        return;
    }
    let begun = Instant::now();
    while session.now() < until && session.ended().is_none() && begun.elapsed() < FRAME_BUDGET {
        let ticks = (until.0 - session.now().0).min(TICKS_PER_SECOND);
        if let Err(error) = session.advance(ticks) {
            said.set_if_neq(stopped(&error));
            *passing = None;
            return;
        }
    }
    if session.now() >= until || session.ended().is_some() {
        *passing = None;
    }
    redraw.write(RequestRedraw);
}

/// Lets the hours of a run go by as fast as a frame has room for.
fn skip(session: &mut dyn LiveSession, said: &mut ResMut<Said>) {
    let begun = Instant::now();
    while session.is_away() && session.ended().is_none() && begun.elapsed() < FRAME_BUDGET {
        if let Err(error) = session.advance(LAPSE_TICKS) {
            said.set_if_neq(stopped(&error));
            return;
        }
    }
}

/// Looks at the bench again after ticks have passed.
fn look_again(
    desk: Res<Desk>,
    seen: Option<ResMut<Seen>>,
    mut book: ResMut<Book>,
    mut showed: Local<bool>,
) {
    let (Some(session), Some(mut seen)) = (desk.session(), seen) else { return };
    if let Some(show) = desk.showing() {
        seen.set_if_neq(Seen(show.view()));
        *showed = true;
        return;
    }
    let after_show = std::mem::take(&mut *showed);
    if !after_show && seen.0.tick == session.now() && seen.0.focus == session.focus() {
        return;
    }
    seen.set_if_neq(Seen(session.view()));
    if book.0.entries().len() != session.book().entries().len() {
        book.0 = session.book().clone();
    }
}

/// Leaves for the debrief when the session has ended.
fn end(
    (mut desk, store): (ResMut<Desk>, Res<Store>),
    screen: Res<State<Screen>>,
    mut next: ResMut<NextState<Screen>>,
) {
    let (Screen::Bench, Some(ending)) = (screen.get(), desk.ended()) else { return };
    let noted = |session: &dyn LiveSession| {
        session.clock().last().is_some_and(|note| note.what == ClockEvent::Ended)
    };
    if !desk.session().is_none_or(noted) {
        desk.note_clock(ClockEvent::Ended, store.wall_clock_s(), ending_words(ending));
    }
    next.set(Screen::Debrief);
}

/// Back to the list: the journal is kept, and can be gone on with.
fn leave(
    mut requests: MessageReader<LeaveRequest>,
    (mut desk, store): (ResMut<Desk>, Res<Store>),
    screen: Res<State<Screen>>,
    mut next: ResMut<NextState<Screen>>,
) {
    let asked = requests.read().count() > 0;
    if !asked || *screen.get() != Screen::Bench || desk.ended().is_some() {
        return;
    }
    desk.note_clock(ClockEvent::Left, store.wall_clock_s(), "the bench was left");
    // Its journal is closed with it.
    drop(desk.take());
    next.set(Screen::Start);
}

/// Writes down that the bench is left when the window is closed.
fn put_aside(mut exits: MessageReader<AppExit>, (mut desk, store): (ResMut<Desk>, Res<Store>)) {
    if exits.read().count() > 0 && desk.ended().is_none() {
        desk.note_clock(ClockEvent::Left, store.wall_clock_s(), "the window was closed");
    }
}
