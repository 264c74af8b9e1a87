//! What is said of a lesson before its first sentence.

use sessions::LiveSession;
use sim_core::scenario::setup::LessonPhase;

use crate::prose::sentence;

/// What belongs to the lesson, what was done before it, and how much help there is; nothing where the
/// session is no lesson.
pub(super) fn told(session: &dyn LiveSession) -> Option<String> {
    let papers = session.papers();
    let phases = papers.terms.phases?;
    let began = session.lesson_began()?;
    let time = papers.station.start.after(began.tick);
    let before = match phases.from {
        LessonPhase::Arrival => "It begins on arrival.".to_owned(),
        _ => format!(
            "Everything before it has been done carefully; the field book has it. It is {time}."
        ),
    };
    let what = format!("This is a lesson: {}. {before}", phases.words());
    let help = sentence(phases.help.words());
    Some(format!("{what}\nHelp: {help} When the work of the lesson is done, sign the field book."))
}
