//! A simulated learner goes through a lesson plan: an operator whose habits fall away as drills and
//! lessons address them.
//!
//! | file | what it does |
//! |---|---|
//! | [`addressed`] | which habit is addressed by which drills, and by lessons on which phases |
//! | [`memory`] | when a habit falls away, and when it comes back |
//! | [`course`] | one learner on the way through a plan, day by day |
//! | [`figures`] | many learners, with the plan and without |
//!
//! It shows that a plan, the next steps that follow from it and the spacing do what they say: that what
//! is recommended addresses the habits that spoil the jobs, in time, and often enough for the stated
//! forgetting. It shows **nothing about people**. The rules by which habits fall away and come back are
//! CHOSEN, and that drills and lessons help at all is assumed by them.

pub mod addressed;
pub mod course;
pub mod figures;
pub mod memory;
mod plan_use;

pub use course::{Course, JobResult, Material};
pub use figures::{JobFigures, LearnerFigures, courses, learner_figures};
pub use plan_use::PlanUse;
