//! Who says things and who lays out reports for the window: the resources behind which sentences and
//! reports lie.

use std::ops::Deref;
use std::sync::Arc;

use bevy::prelude::*;
use content::{ReportService, SpeechService};

/// Says what the window has to say of the bench.
#[derive(Resource, Debug, Clone)]
pub struct Speech(pub Arc<dyn SpeechService>);

impl Deref for Speech {
    type Target = dyn SpeechService;

    fn deref(&self) -> &Self::Target {
        self.0.as_ref()
    }
}

/// Lays out what the window shows of a session that has ended, and plots.
#[derive(Resource, Debug, Clone)]
pub struct Reporting(pub Arc<dyn ReportService>);

impl Deref for Reporting {
    type Target = dyn ReportService;

    fn deref(&self) -> &Self::Target {
        self.0.as_ref()
    }
}
