//! Sessions: recorded journals, resume, replay, physical sense.

mod adversary;
mod chaos;
mod cost;
mod edits;
mod explained;
mod finite;
mod flow_sense;
mod gauge_sense;
mod golden;
mod habits;
mod hands;
mod journal;
mod knob;
mod long;
mod onsets;
mod operators;
mod plates;
mod proof;
mod reasons;
mod recorded;
mod rules;
mod run;
mod scrub;
mod stepping;
mod tampering;
