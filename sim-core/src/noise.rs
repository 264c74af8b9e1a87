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

    /// Advances by several seconds at once and returns the mean of their values.
    ///
    /// Mean and last value are drawn together, with the variances and the covariance that as many
    /// single seconds have. With S = sum a^i and T = sum a^2i, i from 1 to n, and c the kick:
    /// var(last) = c^2 T / a^2, var(mean) = c^2 (n - 2 S + T) / (n (1 - a))^2,
    /// cov = c^2 (S - T) / (a n (1 - a)) (worked out by hand).
    pub fn advance(&mut self, seconds: u64) -> f64 {
        if seconds <= 1 || self.keep <= 0.0 {
            return self.step();
        }
        let (n, a) = (seconds as f64, self.keep);
        let kept = power(a, seconds);
        let sum = a * (1.0 - kept) / (1.0 - a);
        let squares = a * a * (1.0 - kept * kept) / (1.0 - a * a);
        let scale = 1.0 / (n * (1.0 - a));
        let last_sd = squares.sqrt() / a;
        let with_last = (sum - squares) * scale / (a * last_sd);
        let alone = (scale * scale * (n - 2.0 * sum + squares) - with_last * with_last).max(0.0);
        let (one, other) = (self.stream.normal(), self.stream.normal());
        let mean = self.value * sum / n + self.kick * (with_last * one + alone.sqrt() * other);
        self.value = kept * self.value + self.kick * last_sd * one;
        mean
    }

    /// The current value.
    pub const fn value(&self) -> f64 {
        self.value
    }
}

/// A whole power, by squaring.
fn power(base: f64, exponent: u64) -> f64 {
    let (mut left, mut square, mut product) = (exponent, base, 1.0);
    while left > 0 {
        if left % 2 == 1 {
            product *= square;
        }
        square *= square;
        left /= 2;
    }
    product
}

impl Digestible for Stream {
    fn digest(&self, digest: &mut Digest) {
        let Self(generator) = self;
        digest.bytes(&generator.get_seed());
        digest.whole(self.position());
    }
}

digest_fields!(GaussMarkov { stream, keep, kick, value });

#[cfg(test)]
mod tests {
    use super::*;

    /// Means of squares and products of the mean and the last of 60 seconds, over many draws.
    fn moments(mut drawn: impl FnMut(&mut GaussMarkov) -> f64) -> [f64; 3] {
        let mut wander = GaussMarkov::new(Stream::new(5, "test"), 1.0, 20.0);
        let mut sums = [0.0; 3];
        for _ in 0..20_000 {
            let start = wander.value();
            let mean = drawn(&mut wander);
            // What is known from the start is taken off.
            let (a, kept) = (wander.keep, power(wander.keep, 60));
            let mean = mean - start * a * (1.0 - kept) / (1.0 - a) / 60.0;
            let last = wander.value() - kept * start;
            for (sum, product) in sums.iter_mut().zip([mean * mean, last * last, mean * last]) {
                *sum += product / 20_000.0;
            }
        }
        sums
    }

    #[test]
    fn a_minute_at_once_is_drawn_like_sixty_seconds() {
        let at_once = moments(|wander| wander.advance(60));
        let one_by_one = moments(|wander| (0..60).map(|_| wander.step()).sum::<f64>() / 60.0);
        // The standard error of a variance from so many draws is 1 %.
        for (one, other) in at_once.into_iter().zip(one_by_one) {
            assert!((one / other - 1.0).abs() < 0.05, "{at_once:?} and {one_by_one:?}");
        }
        assert!((at_once[1] - 1.0).abs() < 0.03, "{at_once:?}");
    }

    #[test]
    fn a_power_is_a_product() {
        assert!((power(0.9, 5) - 0.9 * 0.9 * 0.9 * 0.9 * 0.9).abs() < 1e-15);
        assert!((power(0.9, 0) - 1.0).abs() < 1e-15);
    }
}
