//! What the trainee's own hands and eyes have done so far, as far as advice depends on it.
//!
//! Where the eyes are now does not show what they saw before: somebody who was watching the pen
//! already has not watched it fall. A colleague looking over the trainee's shoulder knows what was
//! done, and so does this.

use sim_core::field_book::Field;
use sim_core::rig::parts::{PartPlace, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::time::{TICKS_PER_SECOND, Tick};

/// How long a look or a tap is good for, ticks: a minute (CHOSEN).
const FRESH_TICKS: u64 = 60 * TICKS_PER_SECOND;

/// When something was done last: its place in the order of all actions, from 1, and its tick.
type Last = Option<(usize, Tick)>;

/// What was done so far.
#[derive(Debug, Clone, Default)]
pub struct History {
    actions: usize,
    /// The openings are covered since then.
    covered: Option<Tick>,
    /// Since they are covered somebody listened or watched the pen.
    watched: bool,
    /// The blower was switched on, as far as the switches tell.
    started: bool,
    /// A leak check was made since the calibrator was last mounted and its plate last changed.
    leak_checked: bool,
    /// The zero was looked at since the manometer was hung and its valves were last turned.
    zero_seen: bool,
    /// The tube was blown through.
    blown_through: bool,
    /// The flow was last changed.
    changed: Last,
    tapped: Last,
    looked: Instruments,
    written: Instruments,
}

/// When something was done last with each instrument of a point.
#[derive(Debug, Clone, Copy, Default)]
struct Instruments {
    left: Last,
    right: Last,
    pen: Last,
    display: Last,
}

impl Instruments {
    fn of(&mut self, sight: Sight) -> Option<&mut Last> {
        match sight {
            Sight::LeftLeg => Some(&mut self.left),
            Sight::RightLeg => Some(&mut self.right),
            Sight::Pen => Some(&mut self.pen),
            Sight::Display => Some(&mut self.display),
            _ => None,
        }
    }

    const fn at(&self, sight: Sight) -> Last {
        match sight {
            Sight::LeftLeg => self.left,
            Sight::RightLeg => self.right,
            Sight::Pen => self.pen,
            Sight::Display => self.display,
            _ => None,
        }
    }
}

impl History {
    /// What was done, from the actions of a session in their order.
    pub fn of<'a>(done: impl IntoIterator<Item = (Tick, &'a Action)>) -> Self {
        let mut history = Self::default();
        for (tick, action) in done {
            history.after(tick, action);
        }
        history
    }

    /// How long the openings have been covered, s; `None` while they are free.
    pub(super) fn covered_for_s(&self, now: Tick) -> Option<f64> {
        self.covered.map(|since| Tick(now.0.saturating_sub(since.0)).seconds())
    }

    /// Whether somebody listened or watched the pen since the openings were covered.
    pub(super) const fn watched(&self) -> bool {
        self.watched
    }

    /// Whether a leak check was made since the calibrator was last mounted, and its plate last changed:
    /// openings covered, blower on, and somebody watched.
    pub(super) const fn leak_checked(&self) -> bool {
        self.leak_checked
    }

    /// Whether the tube was blown through.
    pub(super) const fn blown_through(&self) -> bool {
        self.blown_through
    }

    /// Whether the zero was looked at since the manometer was hung and its valves were turned.
    pub(super) const fn zero_seen(&self) -> bool {
        self.zero_seen
    }

    /// Whether the recorder was tapped since the flow was changed and since the pen was last written.
    pub(super) fn tapped(&self, now: Tick) -> bool {
        let since = latest(self.changed, self.written.pen);
        is_after(self.tapped, since) && is_fresh(self.tapped, now)
    }

    /// Whether an instrument was read afresh: since the flow was changed, since it was last written,
    /// and the pen since it was tapped.
    pub(super) fn read_afresh(&self, sight: Sight, now: Tick) -> bool {
        let looked = self.looked.at(sight);
        let since = latest(self.changed, self.written.at(sight));
        let tapped = sight != Sight::Pen || (self.tapped(now) && is_after(looked, self.tapped));
        is_after(looked, since) && is_fresh(looked, now) && tapped
    }

    fn after(&mut self, tick: Tick, action: &Action) {
        self.actions += 1;
        let now = Some((self.actions, tick));
        match action {
            Action::Look { at, .. } => {
                if let Some(looked) = self.looked.of(*at) {
                    *looked = now;
                }
                self.watch(matches!(at, Sight::Pen | Sight::Recorder));
                let shows_zero = matches!(
                    at,
                    Sight::LeftLeg | Sight::RightLeg | Sight::Manometer | Sight::Display
                );
                self.zero_seen |= shows_zero;
            }
            Action::Listen => self.watch(true),
            Action::SlideScale { .. } | Action::ZeroManometer => self.zero_seen = true,
            Action::Put { place: PartPlace::Hook }
            | Action::TurnValve { .. }
            | Action::ChangeBattery => self.zero_seen = false,
            Action::Put { place: PartPlace::Adapter } => self.leak_checked = false,
            Action::TakeOutPlate | Action::PutInPlate { .. } => {
                self.leak_checked = false;
                self.changed = now;
            }
            Action::BlowThrough => self.blown_through = true,
            Action::Tap => self.tapped = now,
            Action::Write { field, .. } => self.wrote(*field, now),
            _ => self.changed_flow(tick, action, now),
        }
    }

    /// Takes note that somebody listened or watched the pen.
    fn watch(&mut self, watches: bool) {
        if watches && self.covered.is_some() {
            self.watched = true;
            self.leak_checked |= self.started;
        }
    }

    fn wrote(&mut self, field: Field, now: Last) {
        let written = &mut self.written;
        match field {
            Field::DeltaH(_) => written.display = now,
            Field::Up(_) | Field::CheckUp(_) => written.left = now,
            Field::Down(_) | Field::CheckDown(_) => written.right = now,
            Field::Chart(_)
            | Field::CheckChart(_)
            | Field::StartChart
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
            | Field::EndChart => {
                written.pen = now;
            }
            _ => {}
        }
    }

    fn changed_flow(&mut self, tick: Tick, action: &Action, now: Last) {
        match action {
            Action::BlockOpenings => (self.covered, self.watched) = (Some(tick), false),
            Action::FreeOpenings => (self.covered, self.watched) = (None, false),
            Action::SwitchLine { to: OnOff::On } | Action::SwitchTimer { to: TimerSwitch::On } => {
                self.started = true;
            }
            Action::SwitchLine { to: OnOff::Off }
            | Action::SwitchTimer { to: TimerSwitch::Off } => self.started = false,
            // What hangs on a switch that is on may start, and the ear tells the rest.
            Action::PlugBlower { .. } | Action::PlugSampler | Action::ResetOutlet => {
                self.started = true;
            }
            Action::UnplugSampler
            | Action::TurnKnob { .. }
            | Action::TurnTrim { .. }
            | Action::TurnNut { .. }
            | Action::FitGasket { .. }
            | Action::ClearOpening { .. } => {}
            _ => return,
        }
        self.changed = now;
    }
}

