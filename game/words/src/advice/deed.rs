//! What an advice asks for, one thing at a time.

use sim_core::field_book::Field;
use sim_core::session::action::Action;

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Deed {
    /// This action.
    Do(Action),
    /// Let so many seconds pass.
    Wait(f64),
    /// Write a value of the trainee's own, read or worked out, into this field.
    Write(Field),
}
