//! Many learners, with the plan and without it.

use serde::Serialize;

use super::course::{Course, JobResult, Material};
use super::plan_use::PlanUse;

/// What came of many learners.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LearnerFigures {
    /// How they used the plan.
    pub used: PlanUse,
    /// How many learners.
    pub learners: usize,
    /// Habits with which they came, on average.
    pub came_with: f64,
    /// The last job, worked before the plan.
    pub before: JobFigures,
    /// The first try of each job, in the order of the plan.
    pub jobs: Vec<JobFigures>,
    /// The last job once more, right after the plan.
    pub after: JobFigures,
    /// The same two months later.
    pub later: JobFigures,
    /// Days on the way, on average.
    pub days: f64,
    /// Habits left at the end, and two months later, on average.
    pub habits_left: [f64; 2],
}

/// What came of one job.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct JobFigures {
    /// Marks on average.
    pub marks: f64,
    /// Share that passed, percent.
    pub passed_pct: f64,
}

/// The figures of the ways of many learners; `None` without any.
pub fn learner_figures(used: PlanUse, courses: &[Course]) -> Option<LearnerFigures> {
    let first = courses.first()?;
    let mean =
        |of: &dyn Fn(&Course) -> f64| courses.iter().map(of).sum::<f64>() / courses.len() as f64;
    let job = |of: &dyn Fn(&Course) -> Option<JobResult>| JobFigures {
        marks: mean(&|course| of(course).map_or(0.0, |one| one.marks)),
        passed_pct: mean(&|course| {
            of(course).map_or(0.0, |one| if one.passed { 100.0 } else { 0.0 })
        }),
    };
    Some(LearnerFigures {
        used,
        learners: courses.len(),
        came_with: mean(&|course| course.came_with as f64),
        before: job(&|course| Some(course.before)),
        jobs: (0..first.jobs.len())
            .map(|index| job(&|course| course.jobs.get(index).copied()))
            .collect(),
        after: job(&|course| Some(course.after)),
        later: job(&|course| Some(course.later)),
        days: mean(&|course| course.days as f64),
        habits_left: [0, 1].map(|at| {
            mean(&|course| course.habits_left.get(at).map_or(0.0, |count| *count as f64))
        }),
    })
}

/// The ways of learners with these seeds.
///
/// # Errors
///
/// When a scenario of the plan cannot be worked.
pub fn courses(
    material: &Material,
    used: PlanUse,
    seeds: std::ops::Range<u64>,
) -> Result<Vec<Course>, crate::trial::TrialError> {
    seeds.map(|seed| Course::of(material, used, seed)).collect()
}
