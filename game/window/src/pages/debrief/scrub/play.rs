//! The session played like a film: as fast as it was worked, or faster. It stops at its end, and when
//! somebody goes to a moment by hand.

use bevy::input::keyboard::Key;
use bevy::prelude::*;
use sim_core::time::TICKS_PER_SECOND;

use super::cursor::{ScrubRequest, Scrubbed};
use super::slider::Slider;
use crate::desk::pace::PlaysOn;
use crate::ui::controls::{AddRequest as _, Caption, Choice, Chosen, button, choice};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;

/// On the button while nothing is played.
pub const PLAY: &str = "play";
/// On the button while it is played.
pub const PAUSE: &str = "pause";

/// How many times as fast as it was worked, with the words on its button.
const SPEEDS: [(&str, f64); 4] =
    [("as it was", 1.0), ("10 times", 10.0), ("60 times", 60.0), ("300 times", 300.0)];
/// The speed at the beginning.
const USUAL: usize = 2;

/// Asks for the session to be played or stopped, or for another speed.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlayRequest {
    /// Play, or pause.
    Toggle,
    /// Play at the speed with this number.
    Speed(usize),
}

/// How it is played.
#[derive(Resource, Debug, Clone, Copy, PartialEq)]
struct Playing {
    on: bool,
    speed: usize,
    /// Ticks that are due and not whole yet.
    owed: f64,
}

impl Default for Playing {
    fn default() -> Self {
        Self { on: false, speed: USUAL, owed: 0.0 }
    }
}

/// The button that plays and pauses.
#[derive(Component)]
struct PlayButton;
/// The choice of a speed.
#[derive(Component)]
struct SpeedChoice(usize);

pub struct PlayPlugin;

impl Plugin for PlayPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<Playing>()
            .init_resource::<PlaysOn>()
            .add_request::<PlayRequest>()
            .add_observer(on_key)
            .add_systems(OnExit(Screen::Debrief), stop)
            .add_systems(
                Update,
                ((by_hand, obey, play).chain().in_set(Frame::Obey), show.in_set(Frame::Show))
                    .run_if(in_state(Screen::Debrief).and_then(resource_exists::<Scrubbed>)),
            );
    }
}

/// Puts the buttons into a row.
pub fn spawn(row: &mut ChildSpawnerCommands) {
    row.spawn((button(PLAY, PlayRequest::Toggle), PlayButton, Caption::new(PLAY)));
    for (number, (words, _)) in SPEEDS.into_iter().enumerate() {
        let chosen = Chosen::when(number, USUAL);
        let speed = choice(words, theme::SMALL, PlayRequest::Speed(number), chosen);
        row.spawn((speed, SpeedChoice(number)));
    }
}

/// The space bar plays and pauses while the timeline has the focus.
fn on_key(
    press: On<KeyPress>,
    sliders: Query<(), With<Slider>>,
    mut requests: MessageWriter<PlayRequest>,
) {
    if press.key == Key::Space && !press.repeat && sliders.contains(press.on) {
        requests.write(PlayRequest::Toggle);
    }
}

/// Whoever goes to a moment wants to look at it.
fn by_hand(mut requests: MessageReader<ScrubRequest>, mut playing: ResMut<Playing>) {
    let goes = requests.read().filter(|request| !matches!(request, ScrubRequest::Truth)).count();
    if goes > 0 && playing.on {
        playing.on = false;
    }
}

fn obey(
    mut requests: MessageReader<PlayRequest>,
    mut playing: ResMut<Playing>,
    mut scrubbed: ResMut<Scrubbed>,
) {
    for request in requests.read() {
        playing.owed = 0.0;
        match request {
            PlayRequest::Toggle => playing.on = !playing.on,
            PlayRequest::Speed(speed) => (playing.on, playing.speed) = (true, *speed),
        }
        // At its end it begins anew.
        if playing.on && scrubbed.scrub.at() >= scrubbed.scrub.track().end() {
            scrubbed.scrub.by(i64::MIN);
        }
    }
}

fn play(
    time: Res<Time>,
    mut playing: ResMut<Playing>,
    mut scrubbed: ResMut<Scrubbed>,
    mut plays_on: ResMut<PlaysOn>,
) {
    plays_on.set_if_neq(PlaysOn(playing.on));
    if !playing.on {
        return;
    }
    let speed = SPEEDS.get(playing.speed).map_or(1.0, |(_, speed)| *speed);
    playing.owed += time.delta_secs_f64() * speed * TICKS_PER_SECOND as f64;
    let ticks = playing.owed.floor();
    if ticks >= 1.0 {
        playing.owed -= ticks;
        scrubbed.scrub.by(ticks as i64);
        if scrubbed.scrub.at() >= scrubbed.scrub.track().end() {
            playing.on = false;
        }
    }
}

fn stop(mut playing: ResMut<Playing>, mut plays_on: ResMut<PlaysOn>) {
    *playing = Playing::default();
    *plays_on = PlaysOn(false);
}

fn show(
    playing: Res<Playing>,
    mut buttons: Query<&mut Caption, With<PlayButton>>,
    mut speeds: Query<(&SpeedChoice, &mut Choice)>,
) {
    if !playing.is_changed() {
        return;
    }
    for mut caption in &mut buttons {
        Caption::set(&mut caption, if playing.on { PAUSE } else { PLAY });
    }
    for (SpeedChoice(number), mut choice) in &mut speeds {
        Choice::set(&mut choice, Chosen::when(*number, playing.speed));
    }
}
