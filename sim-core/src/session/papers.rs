//! The papers at the site.

use crate::control_chart::{ChartPoint, ControlChart};
use crate::field_book::{Field, FieldBook};
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

impl SitePapers<'_> {
    /// The control chart of the sampler's history, with what the trainee has entered on it for today.
    pub fn control_chart(&self, book: &FieldBook) -> Option<ControlChart> {
        let date = self.station.date;
        let entered = book.number(Field::HistoryPoint);
        let today = entered.map(|difference_pct| ChartPoint { date, difference_pct });
        self.work_order.history.as_ref()?.chart(today)
    }
}
