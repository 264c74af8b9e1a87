//! The end of phase K: the sampler armed for the next run, where one is ordered.

use super::load::{Ready, in_hand, sets_timer, takes_fresh_filter};
use super::mind::{Mind, Phase, Progress};
use super::mount::TIGHT_QUARTERS;
use super::{Practice, Scene};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, Part, Place, Seat, TimerSwitch};
use crate::session::action::{Action, Sight};
use crate::session::view::run::{RunStanding, RunView};

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum NextRun {
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

impl Phase for NextRun {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        let Some(run) = scene.view.run.as_deref() else { return Progress::Finished };
        let ordered = scene.papers.work_order.next_run();
        let wanted = run.standing == RunStanding::Back && mind.habits.arming == Practice::Kept;
        let Some(next) = ordered.filter(|_| wanted) else { return Progress::Finished };
        let stage = std::mem::take(self);
        *self = match stage {
            Self::Folder if run.fresh_filters == 0 => Self::Over,
            Self::Folder => {
                takes_fresh_filter(mind);
                Self::InHand
            }
            Self::InHand => match in_hand(scene, mind) {
                Ready::Put => {
                    let number = run.filter.number.clone().unwrap_or_default();
                    mind.writes(Field::NextFilterNumber, number);
                    Self::Framed
                }
                Ready::Another => Self::Folder,
            },
            Self::Framed => {
                mind.moves(Part::Frame, Place::Holder);
                mind.looks(Sight::Filter);
                Self::Margins
            }
            Self::Margins => margins(run, scene, mind),
            Self::Timer => {
                let first_day = scene.papers.station.date.weekday();
                sets_timer([next.on, next.off], first_day, run, scene, mind);
                mind.does(Action::SwitchTimer { to: TimerSwitch::Auto });
                mind.looks(Sight::Recorder);
                Self::Recorder
            }
            Self::Recorder => {
                recorder(scene, mind);
                mind.armed_next = true;
                Self::Over
            }
            Self::Over => {
                *self = Self::Over;
                return Progress::Finished;
            }
        };
        Progress::More
    }
}

/// The margins even, the nuts tight, the lid closed; then mains for the timer, which stands without.
fn margins(run: &RunView, scene: &Scene<'_>, mind: &mut Mind) -> NextRun {
    if run.filter.seat == Some(Seat::Shifted) {
        mind.moves(Part::Frame, Place::Ground);
        mind.does(Action::CentreFilter);
        return NextRun::Framed;
    }
    let half = (TIGHT_QUARTERS / 2) as i8;
    mind.turns_nuts(half);
    mind.turns_nuts(half);
    mind.does(Action::CloseLid);
    if scene.view.power.blower_plug != BlowerPlug::Controller {
        mind.does(Action::PlugBlower { into: BlowerPlug::Controller });
    }
    if !scene.view.power.sampler_cord_in {
        mind.does(Action::PlugSampler);
    }
    mind.looks(Sight::Timer);
    NextRun::Timer
}

/// A fresh chart, the pen uncapped and on it, the door shut.
fn recorder(scene: &Scene<'_>, mind: &mut Mind) {
    let seen = &scene.view.recorder;
    if !seen.door_open {
        mind.does(Action::OpenDoor);
    }
    if seen.on_paper {
        mind.does(Action::LiftPen);
    }
    mind.does(Action::FitChart);
    if seen.capped {
        mind.does(Action::UncapPen);
    }
    mind.does(Action::LowerPen);
    mind.does(Action::CloseDoor);
}
