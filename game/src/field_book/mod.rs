//! The field book beside the scene: the trainee's own pages, in the order of the work. It works
//! nothing out.

// The engine's systems say what they need in their parameters; splitting them would only hide it.
#![cfg_attr(feature = "window", allow(clippy::too_many_arguments, clippy::type_complexity))]

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
pub use remarks::{Choice, RemarkRequest, Verdict};
