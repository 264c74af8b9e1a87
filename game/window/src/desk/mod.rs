//! The session under the window: actions wait in a queue, one system at twenty times a second does
//! them and lets a tick pass (`pass`). Everything else only looks at what can be seen.

pub mod pace;
mod papers;
mod pass;
mod requests;
mod seen;
mod show;
mod table;

pub use papers::Papers;
pub use pass::{DeskPlugin, RESTING};
pub use requests::{ActRequest, LeaveRequest};
pub use seen::{Book, HEARD, REFUSED, Said, Seen};
pub use show::{GoTo, Show};
pub use table::{Desk, Lapse, lay_on_desk};
