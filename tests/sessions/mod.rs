//! Sessions: recorded journals, resume, replay, physical sense.

mod flow_sense;
