//! The plan that every operator follows, one phase after another.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::restore::{RestorePhase, SigningPhase};
use super::{
    Abilities, Habits, Observation, Operator, OperatorNameError, OperatorStep, Practice, Thought,
};
use super::{
    arrive, check_run, closing, flow_check, hang, leak, load, mount, next_run, points, power,
    recover, strip, sums, volume, warm,
};
use crate::field_book::Field;
use crate::rig::parts::TimerSwitch;
use crate::scenario::lesson::LessonPhase;
use crate::scenario::setup::CheckedLine;
use crate::session::action::{Action, Decision, OnOff};

/// The operator abandons a phase after this many refusals.
const MOST_BALKS: u32 = 6;
/// How often the phases are asked for a step before the operator waits a second.
const MOST_ASKED: u32 = 64;

/// The operator of this name, with eyes drawn from the seed. Names can be joined by `+`, as in
/// `hurried+one-leg`.
///
/// # Errors
///
/// As [`Habits::by_name`].
pub fn by_name(name: &str, seed: u64) -> Result<Box<dyn Operator>, OperatorNameError> {
    let habits = Habits::by_name(name)?;
    Ok(Box::new(Planned::new(Memory::new(habits, seed))))
}

/// The operator with these abilities, in the session of this seed.
pub fn of_abilities(abilities: Abilities, seed: u64) -> Box<dyn Operator> {
    Box::new(Planned::new(Memory::of_person(abilities, seed)))
}

/// An operator that follows the plan.
pub(super) struct Planned {
    pub(super) memory: Memory,
    /// The phases, each with what it is called where the operator explains itself.
    phases: Vec<(&'static str, Box<dyn OperatorPhase>)>,
    at: usize,
    /// The phase and the number of points at which the habits were last drawn.
    occasion: Option<(usize, usize)>,
    balks: u32,
    fled: bool,
    /// The operator stops before the phase with this number.
    pub(super) stops_before: Option<usize>,
    /// After the phase with this number the operator signs.
    pub(super) signs_after: Option<usize>,
}

impl Planned {
    /// An operator with this memory.
    pub fn new(memory: Memory) -> Self {
        let phases: Vec<(&'static str, Box<dyn OperatorPhase>)> = vec![
            ("arrival", Box::new(arrive::ArrivePhase::default())),
            ("opening the shelter", Box::new(strip::StripPhase::default())),
            ("mounting", Box::new(mount::MountPhase::default())),
            ("manometer", Box::new(hang::HangPhase::default())),
            ("recorder and blower", Box::new(power::PowerPhase::default())),
            ("leak check", Box::new(leak::LeakCheckPhase::default())),
            ("warm-up", Box::new(warm::WarmUpPhase::default())),
            ("points", Box::new(points::PointsPhase::default())),
            ("flow check", Box::new(flow_check::FlowCheckPhase::new(CheckedLine::Last))),
            ("second look", Box::new(closing::ClosingPhase::default())),
            ("switching off", Box::new(power::StopPhase::default())),
            ("calculations", Box::new(sums::SumsPhase)),
            ("flow check", Box::new(flow_check::FlowCheckPhase::new(CheckedLine::Own))),
            ("restoring the station", Box::new(RestorePhase)),
            ("short run on the controller", Box::new(check_run::CheckRunPhase::default())),
            ("setting up the run", Box::new(load::LoadPhase::default())),
            ("recovering the sample", Box::new(recover::RecoverPhase::default())),
            ("setting up the next run", Box::new(next_run::NextRunPhase::default())),
            ("restoring the station", Box::new(RestorePhase)),
            ("volume", Box::new(volume::VolumePhase::default())),
            ("signature", Box::new(SigningPhase)),
        ];
        Self {
            memory,
            phases,
            at: 0,
            occasion: None,
            balks: 0,
            fled: false,
            stops_before: None,
            signs_after: None,
        }
    }

    /// The number of the phase in which the book is signed.
    fn signature(&self) -> usize {
        self.phases.len().saturating_sub(1)
    }

    /// The number of the part of the plan with this name, at which a phase of lessons begins. A plan
    /// may check the flow twice; the lesson takes the second check, which tests the operator's own line.
    pub(super) fn begins(&self, name: &str, phase: LessonPhase) -> Option<usize> {
        match phase {
            LessonPhase::FlowCheck => self.ends(name, phase),
            _ => self.phases.iter().position(|(known, _)| *known == name),
        }
    }

    /// The number of the part of the plan with this name, with which a phase of lessons ends.
    pub(super) fn ends(&self, name: &str, phase: LessonPhase) -> Option<usize> {
        let of_name = |(known, _): &(&str, Box<dyn OperatorPhase>)| *known == name;
        match phase {
            // Once before the run and once after it.
            LessonPhase::Restoring => self.phases.iter().position(of_name),
            _ => self.phases.iter().rposition(of_name),
        }
    }

    /// Notes where the work is, so that a new phase or a new point is a new occasion.
    fn meets_occasion(&mut self) {
        let here = (self.at, self.memory.points.len());
        if self.occasion != Some(here) {
            self.occasion = Some(here);
            self.memory.begins_occasion();
        }
    }

    /// Leaves the roof at the first thunder. The operator only cuts the power; the equipment stays.
    fn flees(&mut self, observed: &Observation<'_>) {
        let stays = self.memory.habits.leaving == Practice::Skipped;
        if self.fled || stays || observed.view.sky.thunder_since_s.is_none() {
            return;
        }
        self.fled = true;
        self.at = self.phases.len();
        self.memory.drop_plans();
        self.memory.turns_to("leaving the roof");
        self.memory.thinks(
            "Thunder is heard: only the power is cut, everything else stays as it is, and the roof is left.",
        );
        if observed.view.power.line_switch == OnOff::On {
            self.memory.does(Action::SwitchLine { to: OnOff::Off });
        }
        if self.memory.started.is_some() && observed.view.power.timer_switch == TimerSwitch::On {
            self.memory.does(Action::SwitchTimer { to: TimerSwitch::Off });
        }
        self.memory.decides(Decision::CalibrationRefused, "thunder");
        self.memory.writes(Field::Remarks, "Thunder was heard. The roof was left at once.");
        self.memory.does(Action::LeaveRoof);
    }
}

impl Operator for Planned {
    fn next(&mut self, observed: &Observation<'_>) -> OperatorStep {
        self.meets_occasion();
        self.flees(observed);
        for _ in 0..MOST_ASKED {
            if let Some(step) = self.memory.pop() {
                return step;
            }
            if self.stops_before == Some(self.at) {
                return OperatorStep::Done;
            }
            if self.signs_after.is_some_and(|last| self.at > last && self.at < self.signature()) {
                self.at = self.signature();
            }
            let Some((name, phase)) = self.phases.get_mut(self.at) else {
                return OperatorStep::Done;
            };
            self.memory.turns_to(name);
            if phase.go_on(observed, &mut self.memory) == PhaseProgress::Finished {
                self.at += 1;
                self.balks = 0;
                self.meets_occasion();
            }
        }
        OperatorStep::Wait(1.0)
    }

    fn refused(&mut self, _action: &Action, reason: &str) {
        self.balks += 1;
        if self.balks == MOST_BALKS {
            self.balks = 0;
            self.memory.drop_plans();
            self.memory
                .thinks(format!("{MOST_BALKS} actions could not be done: the work stops here."));
            self.memory.gives_up(&format!("the work could not go on ({reason})"));
            self.at += 1;
        }
    }

    fn thoughts(&mut self) -> Vec<Thought> {
        self.memory.thoughts()
    }
}
