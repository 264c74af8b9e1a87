//! The history of the sampler as a scenario gives it: visits as they are written, and flow checks that
//! are drawn from what has happened to the sampler.

use serde::{Deserialize, Serialize};

use super::drawn::Drawn;
use super::parameters::{Parameter, section};
use super::sampler_history::{PastVisit, PastWork, SamplerHistory};
use super::setup::LastLine;
use super::spread::Spread;
use crate::time::Date;

/// Days of a month, by which a drift is counted: 365.25 / 12.
const DAYS_OF_MONTH: f64 = 30.4375;
/// Most flow checks that are drawn: three years of a check every 18 days.
pub const MOST_CHECKS: usize = 60;

/// The history as written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "History", deny_unknown_fields)]
pub struct HistoryEntry {
    /// The visits that are written out.
    pub visits: Vec<VisitEntry>,
    /// The flow checks that are drawn, if they are not written out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub checks: Option<CheckSeries>,
    /// When a drift begins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drift_from: Option<Date>,
    /// When a jump happens.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jump_on: Option<Date>,
    /// How large scatter, drift and jump are.
    #[serde(default)]
    pub sizes: HistorySpreads,
}

/// A visit as written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum VisitEntry {
    /// A flow check.
    FlowCheck {
        /// When it was made.
        date: Date,
        /// Its percent difference.
        difference_pct: f64,
    },
    /// A calibration. What is left out of its line is that of the last calibration, about which lines
    /// scatter a little.
    Calibration {
        /// When it was made.
        date: Date,
        /// Slope of its line.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        slope: Option<f64>,
        /// Intercept of its line.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        intercept: Option<f64>,
    },
    /// A repair.
    Repair {
        /// When it was made.
        date: Date,
        /// What was repaired.
        text: String,
    },
    /// Something worth knowing.
    Note {
        /// When it was written.
        date: Date,
        /// What it is.
        text: String,
    },
}

impl VisitEntry {
    /// When it was.
    pub const fn date(&self) -> Date {
        match self {
            Self::FlowCheck { date, .. }
            | Self::Calibration { date, .. }
            | Self::Repair { date, .. }
            | Self::Note { date, .. } => *date,
        }
    }
}

/// Flow checks at equal intervals, up to the day before the session.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CheckSeries {
    /// The first of them.
    pub first: Date,
    /// Days from one to the next.
    pub every_days: u16,
}

impl CheckSeries {
    /// The dates of the checks before a day.
    pub fn dates(self, today: Date) -> Vec<Date> {
        let step = i64::from(self.every_days.max(1));
        let dates = (0..=MOST_CHECKS as i64).map(|index| self.first.later(index * step));
        dates.take_while(|date| *date < today).take(MOST_CHECKS).collect()
    }
}

// The usual difference and its scatter are what sound rigs of this bench show (CHOSEN): their lines are
// made with the blower on the mains and without a filter, and they are checked with both.
section! {
    /// What the flow checks of a sampler show over time.
    HistorySpreads in "history" {
        usual_pct ["%"] -10.0 to 10.0 usual Spread::Normal(-1.8, 0.15),
            "mean percent difference of the flow checks while the sampler is in order";
        scatter_pct ["%"] 0.2 to 3.0 usual Spread::Uniform(0.5, 0.6),
            "standard deviation of one flow check";
        drift_pct_month ["%/month"] -2.0 to 2.0 usual Spread::Fixed(0.0),
            "by how much the percent difference grows in a month, from `drift_from` on";
        jump_pct ["%"] -10.0 to 10.0 usual Spread::Fixed(0.0),
            "by how much the percent difference is larger from `jump_on` on";
    }
}

/// The names of what there is only if a scenario gives it.
const DRIFT: &str = "history.drift_pct_month";
const JUMP: &str = "history.jump_pct";

/// By how much one drawn flow check is off, percent: three standard deviations of the largest scatter.
pub(super) const CHECK_OFF: Parameter = Parameter {
    name: "history_check_off_pct",
    unit: "%",
    low: -9.0,
    high: 9.0,
    usual: Spread::Fixed(0.0),
    what: "by how much one flow check of the history is off the sampler's own course",
};

/// By how much the slope of a past line differs from that of the last one, percent (CHOSEN).
pub(super) const LINE_OFF: Parameter = Parameter {
    name: "history_line_off_pct",
    unit: "%",
    low: -3.0,
    high: 3.0,
    usual: Spread::Normal(0.0, 0.4),
    what: "by how much the slope of a past calibration line differs from that of the last one",
};

/// The name of what is drawn for one check.
pub(super) fn check_key(index: usize) -> String {
    format!("history.check_{}.off_pct", index + 1)
}

