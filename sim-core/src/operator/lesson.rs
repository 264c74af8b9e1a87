//! Lessons: their beginning is reached by the careful operator, and every operator goes on from there.
//!
//! What the careful operator does before the trainee takes over is done in the session itself, action
//! by action, and stands in its journal like everything else. So a journal can be replayed by a program
//! that knows no operator, and stays what it was when the operator learns something new.

use super::memory::Memory;
use super::plan::{Planned, by_name, of_abilities};
use super::rehearse::{RehearseError, Stopped, work};
use super::{Abilities, Habits, Operator, OperatorNameError};
use crate::scenario::lesson::{LessonPhase, LessonPhases};
use crate::session::journal::JournalSink;
use crate::session::{BeginError, Session};

/// Begins a session from the text of a scenario and a seed; a lesson, at the beginning of its first
/// phase.
///
/// # Errors
///
/// When the scenario has problems, the careful operator does not reach the beginning of the lesson, or
/// the journal cannot be written.
pub fn begin(text: &str, seed: u64, ink: Box<dyn JournalSink>) -> Result<Session, BeginError> {
    let mut session = Session::begin_at_arrival(text, seed, ink)?;
    prepare(&mut session)?;
    Ok(session)
}

/// As [`begin`], without a journal: the same session to the last bit.
///
/// # Errors
///
/// When the scenario has problems, or the careful operator does not reach the beginning of the lesson.
pub fn begin_unrecorded(text: &str, seed: u64) -> Result<Session, BeginError> {
    let mut session = Session::unrecorded_at_arrival(text, seed)?;
    prepare(&mut session)?;
    Ok(session)
}

/// The operator of this name for a session that has just begun. In a lesson it has done what went
/// before as the careful one, and remembers it.
///
/// # Errors
///
/// As [`Habits::by_name`].
pub fn in_session(name: &str, session: &Session) -> Result<Box<dyn Operator>, OperatorNameError> {
    let habits = Habits::by_name(name)?;
    let (_, source) = session.seal();
    let Some(mut careful) = relived(session) else { return by_name(name, source.seed) };
    careful.memory.habits = habits;
    Ok(Box::new(careful))
}

/// The operator with these abilities for a session that has just begun, as [`in_session`].
pub fn person_in_session(abilities: Abilities, session: &Session) -> Box<dyn Operator> {
    let (_, source) = session.seal();
    let Some(mut careful) = relived(session) else { return of_abilities(abilities, source.seed) };
    careful.memory.becomes(abilities, source.seed);
    Box::new(careful)
}

/// Brings a lesson to its beginning; any other session has begun already.
fn prepare(session: &mut Session) -> Result<(), BeginError> {
    let Some(phases) = session.papers().terms.phases else { return Ok(()) };
    let (_, source) = session.seal();
    let mut careful = Planned::new(Memory::new(Habits::default(), source.seed));
    prepare_by(&mut careful, phases, session)
}

/// Lets the careful operator work up to the beginning of a lesson.
fn prepare_by(
    careful: &mut Planned,
    phases: LessonPhases,
    session: &mut Session,
) -> Result<(), BeginError> {
    let not_reached = |why: &str| BeginError::NotReached(why.to_owned());
    let alone = session.papers().work_order.is_check_alone();
    careful.stops_before = careful.begins(first(phases.from, alone), phases.from);
    let stopped = match work(session, careful, &mut |_, _| {}) {
        Ok(stopped) => stopped,
        Err(RehearseError::Sink(error)) => return Err(error.into()),
        Err(error) => return Err(not_reached(&error.to_string())),
    };
    if stopped == Stopped::Ended {
        return Err(not_reached("the careful operator left the roof before it"));
    }
    if let Some(why) = &careful.memory.refusal {
        return Err(not_reached(&format!(
            "the careful operator gave the work up before it ({why})"
        )));
    }
    // The trainee begins with free hands.
    session.finish_hands()?;
    session.begin_lesson()?;
    Ok(())
}

/// The careful operator at the beginning of this session's lesson, on a copy of the session that is
/// worked up to there; none where there is no lesson.
fn relived(session: &Session) -> Option<Planned> {
    let phases = session.papers().terms.phases?;
    let (_, source) = session.seal();
    let mut copy = Session::unrecorded_at_arrival(&source.text, source.seed).ok()?;
    let mut careful = Planned::new(Memory::new(Habits::default(), source.seed));
    prepare_by(&mut careful, phases, &mut copy).ok()?;
    // What was thought before is not of the lesson.
    let _ = careful.memory.thoughts();
    careful.stops_before = None;
    let alone = copy.papers().work_order.is_check_alone();
    careful.signs_after = careful.ends(last(phases.to, alone), phases.to);
    Some(careful)
}

/// The part of the plan with which a phase of lessons begins. Where the check is the whole job, it
/// begins where the points would.
const fn first(phase: LessonPhase, check_alone: bool) -> &'static str {
    match phase {
        LessonPhase::Arrival => "arrival",
        LessonPhase::Mounting => "opening the shelter",
        LessonPhase::Manometer => "manometer",
        LessonPhase::Power => "recorder and blower",
        LessonPhase::FlowCheck if !check_alone => "flow check",
        LessonPhase::Points | LessonPhase::FlowCheck => "points",
        LessonPhase::Calculations => "calculations",
        LessonPhase::Restoring => "restoring the station",
        LessonPhase::SettingUp => "setting up the run",
        LessonPhase::Recovery => "recovering the sample",
        LessonPhase::Volume => "volume",
    }
}

/// The part of the plan with which a phase of lessons ends.
const fn last(phase: LessonPhase, check_alone: bool) -> &'static str {
    match phase {
        LessonPhase::Arrival => "arrival",
        LessonPhase::Mounting => "mounting",
        LessonPhase::Manometer => "manometer",
        LessonPhase::Power => "warm-up",
        LessonPhase::FlowCheck if !check_alone => "flow check",
        LessonPhase::Points | LessonPhase::FlowCheck => "switching off",
        LessonPhase::Calculations => "calculations",
        LessonPhase::Restoring => "short run on the controller",
        LessonPhase::SettingUp => "setting up the run",
        LessonPhase::Recovery => "restoring the station",
        LessonPhase::Volume => "volume",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_phase_of_lessons_is_a_part_of_the_plan_and_they_follow_each_other() {
        let plan = Planned::new(Memory::new(Habits::default(), 1));
        for alone in [true, false] {
            let wanted = |phase: &&LessonPhase| {
                !alone || !matches!(phase, LessonPhase::Points | LessonPhase::Calculations)
            };
            let mut ends = None;
            for phase in LessonPhase::ALL.iter().filter(wanted) {
                let from = plan.begins(first(*phase, alone), *phase).unwrap();
                let to = plan.ends(last(*phase, alone), *phase).unwrap();
                assert!(
                    from <= to && ends < Some(from),
                    "{phase:?}: {from} to {to} after {ends:?}"
                );
                ends = Some(to);
            }
        }
    }
}
