//! The first signs of the faults of a session.

use std::cell::RefCell;

use crate::fault::Fault;
use crate::session::ended_session::EndedSession;
use crate::session::signs::{FirstSign, Witness, first_sign};

/// The first signs of faults, worked out when they are first asked for.
#[derive(Debug, Clone, Default)]
pub struct KnownSigns<'a> {
    session: Option<&'a EndedSession>,
    found: RefCell<Vec<(Fault, Witness, Option<FirstSign>)>>,
}

impl<'a> KnownSigns<'a> {
    /// The signs of a session. Without a session that can be gone through again, a look at the place
    /// of a fault counts as its sign.
    pub const fn of(session: Option<&'a EndedSession>) -> Self {
        Self { session, found: RefCell::new(Vec::new()) }
    }

    /// The first sign of a fault, if the session can be gone through again.
    pub(crate) fn first(&self, fault: &Fault, witness: Witness) -> Option<Option<FirstSign>> {
        let session = self.session?;
        let known = self
            .found
            .borrow()
            .iter()
            .find(|(of, by, _)| of == fault && *by == witness)
            .map(|known| known.2);
        Some(known.unwrap_or_else(|| {
            let sign = first_sign(session, fault, witness);
            self.found.borrow_mut().push((*fault, witness, sign));
            sign
        }))
    }
}
