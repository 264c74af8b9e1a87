//! Sessions: recorded journals, resume, replay, physical sense.

mod cost;
mod edits;
mod flow_sense;
mod gauge_sense;
mod golden;
mod journal;
mod operators;
mod recorded;
