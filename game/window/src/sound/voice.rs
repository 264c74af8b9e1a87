//! What the roof sounds like, as samples: the whine of the blower with the rush of its air, and a
//! knuckle on the recorder. Made from what can be heard of a view; no window and no device in here.

use std::f32::consts::TAU;

/// Time in which the sound follows most of the way to what is to be heard, s.
const FOLLOWS_S: f32 = 0.06;
/// Loudest whine, of full scale 1. Together with [`RUSH`] and [`KNOCK`] it stays below 1.
const WHINE: f32 = 0.22;
/// Shares of the whine: the turn of the rotor, twice and three times it. Common practice, no source:
/// a commutator motor is heard at its speed and at the first few multiples of it.
const OVERTONES: [f32; 3] = [0.6, 0.28, 0.12];
/// Loudest rush of air.
const RUSH: f32 = 0.18;
/// What is left of white noise in the rush, Hz: air in a duct is dull.
const RUSH_BELOW_HZ: f32 = 900.0;
/// A knuckle's first swing, its tone (Hz), and the time in which it is gone for the most part (s).
const KNOCK: f32 = 0.4;
const KNOCK_HZ: f32 = 190.0;
const KNOCK_S: f32 = 0.025;

/// What is to be heard.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Heard {
    /// Turns of the rotor in a second, Hz.
    pub pitch_hz: f32,
    /// How loud the blower is, 0 to 1.
    pub loudness: f32,
    /// How strongly the air rushes, 0 to 1.
    pub rush: f32,
}

impl Heard {
    /// What is not a number, or beyond hearing, is not heard.
    fn sound(self) -> Self {
        let kept =
            |value: f32, most: f32| if value.is_finite() { value.clamp(0.0, most) } else { 0.0 };
        Self {
            pitch_hz: kept(self.pitch_hz, 2000.0),
            loudness: kept(self.loudness, 1.0),
            rush: kept(self.rush, 1.0),
        }
    }
}

/// The sound as it goes on, sample by sample.
#[derive(Debug, Clone)]
pub struct Voice {
    rate_hz: f32,
    now: Heard,
    meant: Heard,
    /// Turns of the rotor, 0 to 1.
    turn: f32,
    rush: f32,
    noise: u32,
    /// Time since the last knock, s.
    knocked_s: f32,
}

impl Voice {
    /// A silent voice at a rate of samples, Hz.
    pub fn new(rate_hz: f32) -> Self {
        let rate_hz = if rate_hz.is_finite() { rate_hz.max(8000.0) } else { 48_000.0 };
        let silent = Heard::default();
        Self {
            rate_hz,
            now: silent,
            meant: silent,
            turn: 0.0,
            rush: 0.0,
            noise: 0x9e37_79b9,
            knocked_s: f32::INFINITY,
        }
    }

    /// Has it follow what is to be heard from now on.
    pub fn follow(&mut self, heard: Heard) {
        self.meant = heard.sound();
    }

    /// A knuckle on the recorder.
    pub const fn knock(&mut self) {
        self.knocked_s = 0.0;
    }

    /// The next sample, -1 to 1.
    pub fn sample(&mut self) -> f32 {
        let step_s = 1.0 / self.rate_hz;
        let share = step_s / FOLLOWS_S;
        self.now.pitch_hz += share * (self.meant.pitch_hz - self.now.pitch_hz);
        self.now.loudness += share * (self.meant.loudness - self.now.loudness);
        self.now.rush += share * (self.meant.rush - self.now.rush);
        self.turn = (self.turn + self.now.pitch_hz * step_s).fract();
        let whine: f32 = (1_u8..)
            .zip(OVERTONES)
            .map(|(times, part)| part * (TAU * f32::from(times) * self.turn).sin())
            .sum();
        // A filter of the first order leaves little of the noise: what it leaves is made as loud again.
        let dull = (TAU * RUSH_BELOW_HZ * step_s).min(1.0);
        self.rush += dull * (self.white() - self.rush);
        let rush = self.rush / dull.sqrt();
        let knock = (-self.knocked_s / KNOCK_S).exp() * (TAU * KNOCK_HZ * self.knocked_s).sin();
        self.knocked_s += step_s;
        let blower = WHINE * self.now.loudness * whine + RUSH * self.now.rush * rush;
        let all = blower + if knock.is_finite() { KNOCK * knock } else { 0.0 };
        all.clamp(-1.0, 1.0)
    }

    /// Whether nothing of it can be heard.
    pub fn is_silent(&self) -> bool {
        let least = 1e-3;
        let still = |heard: Heard| heard.loudness < least && heard.rush < least;
        still(self.now) && still(self.meant) && self.knocked_s > 10.0 * KNOCK_S
    }

