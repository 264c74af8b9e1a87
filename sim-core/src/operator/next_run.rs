//! The end of phase K: the sampler is set up for the next run, if one is ordered.

use super::load::{Ready, in_hand, sets_timer, takes_fresh_filter};
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::mount::TIGHT_QUARTERS;
use super::{Observation, Practice};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart, Seat, TimerSwitch};
use crate::session::action::{Action, Sight};
use crate::session::view::run::{RunStanding, RunView};

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum NextRunPhase {
    /// At the folder of fresh filters; the filter of the run is in its envelope.
    #[default]
    Folder,
    /// A fresh filter is in hand and held against the light.
    InHand,
    /// The filter is on the holder, with the hold-down frame on it.
    Framed,
    /// The filter's margins are in sight.
    Margins,
    /// The timer is in focus, and the mains is connected again.
    Timer,
    /// The recorder is in focus.
    Recorder,
    /// The sampler is set up.
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
            Self::Folder if run.fresh_filters == 0 => {
                memory.thinks("No fresh filter is left for the next run.");
                Self::Over
            }
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
                memory.thinks("Filter and timer are set for the next run: a fresh chart, and the pen stays on it.");
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

/// Makes the margins even, tightens the nuts and closes the lid; then connects the mains, without
/// which the timer stands still.
fn margins(run: &RunView, observed: &Observation<'_>, memory: &mut Memory) -> NextRunPhase {
    if run.filter.seat == Some(Seat::Shifted) {
        memory.moves(RigPart::Frame, PartPlace::Ground);
        memory.thinks("The filter's margins are uneven under the frame: it is centred.");
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

/// Fits a fresh chart, uncaps the pen and puts it on the chart, and shuts the door.
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
