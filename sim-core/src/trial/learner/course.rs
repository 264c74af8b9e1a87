//! One learner on the way through a plan, day by day.

use std::collections::BTreeMap;

use super::addressed::{ADDRESSED, taught_phases};
use super::memory::HabitMemory;
use super::plan_use::PlanUse;
use crate::marking::Marks;
use crate::noise::Stream;
use crate::plan::spacing::{BOX_DAYS, DAY_S, Kept, LeitnerBox};
use crate::plan::{LessonPlan, PlanStanding, PlanStep, Practice, Practised, StepKind, StepState};
use crate::scenario::{KnownRules, check};
use crate::session::checklist_item::ChecklistItem;
use crate::trial::{TrialError, plan_time, rehearsal};

/// Minutes of practice a day (CHOSEN).
const DAILY_MIN: f64 = 60.0;
/// Share of the habits with which a learner comes (CHOSEN).
const SHARE: f64 = 0.33;
/// Series of a drill before it is good enough (CHOSEN, as the estimate of its time has it).
const SERIES: usize = 2;
/// Tries of a step that is not done; then the learner goes on all the same (CHOSEN).
const MOST_TRIES: usize = 4;
/// Days after which a learner is stopped.
const MOST_DAYS: u64 = 400;

/// A plan with everything that it needs: the texts of its scenarios, their checksums and times.
#[derive(Debug)]
pub struct Material {
    plan: LessonPlan,
    texts: BTreeMap<String, (String, String)>,
    taught: Vec<Vec<ChecklistItem>>,
    minutes: Vec<f64>,
    /// Days after the end at which the learners are tried once more.
    pub later_days: u64,
}

/// Days after the end of the plan at which it is seen what was kept (CHOSEN: two months).
const LATER_DAYS: u64 = 2 * BOX_DAYS[4];

/// What came of one whole job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JobResult {
    /// Marks, of 100.
    pub marks: f64,
    /// Whether it was passed.
    pub passed: bool,
}

/// One learner's way.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Habits with which the learner came.
    pub came_with: usize,
    /// The last job or sitting of the plan, worked before anything else.
    pub before: JobResult,
    /// The first try of each job and sitting of the plan, in its order.
    pub jobs: Vec<JobResult>,
    /// The last job or sitting once more, right after the plan.
    pub after: JobResult,
    /// The same later on.
    pub later: JobResult,
    /// Days from the first to the last step.
    pub days: u64,
    /// Habits left at the end of the plan, and later on.
    pub habits_left: [usize; 2],
}

impl Material {
    /// A plan with its scenarios. A step whose scenario is not at hand, and a drawn rig, are left out.
    pub fn new<'a>(plan: &LessonPlan, text_of: &dyn Fn(&str) -> Option<&'a str>) -> Self {
        let is_at_hand = |step: &PlanStep| match &step.step {
            StepKind::Drawn(_) => false,
            other => other.file().is_none_or(|file| text_of(file).is_some()),
        };
        let mut plan = plan.clone();
        plan.steps.retain(is_at_hand);
        let mut texts = BTreeMap::new();
        for file in plan.steps.iter().filter_map(|step| step.step.file()) {
            if let Some(text) = text_of(file) {
                let sha256 = crate::digest::sha256_hex(text.as_bytes());
                texts.insert(file.to_owned(), (text.to_owned(), sha256));
            }
        }
        let taught = |step: &PlanStep| match &step.step {
            StepKind::Lesson(file) => texts
                .get(file)
                .and_then(|(text, _)| check(text, KnownRules::Any).ok())
                .map_or_else(Vec::new, |scenario| taught_phases(&scenario)),
            _ => Vec::new(),
        };
        let taught = plan.steps.iter().map(taught).collect();
        let minutes = plan_time::step_minutes(&plan, text_of);
        let minutes = minutes.into_iter().map(|minutes| minutes.unwrap_or(0.0)).collect();
        Self { plan, texts, taught, minutes, later_days: LATER_DAYS }
    }

    /// The steps.
    pub fn steps(&self) -> &[PlanStep] {
        &self.plan.steps
    }

    /// The files of jobs and sittings, in the order of the plan.
    pub fn jobs(&self) -> Vec<&str> {
        let jobs = self.plan.steps.iter().filter(|step| is_job(&step.step));
        jobs.filter_map(|step| step.step.file()).collect()
    }

    /// The habits that a drill or a lesson of the plan addresses.
    pub fn addressed(&self) -> Vec<&'static str> {
        let by_step = |row: &&super::addressed::AddressedHabit| {
            self.plan.steps.iter().zip(&self.taught).any(|(step, taught)| match &step.step {
                StepKind::Drill(kind) => row.by_drill(*kind),
                _ => row.by_lesson(taught),
            })
        };
        ADDRESSED.iter().filter(by_step).map(|row| row.habit).collect()
    }

    fn sha256(&self, file: &str) -> Option<&str> {
        self.texts.get(file).map(|(_, sha256)| sha256.as_str())
    }

    fn work(&self, file: &str, operator: &str, seed: u64) -> Result<JobResult, TrialError> {
        let text = self.texts.get(file).map_or("", |(text, _)| text.as_str());
        Ok(result(rehearsal(text, operator, seed)?.marks.as_ref()))
    }
}

