//! The sections of a session's report, in their order.

mod costs;
mod decided;
mod faults;
mod findings;
mod head;
mod limits;
mod provenance;
mod readings;
mod time;

use super::document::Block;
use super::session::SessionReport;

pub use limits::limits;

/// Every section.
pub fn all(report: &SessionReport<'_>) -> Vec<Block> {
    [
        head::head(report),
        decided::decided(report),
        findings::findings(report),
        costs::costs(report),
        faults::faults(report),
        time::time(report),
        readings::readings(report),
        limits(),
        provenance::provenance(report),
    ]
    .concat()
}
