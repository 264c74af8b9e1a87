//! What an operator remembers: habits, eyes, the next steps, and what was found.

use std::collections::VecDeque;

use super::person::Person;
use super::thought::{Thought, Thoughts, decided, reported};
use super::{Abilities, Habits, Observation, OperatorStep, Practice, Supply};
use crate::calibration::{AirConditions, Expression, FittedLine, RecorderScale, TransferStandard};
use crate::fault::FaultKind;
use crate::field_book::Field;
use crate::noise::Stream;
use crate::rig::parts::{BlowerPlug, Nut, PartPlace, RigPart, TimerSwitch};
use crate::session::action::{
    Action, Decision, FaultPlace, FaultReport, OnOff, Response, Sight, SuspectedCause,
};
use crate::session::read_in_words::{CHART_SD, DIAL_SD, SCALE_SD_IN};
use crate::time::Tick;

/// Readings of the manometer are taken to half a division, in.
const SCALE_STEP_IN: f64 = 0.05;
/// Resolution with which a pen is compared with the line to which it is set, divisions.
const COMPARED_STEP: f64 = 0.1;
/// Readings of the chart are taken to half a division.
const CHART_STEP: f64 = 0.5;
/// Readings of barometer and thermometer are taken to half a unit.
const DIAL_STEP: f64 = 0.5;

/// A part of the plan.
pub(super) trait OperatorPhase {
    /// Plans the next steps in `memory`, and returns whether the phase has more to do.
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress;
}

/// Whether a phase has more to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PhaseProgress {
    /// The phase continues.
    More,
    /// The phase is complete.
    Finished,
}

/// A point as read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ReadPoint {
    /// Pressure across the orifice, inches of water.
    pub delta_h_in: f64,
    /// The pen, divisions.
    pub chart: f64,
}

/// What an operator suspects, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Suspicion {
    place: FaultPlace,
    cause: SuspectedCause,
}

impl Suspicion {
    /// Something at a place, not known what.
    pub const fn unknown(place: FaultPlace) -> Self {
        Self { place, cause: SuspectedCause::NotKnownYet }
    }
}

impl From<FaultKind> for Suspicion {
    fn from(kind: FaultKind) -> Self {
        Self { place: kind.place(), cause: SuspectedCause::Known(kind) }
    }
}

/// What an operator remembers.
#[derive(Debug)]
pub(super) struct Memory {
    /// The operator's habits.
    pub habits: Habits,
    /// The certificate's pair that is used for the calibrator.
    pub standard: Option<TransferStandard>,
    /// Air temperature as written, degrees Celsius.
    pub temperature_c: f64,
    /// Pressure as written, mmHg.
    pub pressure_mmhg: f64,
    /// When the chart was fitted, and which hour of the chart was then under the pen.
    pub chart_fitted: Option<(Tick, f64)>,
    /// The points that were read.
    pub points: Vec<ReadPoint>,
    /// The chart reading to be held during the run.
    pub set_point: Option<f64>,
    /// When the blower was started.
    pub started: Option<Tick>,
    /// When the flow was last changed by hand.
    pub flow_changed: Option<Tick>,
    /// At how many flows tapping moved the pen as far as if it stuck.
    pub pen_stuck: u8,
    /// The expression used for the corrected chart reading.
    pub expression: Expression,
    /// Full scale of the chart that belongs on this recorder, divided by that of the chart in use.
    pub chart_scale: f64,
    /// Air temperature in the shade on arrival, degrees Celsius.
    pub arrival_c: Option<f64>,
    /// The density by which both legs together are multiplied.
    pub density: f64,
    /// The operator's calibration line, once accepted.
    pub line: Option<FittedLine>,
    /// The flow that the standard indicated at a flow check, standard m3/min, and the air at that
    /// time.
    pub checked: Option<(f64, AirConditions)>,
    /// Whether the sampler is set up for the next run.
    pub armed_next: bool,
    /// Why the calibration cannot be made or accepted.
    pub refusal: Option<String>,
    /// What was reported.
    pub reported: Vec<FaultReport>,
    /// Whether the filter of the run was reported as torn.
    pub filter_torn: bool,
    eyes: Stream,
    person: Option<Person>,
    todo: VecDeque<OperatorStep>,
    thoughts: Thoughts,
}

impl Memory {
    /// The memory of an operator who has just arrived.
    pub fn new(habits: Habits, seed: u64) -> Self {
        Self {
            habits,
            standard: None,
            temperature_c: 20.0,
            pressure_mmhg: 760.0,
            chart_fitted: None,
            points: Vec::new(),
            set_point: None,
            started: None,
            flow_changed: None,
            pen_stuck: 0,
            expression: Expression::actual(RecorderScale::SquareRoot),
            chart_scale: 1.0,
            arrival_c: None,
            density: 1.0,
            line: None,
            checked: None,
            armed_next: false,
            refusal: None,
            reported: Vec::new(),
            filter_torn: false,
            eyes: Stream::new(seed, "operator eyes"),
            person: None,
            todo: VecDeque::new(),
            thoughts: Thoughts::default(),
        }
    }

