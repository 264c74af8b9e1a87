//! The marks of the timeline at one moment of a session, in words.

use content::review::SessionReview;
use sim_core::marking::Marks;
use sim_core::marking::time_line::{Note, NoteKind};
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use words::field_name;

/// What is marked at the moment under review, in words.
pub fn marked(review: &SessionReview, session: &EndedSession, marks: &Marks) -> Vec<String> {
    let here = review.line().notes.iter().filter(|note| note.tick == review.at());
    here.filter_map(|note| said(*note, session, marks)).collect()
}

/// A mark of the timeline in words. What the trainee wrote is in quotation marks.
fn said(note: Note, session: &EndedSession, marks: &Marks) -> Option<String> {
    match note.what {
        NoteKind::Reading(number) => {
            let reading = marks.readings.get(number)?;
            let name = field_name(reading.field);
            Some(format!("Reading: {name}, written {}.", reading.written))
        }
        NoteKind::Finding(number) => {
            let finding = marks.findings.get(number)?;
            Some(format!("Finding: {}: {}.", finding.title, finding.evidence))
        }
        NoteKind::Remark(place) => {
            let remark = session.events.iter().find_map(|moment| match &moment.action {
                Action::Report(remark) if moment.tick == note.tick && remark.place == place => {
                    Some(remark)
                }
                _ => None,
            })?;
            Some(format!("Reported at the {}: “{}”", place.words(), remark.words()))
        }
        NoteKind::Decision => {
            let field = sim_core::field_book::Field::Decision;
            Some(format!("Decision: “{}”", session.book.text(field)?))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sessions::{MarkedSession, mark_ended};
    use sim_core::operator::{by_name, rehearse};
    use sim_core::session::Session;
    use sim_core::session::journal::NullSink;

    const LEAK: &str = include_str!("../../../scenarios/03_a_new_blower.ron");

    fn ended() -> MarkedSession {
        let mut session = Session::begin(LEAK, 1, Box::new(NullSink)).expect("a session");
        rehearse(&mut session, by_name("careful+one-leg", 1).expect("an operator").as_mut())
            .expect("a rehearsal");
        mark_ended(session).expect("its end")
    }

    #[test]
    fn every_mark_says_something_at_its_moment() {
        let ended = ended();
        let mut review = SessionReview::of(&ended.session, &ended.marks);
        let ticks: Vec<_> = review.line().notes.iter().map(|note| note.tick).collect();
        assert!(!ticks.is_empty());
        for tick in ticks {
            review.go(tick);
            assert!(!marked(&review, &ended.session, &ended.marks).is_empty());
        }
    }

    #[test]
    fn a_finding_says_what_shows_it_at_its_moment() {
        let ended = ended();
        let mut review = SessionReview::of(&ended.session, &ended.marks);
        let finding = ended.marks.findings.iter().find(|one| one.point.is_some()).expect("one");
        review.go(finding.tick);
        let marked = marked(&review, &ended.session, &ended.marks);
        assert!(marked.iter().any(|words| words.contains(&finding.evidence)), "{marked:?}");
    }
}
