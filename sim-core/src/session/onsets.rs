//! How faults begin, come and go in the state of a session.

use super::action::Action;
use super::state::SessionState;
use super::unattended_run::UnattendedRun;
use crate::fault::declared::Site;
use crate::fault::{Event, Fault, Onset};
use crate::field_book::{Field, FieldBook, PointNumber};
use crate::rig::parts::PartPlace;

impl SessionState {
    /// Puts every fault in force that is due, and lets spells end.
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
        // A calibrator has a knob or plates, never both.
        if matches!(action, Action::TurnKnob { .. } | Action::PutInPlate { .. }) {
            self.faults.knob_turns = self.faults.knob_turns.saturating_add(1);
        }
        let turns = self.faults.knob_turns;
        // The readings are looked at before the faults are, because both belong to the state.
        let book = self.book.clone();
        self.begin_those(|onset| match onset {
            Onset::AtEvent(event) => happens(*event, action, turns, &book),
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

/// Whether an action that was just done is this event. `knob_turns` counts every turn of the knob, or
/// every plate put in, so far.
fn happens(event: Event, action: &Action, knob_turns: u32, book: &FieldBook) -> bool {
    match (event, action) {
        (Event::ManometerHung, Action::Put { place }) => *place == PartPlace::Hook,
        (Event::CalibratorMounted, Action::Put { place }) => *place == PartPlace::Adapter,
        (Event::TubeConnected, Action::ConnectTube) | (Event::ChartFitted, Action::FitChart) => {
            true
        }
        (Event::KnobTurned(number), Action::TurnKnob { .. }) => u32::from(number) == knob_turns,
        (Event::PlatePutIn(number), Action::PutInPlate { .. }) => u32::from(number) == knob_turns,
        (Event::PointWritten(number), Action::Write { .. }) => readings(number, book).all,
        (Event::PointWritten(number), Action::TurnKnob { .. } | Action::TakeOutPlate) => {
            readings(number, book).any
        }
        _ => false,
    }
}

/// Which readings of a point are written.
struct Readings {
    /// At least one of them.
    any: bool,
    /// Both legs or their sum, and the pen.
    all: bool,
}

/// Which readings of the point with this number are written.
fn readings(number: u8, book: &FieldBook) -> Readings {
    let Ok(point) = PointNumber::try_from(number) else {
        return Readings { any: false, all: false };
    };
    let written = |field| book.text(field).is_some();
    let (up, down) = (written(Field::Up(point)), written(Field::Down(point)));
    let (sum, chart) = (written(Field::DeltaH(point)), written(Field::Chart(point)));
    Readings { any: up || down || sum || chart, all: chart && (sum || up && down) }
}
