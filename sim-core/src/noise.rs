//! Named random streams: one per source of noise, so that adding a draw in one instrument does not
//! shift any other. All transcendental functions go through [`crate::math`].

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use sha2::{Digest as _, Sha256};

use crate::digest::{Digest, Digestible, digest_fields};
use crate::math;

/// A stream of random numbers that belongs to one named source in one session.
#[derive(Debug, Clone)]
pub struct Stream(ChaCha8Rng);

impl Stream {
    /// The stream called `name` of the session with this seed.
    pub fn new(seed: u64, name: &str) -> Self {
        Self(generator(seed, name))
    }

    /// A number in [0, 1), with 53 random bits.
    pub fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 * (1.0 / 9_007_199_254_740_992.0)
    }

    /// A draw from the standard normal distribution.
    ///
    /// Box and Muller's transform, z = sqrt(-2 ln u) cos(2 pi v), u in (0, 1], v in [0, 1)
    /// (from memory). The second value of the pair is not kept: a stream has no hidden state.
    pub fn normal(&mut self) -> f64 {
        let u = 1.0 - self.unit();
        let v = self.unit();
        (-2.0 * math::ln(u)).sqrt() * math::cos(math::TAU * v)
    }

    /// How many 32-bit words have been drawn, for checksums.
    pub fn position(&self) -> u64 {
        self.0.get_word_pos() as u64
    }
}

/// The generator behind a named stream, for the distributions of `rand_distr`.
///
/// The seed of the generator is the SHA-256 of the session's seed and the stream's name.
pub fn generator(seed: u64, name: &str) -> ChaCha8Rng {
    let mut hash = Sha256::new();
    hash.update(seed.to_le_bytes());
    hash.update(name.as_bytes());
    ChaCha8Rng::from_seed(hash.finalize().into())
}

/// A slowly wandering quantity: an Ornstein-Uhlenbeck process sampled once a second.
///
/// x' = a x + sd sqrt(1 - a^2) z with a = exp(-1 s / tau); its long-run standard deviation is `sd`
/// and its correlation time `tau_s` (from memory).
#[derive(Debug, Clone)]
pub struct GaussMarkov {
    stream: Stream,
    keep: f64,
    kick: f64,
    value: f64,
}

impl GaussMarkov {
    /// A quantity that wanders with standard deviation `sd` and correlation time `tau_s` > 0.
    pub fn new(stream: Stream, sd: f64, tau_s: f64) -> Self {
        let keep = math::exp(-1.0 / tau_s);
        let mut wander = Self { stream, keep, kick: sd * (1.0 - keep * keep).sqrt(), value: 0.0 };
        wander.value = sd * wander.stream.normal();
        wander
    }

    /// The next second's value.
    pub fn step(&mut self) -> f64 {
        self.value = self.keep * self.value + self.kick * self.stream.normal();
        self.value
    }

    /// The current value.
    pub const fn value(&self) -> f64 {
        self.value
    }
}

impl Digestible for Stream {
    fn digest(&self, digest: &mut Digest) {
        let Self(generator) = self;
        digest.bytes(&generator.get_seed());
        digest.whole(self.position());
    }
}

digest_fields!(GaussMarkov { stream, keep, kick, value });
