//! The plan that every operator follows, phase after phase.

use super::mind::{Mind, Phase, Progress};
use super::restore::{Restore, Signing};
use super::{Habits, Operator, Practice, Scene, Step};
use super::{
    arrive, check_run, closing, flow_check, hang, leak, load, mount, next_run, points, power,
    recover, strip, sums, volume, warm,
};
use crate::field_book::Field;
use crate::rig::parts::TimerSwitch;
use crate::scenario::setup::CheckedLine;
use crate::session::action::{Action, OnOff};

/// Refusals after which a phase is left.
const MOST_BALKS: u32 = 6;
/// Times that phases are asked for a step before a second is let pass.
const MOST_ASKED: u32 = 64;

/// An operator that follows the plan.
pub(super) struct Planned {
    mind: Mind,
    phases: Vec<Box<dyn Phase>>,
    at: usize,
    balks: u32,
    fled: bool,
}

impl Planned {
    /// An operator with these habits, its eyes drawn from the seed.
    pub fn new(habits: Habits, seed: u64) -> Self {
        let phases: Vec<Box<dyn Phase>> = vec![
            Box::new(arrive::Arrive::default()),
            Box::new(strip::Strip::default()),
            Box::new(mount::Mount::default()),
            Box::new(hang::Hang::default()),
            Box::new(power::Power::default()),
            Box::new(leak::LeakCheck::default()),
            Box::new(warm::WarmUp::default()),
            Box::new(points::Points::default()),
            Box::new(flow_check::FlowCheck::new(CheckedLine::Last)),
            Box::new(closing::Closing::default()),
            Box::new(power::Stop::default()),
            Box::new(sums::Sums),
            Box::new(flow_check::FlowCheck::new(CheckedLine::Own)),
            Box::new(Restore),
            Box::new(check_run::CheckRun::default()),
            Box::new(load::Load::default()),
            Box::new(recover::Recover::default()),
            Box::new(next_run::NextRun::default()),
            Box::new(Restore),
            Box::new(volume::Volume::default()),
            Box::new(Signing),
        ];
        Self { mind: Mind::new(habits, seed), phases, at: 0, balks: 0, fled: false }
    }

    /// Off the roof at the first thunder, whatever is left standing: only the power is cut.
    fn flees(&mut self, scene: &Scene<'_>) {
        let stays = self.mind.habits.leaving == Practice::Skipped;
        if self.fled || stays || scene.view.sky.thunder_since_s.is_none() {
            return;
        }
        self.fled = true;
        self.at = self.phases.len();
        self.mind.drop_plans();
        if scene.view.power.line_switch == OnOff::On {
            self.mind.does(Action::SwitchLine { to: OnOff::Off });
        }
        if self.mind.started.is_some() && scene.view.power.timer_switch == TimerSwitch::On {
            self.mind.does(Action::SwitchTimer { to: TimerSwitch::Off });
        }
        self.mind.writes(Field::Decision, "refused: thunder");
        self.mind.writes(Field::Remarks, "Thunder was heard. The roof was left at once.");
        self.mind.does(Action::LeaveRoof);
    }
}

impl Operator for Planned {
    fn next(&mut self, scene: &Scene<'_>) -> Step {
        self.flees(scene);
        for _ in 0..MOST_ASKED {
            if let Some(step) = self.mind.pop() {
                return step;
            }
            let Some(phase) = self.phases.get_mut(self.at) else {
                return Step::Done;
            };
            if phase.go_on(scene, &mut self.mind) == Progress::Finished {
                self.at += 1;
                self.balks = 0;
            }
        }
        Step::Wait(1.0)
    }

    fn refused(&mut self, _action: &Action, reason: &str) {
        self.balks += 1;
        if self.balks == MOST_BALKS {
            self.balks = 0;
            self.mind.drop_plans();
            self.mind.gives_up(&format!("the work could not go on ({reason})"));
            self.at += 1;
        }
    }
}
