//! The end of phase K: the sampler armed for the next run, where one is ordered.

use super::load::{Ready, in_hand, sets_timer, takes_fresh_filter};
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::mount::TIGHT_QUARTERS;
use super::{Observation, Practice};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart, Seat, TimerSwitch};
use crate::session::action::{Action, Sight};
use crate::session::view::run::{RunStanding, RunView};

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum NextRunPhase {
    /// Before the folder, the filter of the run in its envelope.
    #[default]
    Folder,
    /// A fresh filter is in the hand, before the light.
    InHand,
    /// It lies on the holder; the frame is laid on it.
    Framed,
    /// The filter's margins are in sight.
    Margins,
    /// The timer is in focus, and has mains again.
    Timer,
    /// The recorder is in focus.
    Recorder,
    /// Armed.
    Over,
}

impl OperatorPhase for NextRunPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let Some(run) = observed.view.run.as_deref() else { return PhaseProgress::Finished };
        let ordered = observed.papers.work_order.next_run();
        let wanted = run.standing == RunStanding::Back && memory.habits.arming == Practice::Kept;
        let Some(next) = ordered.filter(|_| wanted) else { return PhaseProgress::Finished };
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Folder if run.fresh_filters == 0 => Self::Over,
            Self::Folder => {
                takes_fresh_filter(memory);
                Self::InHand
            }
            Self::InHand => match in_hand(observed, memory) {
                Ready::Put => {
                    let number = run.filter.number.clone().unwrap_or_default();
                    memory.writes(Field::NextFilterNumber, number);
                    Self::Framed
                }
                Ready::Another => Self::Folder,
            },
            Self::Framed => {
                memory.moves(RigPart::Frame, PartPlace::Holder);
                memory.looks(Sight::Filter);
                Self::Margins
            }
            Self::Margins => margins(run, observed, memory),
            Self::Timer => {
                let first_day = observed.papers.station.date.weekday();
                sets_timer([next.on, next.off], first_day, run, observed, memory);
                memory.does(Action::SwitchTimer { to: TimerSwitch::Auto });
                memory.looks(Sight::Recorder);
                Self::Recorder
            }
            Self::Recorder => {
                recorder(observed, memory);
                memory.armed_next = true;
                Self::Over
            }
            Self::Over => {
                *self = Self::Over;
                return PhaseProgress::Finished;
            }
        };
        PhaseProgress::More
    }
}

/// The margins even, the nuts tight, the lid closed; then mains for the timer, which stands without.
fn margins(run: &RunView, observed: &Observation<'_>, memory: &mut Memory) -> NextRunPhase {
    if run.filter.seat == Some(Seat::Shifted) {
        memory.moves(RigPart::Frame, PartPlace::Ground);
        memory.does(Action::CentreFilter);
        return NextRunPhase::Framed;
    }
    let half = (TIGHT_QUARTERS / 2) as i8;
    memory.turns_nuts(half);
    memory.turns_nuts(half);
    memory.does(Action::CloseLid);
    if observed.view.power.blower_plug != BlowerPlug::Controller {
        memory.does(Action::PlugBlower { into: BlowerPlug::Controller });
    }
    if !observed.view.power.sampler_cord_in {
        memory.does(Action::PlugSampler);
    }
    memory.looks(Sight::Timer);
    NextRunPhase::Timer
}

/// A fresh chart, the pen uncapped and on it, the door shut.
fn recorder(observed: &Observation<'_>, memory: &mut Memory) {
    let seen = &observed.view.recorder;
    if !seen.door_open {
        memory.does(Action::OpenDoor);
    }
    if seen.on_paper {
        memory.does(Action::LiftPen);
    }
    memory.does(Action::FitChart);
    if seen.capped {
        memory.does(Action::UncapPen);
    }
    memory.does(Action::LowerPen);
    memory.does(Action::CloseDoor);
}
