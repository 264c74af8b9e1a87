//! Sessions: recorded journals, resume, replay, physical sense.

mod cost;
mod flow_sense;
mod gauge_sense;
mod operators;
