//! The history of a sampler as it stands in its record: flow checks, calibrations, repairs and notes.

use crate::control_chart::{ChartPoint, ControlChart};
use crate::time::Date;

/// What was done to the sampler and found out about it, in the order of the dates.
#[derive(Debug, Clone, PartialEq)]
pub struct SamplerHistory {
    entries: Vec<PastVisit>,
}

/// A visit of the past.
#[derive(Debug, Clone, PartialEq)]
pub struct PastVisit {
    /// When it was.
    pub date: Date,
    /// What was done.
    pub work: PastWork,
}

/// What was done on a visit of the past.
#[derive(Debug, Clone, PartialEq)]
pub enum PastWork {
    /// A flow check.
    FlowCheck {
        /// Its percent difference: how much more flow the calibration line gave than the standard.
        difference_pct: f64,
    },
    /// A calibration.
    Calibration {
        /// Slope of its line.
        slope: f64,
        /// Intercept of its line.
        intercept: f64,
    },
    /// A repair.
    Repair {
        /// What was repaired.
        text: String,
    },
    /// Something worth knowing.
    Note {
        /// What it is.
        text: String,
    },
}

impl SamplerHistory {
    /// A history of these visits, in whatever order they are given.
    pub fn new(mut entries: Vec<PastVisit>) -> Self {
        entries.sort_by_key(|entry| entry.date);
        Self { entries }
    }

    /// Every visit in the order of the dates.
    pub fn visits(&self) -> &[PastVisit] {
        &self.entries
    }

    /// The day of the last calibration.
    pub fn last_calibration(&self) -> Option<Date> {
        let is_one = |visit: &&PastVisit| matches!(visit.work, PastWork::Calibration { .. });
        self.entries.iter().rev().find(is_one).map(|visit| visit.date)
    }

    /// Every repair: its day, and what was repaired.
    pub fn repairs(&self) -> impl DoubleEndedIterator<Item = (Date, &str)> {
        self.entries.iter().filter_map(|visit| match &visit.work {
            PastWork::Repair { text } => Some((visit.date, text.as_str())),
            _ => None,
        })
    }

    /// The control chart of the flow checks, with today's if there is one. `None` where there are too
    /// few for it.
    pub fn chart(&self, today: Option<ChartPoint>) -> Option<ControlChart> {
        let past = self.entries.iter().filter_map(|visit| match visit.work {
            PastWork::FlowCheck { difference_pct } => {
                Some(ChartPoint { date: visit.date, difference_pct })
            }
            _ => None,
        });
        ControlChart::of(past.chain(today).collect(), self.last_calibration())
    }

    /// The day since which flows are in doubt, if a chart of this history shows a jump: that of a
    /// repair between the last check before the jump and the first after it, or else that of the last
    /// check before it.
    pub fn jumped_on(&self, chart: &ControlChart) -> Option<Date> {
        let [before, after] = chart.jumped_between()?;
        let mut repairs = self.repairs().map(|(date, _)| date);
        Some(repairs.find(|date| (before..=after).contains(date)).unwrap_or(before))
    }
}
