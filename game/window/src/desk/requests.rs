//! What controls ask of the desk.

use bevy::prelude::*;
use sim_core::session::action::Action;

/// Asks for something to be done on the bench.
#[derive(Message, Debug, Clone, PartialEq)]
pub struct ActRequest(pub Action);

/// Asks for the bench to be left for the list: the session is kept.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeaveRequest;
