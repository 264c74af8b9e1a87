//! Everything that the report of a session shows, worked out once.

use sim_core::marking::compared::{self, Compared};
use sim_core::scenario::KnownRules;
use sim_core::session::history::History;
use sim_core::time::TimeOfDay;

use super::bench_time_line::BenchTimeLine;
use super::figures::Figures;
use sessions::MarkedSession;

/// A session and everything that its report takes from it.
#[derive(Debug)]
pub struct SessionReport<'a> {
    /// The session, its marks and its costs.
    pub ended: &'a MarkedSession,
    /// Who did the work, where that is known.
    pub operator: Option<&'a str>,
    /// The trainee's results beside the true values.
    pub compared: Compared,
    /// The numbers as they are written.
    pub figures: Figures,
    /// What was done when.
    pub time_line: BenchTimeLine,
    /// The session, to be gone through again.
    pub track: History,
    /// The scenario's title.
    pub scenario: String,
}

impl<'a> SessionReport<'a> {
    /// Works out the report of a session.
    pub fn of(ended: &'a MarkedSession, operator: Option<&'a str>) -> Self {
        let MarkedSession { signed: session, marks, costs, .. } = ended;
        let compared = compared::compare(session);
        // A session could not have begun with a scenario that cannot be read.
        let scenario = sim_core::scenario::check(&session.source.text, KnownRules::Any)
            .map(|scenario| scenario.title)
            .unwrap_or_default();
        Self {
            ended,
            operator,
            figures: Figures::of(marks, &compared, costs),
            compared,
            time_line: BenchTimeLine::of(session, marks),
            track: History::of(session),
            scenario,
        }
    }

    /// Time of day at the first tick.
    pub const fn start(&self) -> TimeOfDay {
        self.ended.signed.setup.station.start
    }
}
