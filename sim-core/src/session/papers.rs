//! The papers at the site.

use crate::scenario::setup::{Certificate, SessionTerms, StationCard, WorkOrder};

/// The papers that lie in the scene.
#[derive(Debug, Clone, Copy)]
pub struct SitePapers<'a> {
    /// The station's card.
    pub station: &'a StationCard,
    /// The work order.
    pub work_order: &'a WorkOrder,
    /// The certificates in the box.
    pub certificates: &'a [Certificate],
    /// What is allowed and how it is marked.
    pub terms: &'a SessionTerms,
}
