//! The next step of a lesson: of the work, only what belongs to its phases.

use sim_core::procedure::lesson::phase_of;
use sim_core::scenario::setup::{LessonPhase, LessonPhases};
use sim_core::session::view::run::RunStanding;

use super::interrupt::{away, thunder};
use super::next::Advice;
use super::scene::Scene;
use super::{arrive, back, check, finish, mount, plates, points, run};

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
        .or_else(|| of_run(scene, phases))
        .or_else(|| of(LessonPhase::Recovery, finish::closed))
}

/// The next step of the run: setting it up before it, recovering the sample and the volume after it.
fn of_run(scene: &Scene<'_>, phases: LessonPhases) -> Option<Advice> {
    let run = scene.view.run.as_deref()?;
    match run.standing {
        RunStanding::Before if phases.has(LessonPhase::SettingUp) => run::next_step(scene),
        RunStanding::Before | RunStanding::Away => None,
        RunStanding::Back => {
            let of_volume =
                |step: &Advice| step.reason().map(phase_of) == Some(LessonPhase::Volume);
            let recovery = if phases.has(LessonPhase::Recovery) {
                run::next_step(scene).filter(|step| !of_volume(step))
            } else {
                None
            };
            recovery.or_else(|| match phases.has(LessonPhase::Volume) {
                true => back::volume(scene, run),
                false => None,
            })
        }
    }
}
