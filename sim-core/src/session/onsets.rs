//! Faults that wait for their time, those in force, and those that come and go.

use super::SessionState;
use super::action::Action;
use super::unattended::UnattendedRun;
use crate::digest::{Digest, Digestible};
use crate::fault::declared::Site;
use crate::fault::{Event, Fault, Onset};
use crate::field_book::Field;
use crate::math;
use crate::noise::Stream;
use crate::rig::parts::PartPlace;

/// Faults not yet in force, and those that are.
#[derive(Debug, Clone)]
pub(super) struct Pending {
    waiting: Vec<(Fault, Onset)>,
    intermittent: Vec<Intermittent>,
    /// Those in force.
    pub in_force: Vec<Fault>,
    /// How often the knob was turned.
    knob_turns: u32,
}

/// A fault that comes and goes.
#[derive(Debug, Clone)]
struct Intermittent {
    fault: Fault,
    on_min: f64,
    off_min: f64,
    stream: Stream,
    lasts: bool,
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

    /// Goes on to this second. True when a spell ended.
    fn turns(&mut self, second: u64) -> bool {
        if second < self.until_s {
            return false;
        }
        self.lasts = !self.lasts;
        self.until_s = second + self.length_s();
        true
    }
}

impl Pending {
    /// The faults of a bench, none of them in force yet.
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

    /// Whether a fault begins, comes or goes by itself before a second of the session. A run begins
    /// at `on_s`, if one is ordered.
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
        digest.whole(self.in_force.len() as u64);
        digest.whole(self.waiting.len() as u64);
        digest.whole(self.knob_turns.into());
        for intermittent in &self.intermittent {
            digest.flag(intermittent.lasts);
            digest.whole(intermittent.until_s);
            digest.whole(intermittent.stream.position());
        }
    }
}

impl SessionState {
    /// Puts every fault in force whose time has come, and lets spells end.
    pub(super) fn begin_faults(&mut self) {
        let minutes = self.tick.seconds() / 60.0;
        let running = self.rig.counters().ran_s / 60.0;
        let now_s = self.tick.seconds();
        let begun_s = self.run.filter(UnattendedRun::is_away).map(|run| run.on.seconds());
        self.begin_those(|onset| match *onset {
            Onset::Start => true,
            Onset::AfterMinutes(after) => minutes >= after,
            Onset::AfterRunningMinutes(after) => running > 0.0 && running >= after,
            Onset::AfterRunHours(after) => {
                begun_s.is_some_and(|on_s| now_s >= on_s + 3600.0 * after)
            }
            Onset::AtEvent(_) | Onset::Intermittent { .. } => false,
        });
        let second = self.tick.whole_seconds();
        let turned: Vec<(Fault, bool)> = self
            .faults
            .intermittent
            .iter_mut()
            .filter_map(|intermittent| {
                intermittent.turns(second).then_some((intermittent.fault, intermittent.lasts))
            })
            .collect();
        for (fault, lasts) in turned {
            if lasts {
                self.begin(fault);
            } else {
                fault.end(self.site());
                self.faults.in_force.retain(|other| *other != fault);
            }
        }
    }

    /// Puts every fault in force that begins with what was just done.
    pub(super) fn begin_faults_at(&mut self, action: &Action) {
        if matches!(action, Action::TurnKnob { .. }) {
            self.faults.knob_turns = self.faults.knob_turns.saturating_add(1);
        }
        let turns = self.faults.knob_turns;
        self.begin_those(|onset| match onset {
            Onset::AtEvent(event) => happens(*event, action, turns),
            _ => false,
        });
    }

    fn begin_those(&mut self, due: impl Fn(&Onset) -> bool) {
        if !self.faults.waiting.iter().any(|(_, onset)| due(onset)) {
            return;
        }
        let (begin, wait): (Vec<_>, Vec<_>) =
            std::mem::take(&mut self.faults.waiting).into_iter().partition(|(_, onset)| due(onset));
        self.faults.waiting = wait;
        for (fault, _) in begin {
            self.begin(fault);
        }
    }

    fn begin(&mut self, fault: Fault) {
        fault.begin(self.site());
        self.faults.in_force.push(fault);
    }

    /// What a fault can act on.
    const fn site(&mut self) -> Site<'_> {
        Site { rig: &mut self.rig, station: &mut self.station, seed: self.seed }
    }
}

/// Whether an action, just done, is this event; the knob was turned so often by now.
fn happens(event: Event, action: &Action, knob_turns: u32) -> bool {
    match (event, action) {
        (Event::ManometerHung, Action::Put { place }) => *place == PartPlace::Hook,
        (Event::CalibratorMounted, Action::Put { place }) => *place == PartPlace::Adapter,
        (Event::TubeConnected, Action::ConnectTube) | (Event::ChartFitted, Action::FitChart) => {
            true
        }
        (Event::KnobTurned(number), Action::TurnKnob { .. }) => u32::from(number) == knob_turns,
        (Event::PointWritten(number), Action::Write { field: Field::Chart(point), .. }) => {
            point.number() == number
        }
        _ => false,
    }
}
