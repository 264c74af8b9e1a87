//! The field book beside the scene: the trainee's own pages, in the order of the work. It works
//! nothing out.

mod book;
mod decision;
mod entry;
mod form;
mod history;
mod labels;
mod next_blank;
mod overview;
mod pad;
mod pad_slide;
mod page;
mod papers;
mod plain;
mod plot;
mod points;
mod remarks;
mod sums;
mod volume;
mod width;

pub use book::{FieldBookPlugin, spawn};
pub use decision::{Consequence, DecisionRequest, Question, Verdict};
pub use entry::EntryField;
pub(super) use entry::{said_about, spoken_label};
pub use pad_slide::STRIP;
pub use page::{Page, PageTurn};
pub use plot::PlotRequest;
pub use remarks::{ReportRequest, SIGN, SIGN_AGAIN, SignRequest, Suspected};
pub use width::share;
