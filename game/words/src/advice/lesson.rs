//! The next step of a lesson: of the work, only what belongs to its phases.

use sim_core::procedure::lesson::phase_of;
use sim_core::scenario::setup::{LessonPhase, LessonPhases};

use super::interrupt::{away, thunder};
use super::next::Advice;
use super::scene::Scene;
use super::{arrive, check, finish, mount, plates, points, run};

/// The next step; none once everything that belongs to the lesson is done.
pub(super) fn next_step(scene: &Scene<'_>, phases: LessonPhases) -> Option<Advice> {
    away(scene)
        .or_else(|| thunder(scene))
        .or_else(|| points::covered(scene))
        .or_else(|| up_to_the_readings(scene, phases))
        .or_else(|| after_the_readings(scene, phases))
}

/// The work up to the last point, or up to the readings of a check that is the whole job.
fn up_to_the_readings(scene: &Scene<'_>, phases: LessonPhases) -> Option<Advice> {
    let alone = scene.papers.work_order.is_check_alone();
    if scene.refused() || !alone && scene.points_are_taken() {
        return None;
    }
    if alone && phases.has(LessonPhase::FlowCheck) {
        return check::alone(scene);
    }
    let of = |phase, step: fn(&Scene<'_>) -> Option<Advice>| {
        if phases.has(phase) { step(scene) } else { None }
    };
    of(LessonPhase::Arrival, arrive::site_and_papers)
        .or_else(|| of(LessonPhase::Mounting, mount::sampler))
        .or_else(|| of(LessonPhase::Manometer, mount::manometer))
        .or_else(|| of(LessonPhase::Power, arrive::conditions))
        .or_else(|| of(LessonPhase::Power, if alone { check::started } else { points::start }))
        .or_else(|| of(LessonPhase::Points, next_point))
}

/// The next point, with everything that it needs.
fn next_point(scene: &Scene<'_>) -> Option<Advice> {
    plates::next_plate(scene).or_else(|| points::start(scene)).or_else(|| points::next_point(scene))
}

/// What follows the points or the check.
fn after_the_readings(scene: &Scene<'_>, phases: LessonPhases) -> Option<Advice> {
    let of = |phase, step: fn(&Scene<'_>) -> Option<Advice>| {
        if phases.has(phase) { step(scene) } else { None }
    };
    of(LessonPhase::Points, finish::points_closed)
        .or_else(|| of(LessonPhase::Calculations, finish::sums))
        .or_else(|| of(LessonPhase::FlowCheck, check::of_own_line))
        .or_else(|| of(LessonPhase::Restoring, finish::restore))
        .or_else(|| run::next_step(scene).filter(|step| of_run(step, phases)))
        .or_else(|| of(LessonPhase::Recovery, finish::closed))
}

/// Whether a step of the run belongs to the lesson. What makes the sampler safe for hands belongs to
/// whatever they are wanted for.
fn of_run(step: &Advice, phases: LessonPhases) -> bool {
    let run = [LessonPhase::SettingUp, LessonPhase::Recovery, LessonPhase::Volume];
    let phase = step.reason().map(phase_of);
    match phase.filter(|phase| run.contains(phase)) {
        Some(phase) => phases.has(phase),
        None => run.into_iter().any(|phase| phases.has(phase)),
    }
}
