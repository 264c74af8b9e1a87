//! Sessions: recorded journals, resume, replay, physical sense.
