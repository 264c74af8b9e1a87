//! The page as a whole.

use bevy::ecs::system::SystemParam;
use bevy::prelude::*;
use sim_core::field_book::Field;

use super::super::entry;
use super::{decision, report, signature};
use crate::desk::Book;

pub struct RemarksPlugin;

impl Plugin for RemarksPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((
            report::ReportPlugin,
            decision::DecisionPlugin,
            signature::SignaturePlugin,
        ));
    }
}

/// What is typed on the page and not sent yet.
#[derive(SystemParam)]
pub struct Drafts<'w> {
    report: Res<'w, report::Draft>,
    decision: Res<'w, decision::Draft>,
}

/// The page.
pub fn spawn(leaf: &mut ChildSpawnerCommands, book: &Book, drafts: &Drafts) {
    report::spawn(leaf, &drafts.report);
    decision::spawn(leaf, &drafts.decision);
    entry::spawn(leaf, book, Field::Remarks);
    signature::spawn(leaf);
}
