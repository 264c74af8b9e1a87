//! A session: actions in, views out, ticks, and the journal from which all of it can be had again.

pub mod action;
pub mod facts;
pub mod view;
