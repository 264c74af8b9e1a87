//! The page as a whole.

use bevy::prelude::*;
use sim_core::field_book::Field;

use super::super::decision::{self, Question};
use super::super::{entry, overview};
use super::{report, signature};
use crate::desk::{Book, Papers};

pub struct RemarksPlugin;

impl Plugin for RemarksPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((report::ReportPlugin, signature::SignaturePlugin));
    }
}

/// The page, with what was typed on it and is not sent yet.
pub fn spawn(
    leaf: &mut ChildSpawnerCommands,
    (papers, book): (&Papers, &Book),
    report: &report::Draft,
    decisions: &decision::Drafts,
) {
    report::spawn(leaf, report);
    decision::spawn(leaf, Question::Calibration, (papers, decisions));
    entry::spawn(leaf, book, Field::Remarks);
    overview::spawn(leaf, papers);
    signature::spawn(leaf);
}