    /// The memory of a person with these abilities who has just arrived.
    pub fn of_person(abilities: Abilities, seed: u64) -> Self {
        let person = Person::new(abilities, seed);
        Self { person: Some(person), ..Self::new(Habits::default(), seed) }
    }

    /// From now on the operator is a person with these abilities, who knows what was done so far.
    pub fn becomes(&mut self, abilities: Abilities, seed: u64) {
        self.person = Some(Person::new(abilities, seed));
    }

    /// A new occasion begins: a person's habits are drawn anew.
    pub fn begins_occasion(&mut self) {
        if let Some(person) = &mut self.person {
            self.habits = person.habits();
        }
    }

    /// From now on the operator works at this.
    pub const fn turns_to(&mut self, phase: &'static str) {
        self.thoughts.turn_to(phase);
    }

    /// What was seen, against what it was held, and what follows. It changes nothing that is done.
    pub fn thinks(&mut self, thought: impl Into<String>) {
        self.thoughts.keep(thought.into());
    }

    /// The thoughts since they were last asked for.
    pub fn thoughts(&mut self) -> Vec<Thought> {
        self.thoughts.hand_out()
    }

    /// Takes the density of the manometer's fluid from its label, if that is the operator's habit.
    pub fn counts_density(&mut self, observed: &Observation<'_>) {
        self.density = match self.habits.density {
            Practice::Kept => observed.view.manometer.fluid.relative_density(),
            Practice::Skipped => 1.0,
        };
    }

    /// The knob's opening when this one is meant.
    pub fn sets_knob(&mut self, opening: f64) -> f64 {
        self.person.as_mut().map_or(opening, |person| person.sets_knob(opening))
    }

    /// The air as written; `None` if those values cannot be used.
    pub fn air(&self) -> Option<AirConditions> {
        AirConditions::as_read(self.pressure_mmhg, self.temperature_c).ok()
    }

    /// The next planned step.
    pub fn pop(&mut self) -> Option<OperatorStep> {
        self.todo.pop_front()
    }

    /// Drops all planned steps.
    pub fn drop_plans(&mut self) {
        self.todo.clear();
    }

    /// Plans an action, to be finished before the operator looks up from it.
    pub fn does(&mut self, action: Action) {
        let done = match &mut self.person {
            Some(person) => person.does(action),
            None => Some(action),
        };
        let Some(action) = done else { return };
        self.todo.push_back(OperatorStep::Do(action));
        self.todo.push_back(OperatorStep::FinishHands);
    }

    /// Plans an action from which the operator looks up at once.
    pub fn at_once(&mut self, action: Action) {
        self.todo.push_back(OperatorStep::Do(action));
    }

    /// Plans a wait.
    pub fn waits(&mut self, seconds: f64) {
        if seconds > 0.0 {
            self.todo.push_back(OperatorStep::Wait(seconds));
        }
    }

    /// Plans a look at something, with the eye level with it. What is seen is what is there when the
    /// eyes reach it.
    pub fn looks(&mut self, at: Sight) {
        self.todo.push_back(OperatorStep::Do(Action::Look { at, eye_mm: 0.0 }));
    }

    /// Plans a look at something in order to read it, with the eye at this operator's usual height.
    pub fn looks_to_read(&mut self, at: Sight) {
        let off_mm = self.person.as_mut().map_or(0.0, Person::eye_off_mm);
        let eye_mm = self.habits.eye_mm + off_mm;
        self.todo.push_back(OperatorStep::Do(Action::Look { at, eye_mm }));
    }

    /// Plans a short glance at something.
    pub fn glances(&mut self, at: Sight) {
        self.does(Action::Look { at, eye_mm: 0.0 });
    }

    /// Plans an entry in the field book.
    pub fn writes(&mut self, field: Field, text: impl Into<String>) {
        self.does(Action::Write { field, text: text.into() });
    }

    /// Plans a decision.
    pub fn decides(&mut self, decision: Decision, reason: &str) {
        self.thinks(decided(decision, reason));
        self.does(Action::Decide { decision, reason: reason.to_owned() });
    }

    /// Plans a report, unless the same cause and response have already been reported. True if the
    /// report is new.
    pub fn reports(&mut self, what: impl Into<Suspicion>, response: Response, seen: &str) -> bool {
        let Suspicion { place, cause } = what.into();
        let same = |report: &FaultReport| {
            report.place == place && report.cause == cause && report.response == response
        };
        let known = self.reported.iter().any(same);
        if !known {
            let seen = seen.to_owned();
            let report = FaultReport { place, cause, seen, shown_by: Vec::new(), response };
            self.thinks(reported(&report));
            self.reported.push(report.clone());
            self.does(Action::Report(report));
        }
        !known
    }