    /// Evenly spread noise, -1 to 1. Nothing but the ear depends on it.
    fn white(&mut self) -> f32 {
        self.noise ^= self.noise << 13;
        self.noise ^= self.noise >> 17;
        self.noise ^= self.noise << 5;
        (self.noise >> 8) as f32 / 8_388_608.0 - 1.0
    }
}

#[cfg(test)]
mod tests {
    use super::{Heard, Voice};

    const RATE_HZ: f32 = 48_000.0;

    fn samples(voice: &mut Voice, seconds: f32) -> Vec<f32> {
        (0..(seconds * RATE_HZ) as usize).map(|_| voice.sample()).collect()
    }

    fn loudness(samples: &[f32]) -> f32 {
        (samples.iter().map(|sample| sample * sample).sum::<f32>() / samples.len() as f32).sqrt()
    }

    /// How much of a tone is in the samples: the size of its part of a Fourier sum.
    fn tone(samples: &[f32], hz: f32) -> f32 {
        let turn =
            |at: usize| std::f64::consts::TAU * f64::from(hz) * at as f64 / f64::from(RATE_HZ);
        let sum = |part: fn(f64) -> f64| {
            samples
                .iter()
                .enumerate()
                .map(|(at, one)| f64::from(*one) * part(turn(at)))
                .sum::<f64>()
        };
        (2.0 * sum(f64::sin).hypot(sum(f64::cos)) / samples.len() as f64) as f32
    }

    #[test]
    fn a_blower_that_stands_is_not_heard() {
        let mut voice = Voice::new(RATE_HZ);
        assert!(samples(&mut voice, 0.2).iter().all(|sample| sample.abs() < 1e-6));
        assert!(voice.is_silent());
    }

    #[test]
    fn it_whines_at_the_speed_of_its_rotor() {
        let mut voice = Voice::new(RATE_HZ);
        voice.follow(Heard { pitch_hz: 320.0, loudness: 0.8, rush: 0.8 });
        samples(&mut voice, 0.5);
        assert!(!voice.is_silent());
        let heard = samples(&mut voice, 1.0);
        let whine = tone(&heard, 320.0);
        for beside in [250.0, 300.0, 340.0, 400.0] {
            assert!(whine > 5.0 * tone(&heard, beside), "{beside} Hz is as loud");
        }
        assert!(tone(&heard, 640.0) < whine, "its turn is what is heard most");
    }

    #[test]
    fn it_grows_louder_falls_silent_and_is_never_beyond_full_scale() {
        let mut voice = Voice::new(RATE_HZ);
        let mut last = 0.0;
        for loud in [0.2, 0.5, 1.0] {
            voice.follow(Heard { pitch_hz: 300.0, loudness: loud, rush: loud });
            samples(&mut voice, 0.5);
            let heard = samples(&mut voice, 0.5);
            assert!(heard.iter().all(|sample| sample.abs() < 1.0), "it is cut off");
            assert!(loudness(&heard) > 1.5 * last, "{loud} is no louder");
            last = loudness(&heard);
        }
        voice.follow(Heard::default());
        samples(&mut voice, 1.0);
        assert!(voice.is_silent());
        assert!(loudness(&samples(&mut voice, 0.1)) < 1e-3);
    }

    #[test]
    fn where_no_air_flows_the_blower_whines_without_its_rush() {
        let noise = |rush: f32| {
            let mut voice = Voice::new(RATE_HZ);
            voice.follow(Heard { pitch_hz: 300.0, loudness: 1.0, rush });
            samples(&mut voice, 0.5);
            let heard = samples(&mut voice, 1.0);
            (tone(&heard, 300.0), loudness(&heard))
        };
        let (covered, open) = (noise(0.0), noise(1.0));
        assert!((covered.0 / open.0 - 1.0).abs() < 0.2, "it whines as before");
        // Whine and rush add as squares, and the rush is the fainter of the two.
        assert!(covered.1 < 0.9 * open.1, "{} against {}", covered.1, open.1);
    }

    #[test]
    fn a_knock_is_short() {
        let mut voice = Voice::new(RATE_HZ);
        voice.knock();
        let (first, later) = (samples(&mut voice, 0.03), samples(&mut voice, 0.3));
        assert!(loudness(&first) > 0.05);
        assert!(loudness(&later[4800..]) < 1e-3);
        assert!(voice.is_silent());
    }

    #[test]
    fn what_is_no_number_is_not_heard() {
        let mut voice = Voice::new(f32::NAN);
        for broken in [f32::NAN, f32::INFINITY, -5.0] {
            voice.follow(Heard { pitch_hz: broken, loudness: broken, rush: broken });
            assert!(samples(&mut voice, 0.1).iter().all(|sample| sample.abs() < 1e-6), "{broken}");
        }
    }
}
