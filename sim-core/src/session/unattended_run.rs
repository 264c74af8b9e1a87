//! Where an unattended run stands.

use crate::scenario::setup::Setup;
use crate::time::Tick;

/// Where the run stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct UnattendedRun {
    /// When it was to begin.
    pub on: Tick,
    /// When the trainee comes back.
    pub back: Tick,
    /// When the site was left; the beginning until then.
    pub left: Tick,
    /// How it stands.
    pub stage: RunStage,
    /// Fresh sheets that were taken from the folder.
    pub taken: u8,
}

/// The stages of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum RunStage {
    /// The trainee is at the site, and the run lies ahead.
    Before,
    /// Nobody is there. Steps are fine up to this tick.
    Away(Tick),
    /// The trainee is back.
    Back,
}

/// How an unattended run is stepped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pace {
    /// A minute at a time wherever nothing quick happens.
    #[default]
    Coarse,
    /// As while somebody is there: for comparison only.
    Fine,
}

impl UnattendedRun {
    /// The run that a work order asks for, if it does.
    pub fn ordered(setup: &Setup) -> Option<Self> {
        let order = setup.work_order.run.as_ref()?;
        let start = setup.station.start;
        Some(Self {
            on: order.on.tick(start)?,
            back: order.back.tick(start)?,
            left: Tick(0),
            stage: RunStage::Before,
            taken: 0,
        })
    }

    /// Whether nobody is there.
    pub const fn is_away(&self) -> bool {
        matches!(self.stage, RunStage::Away(_))
    }
}