/// Whether a step is a whole job.
const fn is_job(kind: &StepKind) -> bool {
    matches!(kind, StepKind::Job(_) | StepKind::Sitting(_))
}

fn result(marks: Option<&Marks>) -> JobResult {
    marks.map_or(JobResult { marks: 0.0, passed: false }, |marks| JobResult {
        marks: marks.percent(),
        passed: marks.passed,
    })
}

/// The habits with which a learner comes.
fn drawn_habits(seed: u64) -> Vec<&'static str> {
    let mut stream = Stream::new(seed, "learner habits");
    ADDRESSED.iter().filter(|_| stream.unit() < SHARE).map(|row| row.habit).collect()
}

/// A learner under way.
struct Learner<'a> {
    material: &'a Material,
    seed: u64,
    memory: HabitMemory,
    practice: Vec<Practice>,
    boxes: BTreeMap<usize, LeitnerBox>,
    now_s: u64,
    jobs: Vec<(usize, JobResult)>,
}

impl Course {
    /// The way of one learner.
    ///
    /// # Errors
    ///
    /// When a scenario of the plan cannot be worked.
    pub fn of(material: &Material, used: PlanUse, seed: u64) -> Result<Self, TrialError> {
        let habits = drawn_habits(seed);
        let came_with = habits.len();
        let mut learner = Learner {
            material,
            seed,
            memory: HabitMemory::new(habits),
            practice: Vec::new(),
            boxes: BTreeMap::new(),
            // A day that is no boundary of anything.
            now_s: 20_000 * DAY_S,
            jobs: Vec::new(),
        };
        let last = material.jobs().last().copied().unwrap_or_default().to_owned();
        let trial = |learner: &Learner<'_>, number: u64| {
            let operator = learner.memory.operator(learner.now_s);
            material.work(&last, &operator, seed.wrapping_add(1000 * number))
        };
        let before = trial(&learner, 1)?;
        let began = learner.now_s;
        match used {
            PlanUse::JobsAlone => learner.works_jobs_alone()?,
            PlanUse::Whole | PlanUse::WithoutSpacing => learner.follows_plan(used)?,
        }
        let days = (learner.now_s - began) / DAY_S;
        let (after, left) = (trial(&learner, 2)?, learner.memory.habits(learner.now_s).len());
        learner.keeps_up(used)?;
        let (later, left_later) = (trial(&learner, 3)?, learner.memory.habits(learner.now_s).len());
        let mut jobs = learner.jobs;
        jobs.sort_by_key(|(index, _)| *index);
        Ok(Self {
            came_with,
            before,
            jobs: jobs.into_iter().map(|(_, result)| result).collect(),
            after,
            later,
            days,
            habits_left: [left, left_later],
        })
    }
}