    /// Whether something was reported at a place.
    pub fn has_reported_at(&self, place: FaultPlace) -> bool {
        self.reported.iter().any(|report| report.place == place)
    }

    /// Whether this cause was reported.
    pub fn has_reported(&self, kind: FaultKind) -> bool {
        self.reported.iter().any(|report| report.cause == SuspectedCause::Known(kind))
    }

    /// Plans the report of an instrument that cannot be used, and gives up the calibration.
    pub fn rejects(&mut self, what: impl Into<Suspicion>, seen: &str) {
        self.reports(what, Response::Rejected, seen);
        self.gives_up(seen);
    }

    /// Gives up the calibration. The first reason is kept.
    pub fn gives_up(&mut self, why: &str) {
        if self.refusal.is_none() {
            self.thinks(format!("Gives up the calibration: {why}."));
            self.refusal = Some(why.to_owned());
        }
    }

    /// Plans the moving of a part.
    pub fn moves(&mut self, part: RigPart, place: PartPlace) {
        self.does(Action::Take { part });
        self.does(Action::Put { place });
    }

    /// Plans the turning of every nut, at opposite corners alternately.
    pub fn turns_nuts(&mut self, quarter_turns: i8) {
        let [one, two, three, four] = Nut::ALL;
        for nut in [one, three, two, four] {
            self.does(Action::TurnNut { nut, quarter_turns });
        }
    }

    /// Plans the start of the blower from its usual supply.
    pub fn starts_blower(&mut self, observed: &Observation<'_>) {
        self.starts_blower_by(self.habits.supply, observed);
    }

    /// Plans the start of the blower from this supply.
    pub fn starts_blower_by(&mut self, supply: Supply, observed: &Observation<'_>) {
        let power = &observed.view.power;
        match supply {
            Supply::Line => {
                if power.blower_plug != BlowerPlug::LineOutlet {
                    self.does(Action::PlugBlower { into: BlowerPlug::LineOutlet });
                }
                if power.line_switch == OnOff::Off {
                    self.does(Action::SwitchLine { to: OnOff::On });
                }
            }
            Supply::Controller => {
                if !power.sampler_cord_in {
                    self.does(Action::PlugSampler);
                }
                if power.timer_switch != TimerSwitch::On {
                    self.does(Action::SwitchTimer { to: TimerSwitch::On });
                }
            }
        }
        self.started = Some(observed.view.tick);
        self.flow_changed = self.started;
    }

    /// Plans to disconnect blower and sampler from the mains. True if either had power.
    pub fn stops_blower(&mut self, observed: &Observation<'_>) -> bool {
        let power = &observed.view.power;
        let mut any = false;
        if power.line_switch == OnOff::On {
            self.does(Action::SwitchLine { to: OnOff::Off });
            any = true;
        }
        if power.timer_switch != TimerSwitch::Off {
            self.does(Action::SwitchTimer { to: TimerSwitch::Off });
            any = true;
        }
        if power.sampler_cord_in {
            self.does(Action::UnplugSampler);
            any = true;
        }
        any
    }

    /// How many of the `seconds` since that moment are left; all of them if there was no such
    /// moment.
    pub fn left_of(seconds: f64, since: Option<Tick>, observed: &Observation<'_>) -> f64 {
        let passed = since.map_or(0.0, |since| observed.view.tick.seconds_since(since));
        (seconds - passed).max(0.0)
    }

    /// A meniscus as read, in.
    pub fn reads_in(&mut self, seen_in: f64) -> f64 {
        self.reads(seen_in, SCALE_SD_IN, SCALE_STEP_IN)
    }

    /// The pen as read, divisions.
    pub fn reads_chart(&mut self, seen: f64) -> f64 {
        self.reads(seen, CHART_SD, CHART_STEP)
    }

    /// The pen as compared with the line to which it is set, divisions.
    pub fn compares_chart(&mut self, seen: f64) -> f64 {
        self.reads(seen, CHART_SD, COMPARED_STEP)
    }

    /// A dial or column as read, mmHg or degrees.
    pub fn reads_dial(&mut self, seen: f64) -> f64 {
        self.reads(seen, DIAL_SD, DIAL_STEP)
    }

    fn reads(&mut self, seen: f64, sd: f64, step: f64) -> f64 {
        let sd = sd * self.person.as_ref().map_or(1.0, Person::scatter);
        let read = ((seen + sd * self.eyes.normal()) / step).round() * step;
        // Adding zero turns -0.0 into 0.0, so that no reading is written as "-0.0".
        read + 0.0
    }

    /// Whether this operator looks and listens for leaks.
    pub fn checks_leaks(&self) -> bool {
        self.habits.leak_check == Practice::Kept
    }
}
