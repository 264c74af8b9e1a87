//! The list: what can be begun, gone on with, and looked at again.

mod library;
mod note;
mod opening;
mod page;
mod requests;
mod seed;

pub use library::Library;
pub use page::{CAUTION, StartPlugin};
pub use requests::StartRequest;
