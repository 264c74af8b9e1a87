//! Lets the bench be heard, where sound is built in and a person has turned it on. Whatever is heard
//! is said in words too, on asking: nobody needs the loudspeaker.

use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};

use bevy::prelude::*;
use cpal::traits::{DeviceTrait as _, HostTrait as _, StreamTrait as _};
use cpal::{Device, FromSample, SampleFormat, SizedSample, Stream, StreamConfig};
use sim_core::session::action::Action;
use sim_core::time::Tick;

use crate::desk::{Desk, Seen};
use crate::sound::voice::{Heard, Voice};
use crate::ui::settings::{Kept, Settings};

pub struct LoudspeakerPlugin;

impl Plugin for LoudspeakerPlugin {
    fn build(&self, app: &mut App) {
        app.init_non_send::<Speaker>()
            .add_systems(Update, (turn.run_if(resource_changed::<Settings>), speak).chain());
    }
}

/// What the bench's thread says to the one that plays.
#[derive(Debug, Default)]
struct Said {
    /// Bits of the pitch, Hz.
    pitch: AtomicU32,
    /// Bits of the loudness.
    loudness: AtomicU32,
    /// Bits of the rush of air.
    rush: AtomicU32,
    /// Knocks so far.
    knocks: AtomicU32,
}

/// The device that plays, while it does.
#[derive(Default)]
struct Speaker {
    stream: Option<Stream>,
    said: Arc<Said>,
    /// Up to when the session was listened to for knocks.
    heard_to: Tick,
}

/// Opens the device, or closes it. Without one the setting goes back to off, and why is said where it
/// is set.
fn turn(mut speaker: NonSendMut<Speaker>, mut settings: ResMut<Settings>, mut kept: ResMut<Kept>) {
    if !settings.sound {
        speaker.stream = None;
        return;
    }
    if speaker.stream.is_some() {
        return;
    }
    match open(&speaker.said) {
        Ok(stream) => speaker.stream = Some(stream),
        Err(why) => {
            settings.sound = false;
            let why = why.trim_end_matches('.');
            kept.trouble =
                Some(format!("No sound can be played ({why}); the bench goes on without."));
        }
    }
}

/// Says what is to be heard now.
fn speak(mut speaker: NonSendMut<Speaker>, desk: Option<Res<Desk>>, seen: Option<Res<Seen>>) {
    if speaker.stream.is_none() {
        return;
    }
    // Of a session that has ended or was left nothing is heard, nor of a site at which nobody is.
    let session = desk.as_ref().and_then(|desk| desk.session());
    let session = session.filter(|session| session.ended().is_none() && !session.is_away());
    let blower = seen.filter(|_| session.is_some()).map(|seen| seen.0.blower);
    let (pitch, loudness, rush) =
        blower.map_or((0.0, 0.0, 0.0), |blower| (blower.pitch_hz, blower.loudness, blower.rush));
    speaker.said.pitch.store((pitch as f32).to_bits(), Ordering::Relaxed);
    speaker.said.loudness.store((loudness as f32).to_bits(), Ordering::Relaxed);
    speaker.said.rush.store((rush as f32).to_bits(), Ordering::Relaxed);
    let Some(session) = session else { return };
    let now = session.now();
    let since = std::mem::replace(&mut speaker.heard_to, now);
    // Of a session that was gone on with nothing is heard that was done before.
    let mut late = session.done().rev().take_while(|(tick, _)| *tick >= since);
    if since.0 > 0 && late.any(|(tick, action)| tick < now && *action == Action::Tap) {
        speaker.said.knocks.fetch_add(1, Ordering::Relaxed);
    }
}

/// Opens what the system plays on.
fn open(said: &Arc<Said>) -> Result<Stream, String> {
    let device = cpal::default_host()
        .default_output_device()
        .ok_or_else(|| "the system has nothing to play it on".to_owned())?;
    let config = device.default_output_config().map_err(|error| error.to_string())?;
    let format = config.sample_format();
    let (device, config, said) = (&device, config.into(), Arc::clone(said));
    match format {
        SampleFormat::F32 => play::<f32>(device, config, said),
        SampleFormat::I16 => play::<i16>(device, config, said),
        SampleFormat::U16 => play::<u16>(device, config, said),
        SampleFormat::I32 => play::<i32>(device, config, said),
        other => Err(format!("the system wants samples as {other}, which is not known here")),
    }
}

/// Plays on a device, with samples of its kind.
fn play<T>(device: &Device, config: StreamConfig, said: Arc<Said>) -> Result<Stream, String>
where
    T: SizedSample + FromSample<f32>,
{
    let mut voice = Voice::new(config.sample_rate as f32);
    let channels = usize::from(config.channels).max(1);
    let mut knocks = said.knocks.load(Ordering::Relaxed);
    let number = |bits: &AtomicU32| f32::from_bits(bits.load(Ordering::Relaxed));
    let fill = move |out: &mut [T], _: &cpal::OutputCallbackInfo| {
        voice.follow(Heard {
            pitch_hz: number(&said.pitch),
            loudness: number(&said.loudness),
            rush: number(&said.rush),
        });
        let knocked = said.knocks.load(Ordering::Relaxed);
        if std::mem::replace(&mut knocks, knocked) != knocked {
            voice.knock();
        }
        if voice.is_silent() {
            return out.fill(T::EQUILIBRIUM);
        }
        for frame in out.chunks_mut(channels) {
            frame.fill(T::from_sample(voice.sample()));
        }
    };
    let stream = device
        .build_output_stream(config, fill, |error| warn!("the sound: {error}"), None)
        .map_err(|error| error.to_string())?;
    stream.play().map_err(|error| error.to_string())?;
    Ok(stream)
}
