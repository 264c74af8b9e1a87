//! The bench's window without a screen: real layout, real picking, real focus, no pixels.

mod busy;
mod debriefed;
mod decided;
mod drawn;
mod harness;
mod helped;
mod history;
mod kept;
mod keyboard;
mod layout;
mod legible;
mod named;
mod pointer;
mod practised;
mod reader;
mod resettled;
mod run;
mod scrubbed;
mod set;
mod signed;
mod small;
mod struck;
mod timed;
mod tree;
mod typing;
mod worked;
