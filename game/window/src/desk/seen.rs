//! What the rest of the window sees of the desk: the view, the field book, and what was last said.

use bevy::prelude::*;
use sim_core::field_book::FieldBook;
use sim_core::session::view::View;

/// What can be seen.
#[derive(Resource, Debug, Clone, PartialEq)]
pub struct Seen(pub View);

/// What stands in the field book.
#[derive(Resource, Debug, Clone, PartialEq, Default)]
pub struct Book(pub FieldBook);

/// How it begins to say why something cannot be done.
pub const REFUSED: &str = "Not as things stand";
/// How it begins to say what is heard.
pub const HEARD: &str = "Heard: ";

/// What the bench last said: why something cannot be done, or that it was done.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub struct Said(pub String);
