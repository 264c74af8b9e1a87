//! The session under the window: actions wait in a queue, one system at twenty times a second does
//! them and lets a tick pass (`advance`). Everything else only looks at what can be seen.

mod advance;
pub mod pace;
mod papers;
mod requests;
mod seen;
mod show;
mod state;

pub use advance::{DeskPlugin, RESTING};
pub use papers::Papers;
pub use requests::{ActRequest, LeaveRequest};
pub use seen::{Book, Reports, Said, Seen};
pub use show::{GoTo, Show};
pub use state::{Desk, Lapse, lay_on_desk};