/// The name of what is drawn for one past line.
pub(super) fn line_key(index: usize) -> String {
    format!("history.visit_{}.slope_off_pct", index + 1)
}

impl HistoryEntry {
    /// Every parameter with what the scenario gives for it; of a drift and a jump only those that there
    /// are.
    pub fn written(&self) -> impl Iterator<Item = (&'static Parameter, Option<Spread>)> {
        let changes = [DRIFT, JUMP];
        HistorySpreads::PARAMETERS.iter().zip(self.sizes.written()).filter(
            move |(parameter, written)| written.is_some() || !changes.contains(&parameter.name),
        )
    }

    /// The names of what is drawn beside the parameters, each with its range.
    pub(super) fn scatter_keys(&self, today: Date) -> Vec<(String, Parameter)> {
        let checks = self.checks.map_or(0, |checks| checks.dates(today).len());
        let of_check = (0..checks).map(|index| (check_key(index), CHECK_OFF));
        let lines = self.visits.iter().enumerate();
        let of_line = lines
            .filter(|(_, visit)| matches!(visit, VisitEntry::Calibration { slope: None, .. }))
            .map(|(index, _)| (line_key(index), LINE_OFF));
        of_check.chain(of_line).collect()
    }

    /// Draws the sizes, and how far each check and each past line is off.
    pub(super) fn draw(&self, today: Date, seed: u64, drawn: &mut Drawn) {
        for (parameter, written) in self.written() {
            drawn.push(parameter.name.to_owned(), parameter.draw(written, seed));
        }
        let scatter_pct = drawn.get("history.scatter_pct").unwrap_or_default();
        for (key, parameter) in self.scatter_keys(today) {
            let spread = match parameter.name == CHECK_OFF.name {
                true => Spread::Normal(0.0, scatter_pct),
                false => parameter.usual,
            };
            let value = spread.draw(seed, &key).clamp(parameter.low, parameter.high);
            drawn.push(key, value);
        }
    }

    /// By how much the percent difference on a day differs from the usual one, percent: so much more
    /// flow than on its own day the line of the last calibration gives, because drifts and jumps begin
    /// after it.
    pub(super) fn change_pct(&self, on: Date, drawn: &Drawn) -> f64 {
        let size = |name: &str| drawn.get(name).unwrap_or_default();
        let days = self.drift_from.map_or(0, |from| on.days_since(from).max(0));
        let drift_pct = size(DRIFT) * days as f64 / DAYS_OF_MONTH;
        let jumped = self.jump_on.is_some_and(|day| on >= day);
        drift_pct + if jumped { size(JUMP) } else { 0.0 }
    }

    /// The history of one bench, whose last line is known.
    pub(super) fn resolve(
        &self,
        today: Date,
        last: Option<&LastLine>,
        drawn: &Drawn,
    ) -> SamplerHistory {
        let drawn_of = |key: String| drawn.get(&key).unwrap_or_default();
        let usual_pct = drawn_of("history.usual_pct".to_owned());
        let dates = self.checks.map(|checks| checks.dates(today)).unwrap_or_default();
        let checks = dates.into_iter().enumerate().map(|(index, date)| {
            let off_pct = drawn_of(check_key(index));
            let difference_pct = tenths(usual_pct + self.change_pct(date, drawn) + off_pct);
            PastVisit { date, work: PastWork::FlowCheck { difference_pct } }
        });
        let visits = self.visits.iter().enumerate().map(|(index, visit)| {
            let off_pct = drawn_of(line_key(index));
            PastVisit { date: visit.date(), work: visit.work(last, off_pct) }
        });
        SamplerHistory::new(visits.chain(checks).collect())
    }
}

impl VisitEntry {
    /// What was done, with a line that differs so much from the last one where none is written.
    fn work(&self, last: Option<&LastLine>, off_pct: f64) -> PastWork {
        match self {
            Self::FlowCheck { difference_pct, .. } => {
                PastWork::FlowCheck { difference_pct: tenths(*difference_pct) }
            }
            Self::Calibration { date, slope, intercept } => {
                let is_last = last.is_some_and(|last| last.date == *date);
                let off = if is_last { 1.0 } else { 1.0 + off_pct / 100.0 };
                let of_last = last.map_or((0.0, 0.0), |last| (last.slope, last.intercept));
                let like_last = if is_last { of_last.0 } else { tenths(of_last.0 * off) };
                PastWork::Calibration {
                    slope: slope.unwrap_or(like_last),
                    intercept: intercept.unwrap_or(of_last.1),
                }
            }
            Self::Repair { text, .. } => PastWork::Repair { text: text.clone() },
            Self::Note { text, .. } => PastWork::Note { text: text.clone() },
        }
    }
}

/// A number as such records give it.
fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
