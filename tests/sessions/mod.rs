//! Sessions: recorded journals, resume, replay, physical sense.

mod gauge_sense;
mod operators;
