//! The papers at the site.

use crate::scenario::setup::{Certificate, SessionTerms, StationCard, WorkOrder};

/// The papers at the site.
#[derive(Debug, Clone, Copy)]
pub struct SitePapers<'a> {
    /// The station's card.
    pub station: &'a StationCard,
    /// The work order.
    pub work_order: &'a WorkOrder,
    /// The certificates in the box.
    pub certificates: &'a [Certificate],
    /// What help is allowed, and how the session is marked.
    pub terms: &'a SessionTerms,
}
