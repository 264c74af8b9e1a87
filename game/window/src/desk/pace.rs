//! How often the window is drawn: often while something moves, seldom while nothing does, and at once
//! whenever a hand stirs.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use bevy::input::keyboard::KeyboardInput;
use bevy::input::mouse::{MouseButtonInput, MouseMotion, MouseWheel};
use bevy::platform::time::Instant;
use bevy::prelude::*;
use bevy::time::{TimeSystems, TimeUpdateStrategy};
use bevy::winit::{UpdateMode, WinitSettings};

use super::advance::RESTING;
use super::seen::Seen;
use super::state::Desk;
use crate::ui::background::Background;
use crate::ui::settings::{Motion, Settings};

/// How often it is tried to draw a window that comes up.
const COMING_UP: Duration = Duration::from_millis(10);
/// How often a bench is drawn on which something moves.
const MOVING: Duration = Duration::from_millis(40);
/// How often it is drawn while only the air goes on.
const AIR: Duration = Duration::from_millis(125);
/// How often an idle bench is drawn: the watch's seconds.
const IDLE: Duration = Duration::from_millis(1000);
/// So long nobody stirs before a bench is at rest.
const AT_REST_AFTER: Duration = Duration::from_secs(10);

/// Why there is a frame.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Why {
    /// Its time had come.
    pub due: bool,
    /// A hand stirred: the pointer, a button, the wheel or a key.
    pub by_hand: bool,
    /// The bench is at rest: nothing on it moves, and nobody has stirred for a while.
    pub rests: bool,
}

/// Whether something that is no bench moves by itself: a session that is played in its debrief.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PlaysOn(pub bool);

/// Whether the window has not come up yet: some of what draws it is still being made ready. Shared
/// with what draws.
#[derive(Resource, Debug, Clone, Default)]
pub struct ComesUp(Arc<AtomicBool>);

impl ComesUp {
    /// Whether it is still so.
    pub fn get(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }

    /// Says whether it is still so.
    pub fn set(&self, comes_up: bool) {
        self.0.store(comes_up, Ordering::Relaxed);
    }
}

pub struct PacePlugin;

impl Plugin for PacePlugin {
    fn build(&self, app: &mut App) {
        app.insert_resource(paced(IDLE))
            .init_resource::<Why>()
            .init_resource::<PlaysOn>()
            .init_resource::<ComesUp>()
            .add_systems(First, tell_time.before(TimeSystems))
            .add_systems(Last, (stir, pace).chain());
    }
}

fn paced(wait: Duration) -> WinitSettings {
    let mode = UpdateMode::reactive(wait);
    WinitSettings { focused_mode: mode, unfocused_mode: mode }
}

/// The bench's time is that of this frame. Left to itself the engine takes the last frame's, and after
/// a rest the seconds since then would pass only once a hand has begun to act.
fn tell_time(mut strategy: ResMut<TimeUpdateStrategy>) {
    *strategy = TimeUpdateStrategy::ManualInstant(Instant::now());
}

/// Whether the frame's time had come, and whether a hand stirred.
fn stir(
    mut why: ResMut<Why>,
    settings: Res<WinitSettings>,
    mut last: Local<Option<Instant>>,
    (mut pointer, mut mouse): (MessageReader<CursorMoved>, MessageReader<MouseMotion>),
    (mut buttons, mut wheel): (MessageReader<MouseButtonInput>, MessageReader<MouseWheel>),
    mut keys: MessageReader<KeyboardInput>,
) {
    let stirred = [
        pointer.read().count(),
        mouse.read().count(),
        buttons.read().count(),
        wheel.read().count(),
        keys.read().count(),
    ];
    let since = last.replace(Instant::now()).map(|last| last.elapsed());
    let UpdateMode::Reactive { wait, .. } = settings.focused_mode else { return };
    // Frames do not come to the millisecond.
    why.due = since.is_some_and(|since| since >= wait.mul_f64(0.8));
    why.by_hand = stirred.into_iter().sum::<usize>() > 0;
}

/// Sets how soon the next frame is drawn.
fn pace(
    (desk, seen, choice): (Option<Res<Desk>>, Option<Res<Seen>>, Res<Settings>),
    (comes_up, background, plays_on): (Res<ComesUp>, Res<Background>, Res<PlaysOn>),
    mut why: ResMut<Why>,
    mut settings: ResMut<WinitSettings>,
    mut last: Local<Option<(f64, f64)>>,
    mut stirred: Local<Option<Instant>>,
) {
    let now = Instant::now();
    let since = *stirred.get_or_insert(now);
    if why.by_hand {
        *stirred = Some(now);
    }
    let airs = seen.as_ref().is_some_and(|seen| seen.0.blower.loudness >= 0.02);
    let timed = seen.as_ref().is_some_and(|seen| seen.0.seconds_left.is_some());
    let moves = seen.is_some_and(|seen| {
        let view = &seen.0;
        // A blower that runs up or down is heard and seen before water or pen move.
        let now = (view.blower.pitch_hz, view.thermometer.column_c);
        let runs_up = last.is_some_and(|last| (last.0 - now.0).abs() > 0.5);
        *last = Some(now);
        view.manometer.moving || view.recorder.moving || runs_up
    });
    let busy = plays_on.0 || background.is_busy() || desk.is_some_and(|desk| desk.is_busy());
    let wait = if comes_up.get() {
        COMING_UP
    } else if moves || busy {
        MOVING
    } else if airs && choice.motion == Motion::Full {
        AIR
    } else if !timed && !why.by_hand && now - since > AT_REST_AFTER {
        RESTING
    } else {
        IDLE
    };
    why.rests = wait == RESTING;
    if settings.focused_mode != UpdateMode::reactive(wait) {
        *settings = paced(wait);
    }
}
