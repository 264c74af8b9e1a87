//! What is asked once more before something that cannot be undone.

use sessions::LiveSession;
use sim_core::field_book::Field;
use sim_core::session::action::Action;

use super::undone;

/// What is asked before an action, where something is plainly missing.
pub(super) fn before(session: &dyn LiveSession, action: &Action) -> Option<String> {
    match action {
        Action::Sign => before_signing(session),
        Action::LeaveSite => before_leaving(session),
        _ => None,
    }
}

/// What is asked before a book with blanks is signed, or a sampler is left in pieces.
fn before_signing(session: &dyn LiveSession) -> Option<String> {
    let undone = undone::undone(session)?;
    Some(format!("{undone} Say `sign` again, or `sign anyway`, to sign as it is."))
}

/// What is asked before a site is left that is plainly not ready.
fn before_leaving(session: &dyn LiveSession) -> Option<String> {
    if session.papers().work_order.run.is_none() || session.is_away() {
        return None;
    }
    let blank = [
        (Field::FilterNumber, "the filter's number"),
        (Field::StartChart, "the chart reading at the start"),
        (Field::MeterBefore, "the elapsed-time meter before the run"),
    ]
    .into_iter()
    .filter(|(field, _)| session.book().text(*field).is_none());
    let added = session.papers().work_order.added_filters().map_or(0, |order| order.sheets);
    let untested = Field::of_added_filters(added)
        .any(|field| session.book().text(field).is_none())
        .then_some("the test with added filters");
    let lacking: Vec<&str> = blank.map(|(_, words)| words).chain(untested).collect();
    let lacks = !lacking.is_empty();
    lacks.then(|| {
        let lacking = lacking.join("; ");
        format!(
            "You cannot make up for the hours until your return, and the field book lacks: \
             {lacking}. Say `leave site` again to leave anyway."
        )
    })
}
