//! The last page: what was found wrong, the decision, remarks, and the signature.

mod decision;
mod form;
mod page;
mod report;
mod signature;

pub use decision::{DecisionRequest, Verdict};
pub(super) use page::{Drafts, RemarksPlugin, spawn};
pub use report::ReportRequest;
pub use signature::{SIGN, SIGN_AGAIN, SignRequest};
