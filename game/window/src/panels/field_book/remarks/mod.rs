//! The last page: what was found wrong, the decision, remarks, and the signature.

mod page;
mod report;
mod signature;

pub(super) use page::{RemarksPlugin, spawn};
pub(super) use report::Draft as ReportDraft;
pub use report::{ReportRequest, Suspected};
pub use signature::{SIGN, SIGN_AGAIN, SignRequest};
