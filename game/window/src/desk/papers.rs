//! Papers that lie in the scene.

use sessions::LiveSession;
use sim_core::scenario::setup::{Certificate, SessionTerms, StationCard, WorkOrder};

/// Papers that lie in the scene.
#[derive(Debug, Clone)]
pub struct Papers {
    /// The station's card.
    pub station: StationCard,
    /// The work order.
    pub work_order: WorkOrder,
    /// The certificates.
    pub certificates: Vec<Certificate>,
    /// What is allowed.
    pub terms: SessionTerms,
}

impl Papers {
    /// Those of a session.
    pub fn of(session: &dyn LiveSession) -> Self {
        let papers = session.papers();
        Self {
            station: papers.station.clone(),
            work_order: papers.work_order.clone(),
            certificates: papers.certificates.to_vec(),
            terms: papers.terms.clone(),
        }
    }

    /// Whether the session is a sitting: it has a limit of time.
    pub const fn is_sitting(&self) -> bool {
        self.terms.time_limit_min.is_some()
    }

    /// As the sentences take them.
    pub fn as_words(&self) -> sim_core::session::SitePapers<'_> {
        sim_core::session::SitePapers {
            station: &self.station,
            work_order: &self.work_order,
            certificates: &self.certificates,
            terms: &self.terms,
        }
    }
}
