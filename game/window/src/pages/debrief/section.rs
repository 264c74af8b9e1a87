//! The page that is scrolled, and its headings, which can be gone to.

use bevy::prelude::*;

use crate::ui::access::heading;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// The screen's root.
#[derive(Component)]
pub struct DebriefRoot;

/// The heading of a section, by its words.
#[derive(Component, Debug, Clone, PartialEq, Eq)]
pub struct Section(pub String);

/// Puts the heading of a section onto the page.
pub fn spawn(root: &mut ChildSpawnerCommands, words: &str) {
    root.spawn((
        Section(words.to_owned()),
        theme::bold(words, theme::HEAD, Tone::Ink),
        heading(words, 2),
    ));
}
