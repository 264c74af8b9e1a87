//! The faults of a session: those still to begin, those in force, and those that come and go.

use crate::digest::{Digest, Digestible};
use crate::fault::{Fault, Onset};
use crate::math;
use crate::noise::Stream;

/// Faults that are not yet in force, and faults that are.
#[derive(Debug, Clone)]
pub(super) struct Pending {
    pub(super) waiting: Vec<(Fault, Onset)>,
    pub(super) intermittent: Vec<Intermittent>,
    /// The faults in force.
    pub in_force: Vec<Fault>,
    /// How many times the knob was turned, or a plate put in.
    pub(super) knob_turns: u32,
}

/// A fault that comes and goes.
#[derive(Debug, Clone)]
pub(super) struct Intermittent {
    pub(super) fault: Fault,
    on_min: f64,
    off_min: f64,
    stream: Stream,
    pub(super) lasts: bool,
    /// Second of the session at which the present spell is over.
    until_s: u64,
}

/// The shortest and the longest spell, s.
const SPELL_S: (f64, f64) = (1.0, 1e6);

impl Intermittent {
    fn new(fault: Fault, on_min: f64, off_min: f64, seed: u64) -> Self {
        // Two nuts or two valves that come and go have streams of their own.
        let stream = Stream::new(seed, &format!("fault spells {}", fault.which()));
        let mut intermittent = Self { fault, on_min, off_min, stream, lasts: false, until_s: 0 };
        intermittent.until_s = intermittent.length_s();
        intermittent
    }

    /// Length of the present spell, drawn: -mean ln(u), in whole seconds.
    fn length_s(&mut self) -> u64 {
        let mean_s = 60.0 * if self.lasts { self.on_min } else { self.off_min };
        let length_s = -mean_s * math::ln(1.0 - self.stream.unit());
        let (shortest, longest) = SPELL_S;
        let length_s = if length_s.is_finite() { length_s } else { longest };
        length_s.clamp(shortest, longest).round() as u64
    }

    /// Steps to this second. True when a spell ended.
    pub(super) fn turns(&mut self, second: u64) -> bool {
        if second < self.until_s {
            return false;
        }
        self.lasts = !self.lasts;
        self.until_s = second + self.length_s();
        true
    }
}

impl Pending {
    /// The faults of a bench, with none in force yet.
    pub fn new(faults: &[(Fault, Onset)], seed: u64) -> Self {
        let mut pending = Self {
            waiting: Vec::new(),
            intermittent: Vec::new(),
            in_force: Vec::new(),
            knob_turns: 0,
        };
        for &(fault, onset) in faults {
            match onset {
                Onset::Intermittent { on_min, off_min } => {
                    pending.intermittent.push(Intermittent::new(fault, on_min, off_min, seed));
                }
                _ => pending.waiting.push((fault, onset)),
            }
        }
        pending
    }

    /// Whether a fault begins, comes or goes by itself before this second of the session. A run
    /// begins at `on_s`, if one is ordered.
    pub fn changes_before(&self, until_s: f64, on_s: Option<f64>) -> bool {
        let begins = |onset: &Onset| match *onset {
            Onset::Start => true,
            Onset::AfterMinutes(minutes) => minutes * 60.0 < until_s,
            Onset::AfterRunHours(hours) => on_s.is_some_and(|on_s| on_s + 3600.0 * hours < until_s),
            Onset::AfterRunningMinutes(_) | Onset::AtEvent(_) | Onset::Intermittent { .. } => false,
        };
        self.waiting.iter().any(|(_, onset)| begins(onset))
            || self.intermittent.iter().any(|intermittent| (intermittent.until_s as f64) < until_s)
    }
}

impl Digestible for Pending {
    fn digest(&self, digest: &mut Digest) {
        let Self { waiting, intermittent, in_force, knob_turns } = self;
        digest.whole(waiting.len() as u64);
        for (fault, onset) in waiting {
            digest.text(&format!("{fault:?} {onset:?}"));
        }
        intermittent.digest(digest);
        digest.whole(in_force.len() as u64);
        for fault in in_force {
            digest.text(&format!("{fault:?}"));
        }
        knob_turns.digest(digest);
    }
}

impl Digestible for Intermittent {
    fn digest(&self, digest: &mut Digest) {
        let Self { fault, on_min, off_min, stream, lasts, until_s } = self;
        digest.text(&format!("{fault:?}"));
        digest.number(*on_min);
        digest.number(*off_min);
        stream.digest(digest);
        digest.flag(*lasts);
        digest.whole(*until_s);
    }
}
