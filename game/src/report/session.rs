//! All that a report of one session shows, worked out once.

use sim_core::marking::compared::{self, Compared};
use sim_core::scenario::KnownRules;
use sim_core::session::history::History;
use sim_core::time::TimeOfDay;

use super::document::Document;
use super::figures::Figures;
use super::sections;
use super::time_line::TimeLine;
use crate::commands::session_files::Ended;

/// A session and everything that its report takes from it.
#[derive(Debug)]
pub struct SessionReport<'a> {
    /// The session, its marks and its costs.
    pub ended: &'a Ended,
    /// Who did the work, where that is known.
    pub operator: Option<&'a str>,
    /// What was decided and what was true.
    pub compared: Compared,
    /// The numbers as they are written.
    pub figures: Figures,
    /// What was done when.
    pub time_line: TimeLine,
    /// The session, to go through again.
    pub track: History,
    /// The scenario's title.
    pub scenario: String,
}

impl<'a> SessionReport<'a> {
    /// Works out the report of a session.
    pub fn of(ended: &'a Ended, operator: Option<&'a str>) -> Self {
        let Ended { signed, marks, costs, .. } = ended;
        let compared = compared::compare(signed);
        // A session could not have begun with a scenario that cannot be read.
        let scenario = sim_core::scenario::check(&signed.source.text, KnownRules::Any)
            .map(|scenario| scenario.title)
            .unwrap_or_default();
        Self {
            ended,
            operator,
            figures: Figures::of(marks, &compared, costs),
            compared,
            time_line: TimeLine::of(signed, marks),
            track: History::of(signed),
            scenario,
        }
    }

    /// Time of day at the first tick.
    pub const fn start(&self) -> TimeOfDay {
        self.ended.signed.setup.station.start
    }

    /// The report, to be set as HTML or PDF.
    pub fn document(&self) -> Document {
        let station = &self.ended.signed.setup.station;
        Document {
            title: format!("{}: {}", self.scenario, station.name),
            foot: format!(
                "Steady Draw {}. {}, {}, seed {}.",
                sim_core::VERSION,
                station.name,
                station.date,
                self.ended.signed.source.seed
            ),
            blocks: sections::all(self),
        }
    }
}
