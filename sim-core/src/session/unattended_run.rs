//! How far an unattended run has come.

use crate::digest::{Digest, Digestible, digest_fields};
use crate::scenario::setup::Setup;
use crate::time::Tick;

/// A run, and how far it has got.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct UnattendedRun {
    /// When it is ordered to begin.
    pub on: Tick,
    /// When the trainee returns.
    pub back: Tick,
    /// When the site was left; until then, the beginning of the session.
    pub left: Tick,
    /// Its stage.
    pub stage: RunStage,
    /// Number of fresh sheets taken from the folder.
    pub taken: u8,
}

digest_fields!(UnattendedRun { on, back, left, stage, taken });

/// The stages of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum RunStage {
    /// The trainee is at the site, and the run is still to come.
    Before,
    /// Nobody is at the site. Steps are fine up to this tick.
    Away(Tick),
    /// The trainee is back.
    Back,
}

impl Digestible for RunStage {
    fn digest(&self, digest: &mut Digest) {
        match *self {
            Self::Before => digest.whole(0),
            Self::Away(fine_until) => {
                digest.whole(1);
                digest.whole(fine_until.0);
            }
            Self::Back => digest.whole(2),
        }
    }
}

/// How an unattended run is stepped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pace {
    /// A minute at a time wherever nothing quick happens.
    #[default]
    Coarse,
    /// In fine steps, as while somebody is there; for comparison only.
    Fine,
}

impl UnattendedRun {
    /// The run that a work order asks for, if it asks for one.
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