/// The later of two.
fn latest(one: Last, other: Last) -> Last {
    one.max(other)
}

/// Whether something was done after something else; also when that was never done.
fn is_after(done: Last, since: Last) -> bool {
    done.is_some_and(|(at, _)| since.is_none_or(|(since, _)| at > since))
}

/// Whether something was done within the last minute.
fn is_fresh(done: Last, now: Tick) -> bool {
    done.is_some_and(|(_, tick)| now.0.saturating_sub(tick.0) <= FRESH_TICKS)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOOK: Action = Action::Look { at: Sight::Pen, eye_mm: 0.0 };

    fn after(actions: &[Action]) -> History {
        History::of(actions.iter().map(|action| (Tick(0), action)))
    }

    #[test]
    fn eyes_that_were_on_the_pen_before_have_not_watched_it() {
        let on = Action::SwitchLine { to: OnOff::On };
        let before = [on.clone(), LOOK, Action::BlockOpenings];
        assert!(!after(&before).watched() && !after(&before).leak_checked());
        let watched = after(&[on, Action::BlockOpenings, LOOK]);
        assert!(watched.watched() && watched.leak_checked());
        // With the blower off nothing is proved.
        assert!(!after(&[Action::BlockOpenings, Action::Listen]).leak_checked());
    }

    #[test]
    fn a_reading_is_fresh_until_the_flow_is_changed_or_it_is_written() {
        let turn = Action::TurnKnob { opening: 0.5 };
        let point = sim_core::field_book::PointNumber::try_from(1).expect("a point");
        let write = Action::Write { field: Field::Chart(point), text: "47".to_owned() };
        for (actions, fresh) in [
            (vec![LOOK], false),
            (vec![LOOK, Action::Tap], false),
            (vec![Action::Tap, LOOK], true),
            (vec![Action::Tap, LOOK, turn.clone()], false),
            (vec![Action::Tap, turn, LOOK], false),
            (vec![Action::Tap, LOOK, write], false),
        ] {
            assert_eq!(after(&actions).read_afresh(Sight::Pen, Tick(0)), fresh, "{actions:?}");
        }
        let tapped = after(&[Action::Tap, LOOK]);
        assert!(tapped.read_afresh(Sight::Pen, Tick(FRESH_TICKS)));
        assert!(!tapped.read_afresh(Sight::Pen, Tick(FRESH_TICKS + 1)));
    }
}
