//! The sections of a session's report.

pub(super) mod costs;
pub(super) mod decided;
pub(super) mod faults;
pub(super) mod findings;
pub(super) mod head;
pub(super) mod history;
pub(super) mod limits;
pub(super) mod one_picture;
pub(super) mod provenance;
pub(super) mod readings;
pub(super) mod time;
