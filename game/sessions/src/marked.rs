//! A session that has ended, with its marks and what each slip cost.

use sim_core::marking::cost::{self, Costs};
use sim_core::marking::{self, Marks};
use sim_core::session::Session;
use sim_core::session::ended_session::EndedSession;

use crate::error::FrontEndError;

/// A session that has ended, with its marks.
#[derive(Debug)]
pub struct MarkedSession {
    /// The session with its truth.
    pub session: EndedSession,
    /// Head of its journal.
    pub head: String,
    /// Its marks.
    pub marks: Marks,
    /// What each slip cost.
    pub costs: Costs,
}

/// Opens the truth of a session that has ended, and marks it.
///
/// # Errors
///
/// When the session has not ended, or ended without a mark.
pub fn mark_ended(session: Session) -> Result<MarkedSession, FrontEndError> {
    let ended = session
        .open()
        .map_err(|_| FrontEndError::Wrong("the session has not ended: sign it first".to_owned()))?;
    if ended.ended == sim_core::session::ending::Ending::Broken {
        return Err(FrontEndError::Wrong(
            "a value of the simulation became infinite or undefined: the journal is sealed and the session has no mark; please report this fault and send the journal"
                .to_owned(),
        ));
    }
    let marks = marking::mark(&ended.evidence());
    let costs = cost::costs(&ended, &marks);
    let head = ended.head.clone();
    Ok(MarkedSession { session: ended, head, marks, costs })
}