impl Learner<'_> {
    /// The jobs of the plan in their order, without drills and lessons: one a day.
    fn works_jobs_alone(&mut self) -> Result<(), TrialError> {
        for index in 0..self.material.plan.steps.len() {
            if self.material.plan.steps.get(index).is_some_and(|step| is_job(&step.step)) {
                self.does(index)?;
                self.now_s += DAY_S;
            }
        }
        Ok(())
    }

    /// Takes the next step until nothing is open any more; what is due again comes first, if wanted.
    fn follows_plan(&mut self, used: PlanUse) -> Result<(), TrialError> {
        let mut left_today = DAILY_MIN;
        for _ in 0..MOST_DAYS * 10 {
            let standing = self.standing(used);
            let is_open = |state| state == StepState::Open;
            if !standing.steps.iter().any(|step| is_open(step.state)) {
                return Ok(());
            }
            let Some(next) = standing.next else { return Ok(()) };
            let minutes = self.material.minutes.get(next.index).copied().unwrap_or(0.0);
            if minutes > left_today && left_today < DAILY_MIN {
                self.now_s += DAY_S;
                left_today = DAILY_MIN;
                continue;
            }
            left_today -= minutes;
            self.does(next.index)?;
        }
        Ok(())
    }

    /// The days after the plan, in which only what is due again is done.
    fn keeps_up(&mut self, used: PlanUse) -> Result<(), TrialError> {
        for _ in 0..self.material.later_days {
            self.now_s += DAY_S;
            if used != PlanUse::Whole {
                continue;
            }
            let standing = self.standing(used);
            for (index, step) in standing.steps.iter().enumerate() {
                if step.state == StepState::Due {
                    self.does(index)?;
                }
            }
        }
        Ok(())
    }

    fn standing(&self, used: PlanUse) -> PlanStanding {
        let mut plan = self.material.plan.clone();
        if used != PlanUse::Whole {
            plan.steps.iter_mut().for_each(|step| step.again = Some(false));
        }
        let sha256_of = |file: &str| self.material.sha256(file);
        PlanStanding::at(&plan, &self.practice, &sha256_of, self.now_s)
    }

    /// Does one step once. After too many tries it counts as done: the learner goes on all the same.
    fn does(&mut self, index: usize) -> Result<(), TrialError> {
        let material = self.material;
        let Some(step) = material.plan.steps.get(index) else { return Ok(()) };
        let what = match &step.step {
            StepKind::Drill(kind) => Practised::Drill(*kind),
            other => {
                let sha256 = other.file().and_then(|file| material.sha256(file));
                Practised::Scenario { sha256: sha256.unwrap_or_default().to_owned() }
            }
        };
        let tries = self.practice.iter().filter(|one| one.what == what).count();
        let (mut passed, marks) = match &step.step {
            StepKind::Drill(_) => (tries + 1 >= SERIES, None),
            other => {
                let operator = self.memory.operator(self.now_s);
                let seed = self.seed.wrapping_add(10_000 * (tries as u64 + 1));
                let result = material.work(other.file().unwrap_or_default(), &operator, seed)?;
                if is_job(other) && tries == 0 {
                    self.jobs.push((index, result));
                }
                (result.passed, Some(result.marks))
            }
        };
        let gives_up = tries + 1 >= MOST_TRIES;
        let marks = if gives_up { marks.map(|_| 100.0) } else { marks };
        passed |= gives_up;
        let unix_s = Some(self.now_s);
        self.practice.push(Practice { what, unix_s, passed, marks, unaided: true });
        self.remembers(index, step, passed);
        Ok(())
    }

    /// What a step leaves behind. A lesson is talked through in its debrief even if it is not passed yet.
    fn remembers(&mut self, index: usize, step: &PlanStep, passed: bool) {
        let is_lesson = matches!(step.step, StepKind::Lesson(_));
        if is_job(&step.step) || !(passed || is_lesson) {
            return;
        }
        let leitner = match self.boxes.get(&index) {
            None => LeitnerBox::FIRST,
            Some(leitner) => leitner.after(if passed { Kept::Yes } else { Kept::No }),
        };
        self.boxes.insert(index, leitner);
        let taught = self.material.taught.get(index).cloned().unwrap_or_default();
        self.memory.practised(self.now_s, leitner, |row| match &step.step {
            StepKind::Drill(kind) => row.by_drill(*kind),
            _ => row.by_lesson(&taught),
        });
    }
}
