//! The field book beside the scene: the trainee's own pages, in the order of the work. It works
//! nothing out.

mod book;
mod entry;
mod labels;
mod pad;
mod page;
mod papers;
mod plain;
mod plot;
mod points;
mod remarks;
mod volume;

pub use book::{FieldBookPlugin, PageTurn, spawn};
pub use page::Page;
pub use plot::PlotRequest;
pub use remarks::{DecisionRequest, ReportRequest, SIGN, SIGN_AGAIN, SignRequest, Verdict};
