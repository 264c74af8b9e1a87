//! The electronic manometer in an operator's hands: its label, its battery and its zero.

use super::memory::{Memory, PhaseProgress};
use super::{Leads, Observation, Practice};
use crate::rig::manometer::electronic::Shown;
use crate::rig::parts::OnOff;
use crate::scenario::setup::LONGEST_AGE_DAYS;
use crate::session::action::{Action, FaultKind, Response, Sight};
use crate::session::view::DisplayView;

/// A zero within this is good enough, in: two of the last digit.
const ZEROED_IN: f64 = 0.02;
/// A zero that moves by more than this between two looks is reported, in.
const DRIFTS_IN: f64 = 0.05;
/// Time for the average to settle after the port was opened or closed, s.
const AVERAGE_S: f64 = 12.0;
/// Time for its own test after it was switched on, s.
const TEST_S: f64 = 6.0;
/// How often the zero is tried.
const MOST_TRIES: u8 = 4;

/// The manometer on its hook, until its tube is on the tap.
#[derive(Debug, Clone, Copy, Default)]
pub(super) enum DisplayPhase {
    /// The manometer is in focus: its label can be read.
    #[default]
    Label,
    /// It was switched on.
    On(u8),
    /// It was zeroed.
    Zeroed(u8),
    /// The tube is on the tap.
    Joined,
}

impl DisplayPhase {
    /// Takes the next step.
    pub fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let Some(display) = observed.view.manometer.display else { return PhaseProgress::Finished };
        *self = match *self {
            Self::Label => {
                label(display, observed, memory);
                switches_on(memory);
                Self::On(0)
            }
            Self::On(tries) if tries < MOST_TRIES && battery(display, memory) => {
                Self::On(tries + 1)
            }
            Self::On(_) if memory.habits.zeroing == Practice::Skipped => joins(memory),
            Self::On(_) => {
                zeroes(memory);
                Self::Zeroed(0)
            }
            Self::Zeroed(tries) => {
                let off = off_zero_in(display);
                memory.thinks(format!(
                    "With its port open the display shows {off:+.2} in; {ZEROED_IN:.2} in is good enough."
                ));
                if off.abs() > ZEROED_IN && tries < MOST_TRIES {
                    zeroes(memory);
                    Self::Zeroed(tries + 1)
                } else {
                    joins(memory)
                }
            }
            Self::Joined => return PhaseProgress::Finished,
        };
        PhaseProgress::More
    }
}

/// Pushes the tube onto the tap.
fn joins(memory: &mut Memory) -> DisplayPhase {
    memory.does(Action::ConnectTube);
    DisplayPhase::Joined
}

/// Compares the label's date with today's.
fn label(display: DisplayView, observed: &Observation<'_>, memory: &mut Memory) {
    let Some(date) = display.calibrated.filter(|_| memory.habits.certificate == Leads::Compared)
    else {
        return;
    };
    let days = observed.view.date.days_since(date);
    memory.thinks(format!(
        "The label on its back says {date}, {days} days ago; at most {LONGEST_AGE_DAYS} are allowed."
    ));
    if days > LONGEST_AGE_DAYS {
        memory.rejects(
            FaultKind::DisplayCalibrationExpired,
            "the electronic manometer was calibrated more than a year ago",
        );
    }
}

fn switches_on(memory: &mut Memory) {
    memory.does(Action::SwitchManometer { to: OnOff::On });
    memory.waits(TEST_S);
    memory.looks(Sight::Display);
}

/// Presses the zero key with the port open, and looks what became of it.
fn zeroes(memory: &mut Memory) {
    memory.does(Action::ZeroManometer);
    memory.waits(AVERAGE_S);
    memory.looks(Sight::Display);
}

/// Changes a battery whose sign is on, or that is flat. True if it was changed.
fn battery(display: DisplayView, memory: &mut Memory) -> bool {
    let flat = display.shows == Shown::Nothing;
    if !flat && !display.battery_low {
        return false;
    }
    memory.thinks(if flat {
        "The display stays dark: its battery is flat."
    } else {
        "The low-battery sign is on: the readings sink with the battery."
    });
    memory.does(Action::ChangeBattery);
    memory.reports(
        FaultKind::DisplayBatteryLow,
        Response::Repaired,
        "the low-battery sign was on; a fresh battery put in",
    );
    switches_on(memory);
    true
}

/// What the display shows with its port open, in; nothing counts as zero.
const fn off_zero_in(display: DisplayView) -> f64 {
    match display.shows {
        Shown::Reading(reading_in) => reading_in,
        _ => 0.0,
    }
}

/// The look at battery and zero before a point is read, with the tube off its tap.
#[derive(Debug, Clone, Copy)]
pub(super) enum ZeroCheck {
    /// The port is open, and the display in focus.
    Open(u8),
    /// The tube is back on the tap.
    Closed,
}

impl ZeroCheck {
    /// Opens the port; `None` for an operator who does not look at the zero again.
    pub fn begin(observed: &Observation<'_>, memory: &mut Memory) -> Option<Self> {
        observed.view.manometer.display?;
        let kept = memory.habits.zeroing == Practice::Kept;
        if !kept || memory.habits.settling == Practice::Skipped {
            return None;
        }
        if observed.view.tube.on_tap {
            memory.does(Action::DisconnectTube);
        }
        memory.waits(AVERAGE_S);
        memory.looks(Sight::Display);
        Some(Self::Open(0))
    }

    /// Takes the next step.
    pub fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let (Self::Open(tries), Some(display)) = (*self, observed.view.manometer.display) else {
            return PhaseProgress::Finished;
        };
        if tries < MOST_TRIES && battery(display, memory) {
            *self = Self::Open(tries + 1);
            return PhaseProgress::More;
        }
        let off = off_zero_in(display);
        memory.thinks(format!(
            "With the tube off the display shows {off:+.2} in; a sound one stays within {DRIFTS_IN:.2} in."
        ));
        // Gusts on the open port, and a battery that was just changed, move it as well.
        if off.abs() > DRIFTS_IN && tries == 0 && !memory.points.is_empty() {
            memory.reports(
                FaultKind::DisplayZeroDrifts,
                Response::Corrected,
                "the zero of the electronic manometer drifts; zeroed again before each point",
            );
        }
        if off.abs() > ZEROED_IN && tries < MOST_TRIES {
            zeroes(memory);
            *self = Self::Open(tries + 1);
            return PhaseProgress::More;
        }
        memory.does(Action::ConnectTube);
        memory.waits(AVERAGE_S);
        *self = Self::Closed;
        PhaseProgress::More
    }
}
