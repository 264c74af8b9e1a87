//! The list: what can be begun, gone on with, and looked at again.

mod cards;
mod got;
mod library;
mod note;
mod opening;
mod page;
mod requests;
mod seed;
mod site_picture;

pub use library::Library;
pub use page::{CAUTION, StartPlugin};
pub use requests::StartRequest;
