//! Everything that the report of a session shows, worked out once.

use sim_core::marking::compared::{self, Compared};
use sim_core::scenario::KnownRules;
use sim_core::scenario::setup::{LessonPhase, LessonPhases};
use sim_core::session::ended_session::EndedSession;
use sim_core::session::history::History;
use sim_core::time::{Tick, TimeOfDay};

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
    /// What the scenario teaches.
    pub lesson: String,
}

impl<'a> SessionReport<'a> {
    /// Works out the report of a session.
    pub fn of(ended: &'a MarkedSession, operator: Option<&'a str>) -> Self {
        let MarkedSession { session, marks, costs, .. } = ended;
        let compared = compared::compare(session);
        let (scenario, lesson) = title_and_lesson(session);
        Self {
            ended,
            operator,
            figures: Figures::of(marks, &compared, costs),
            compared,
            time_line: BenchTimeLine::of(session, marks),
            track: History::of(session),
            scenario,
            lesson,
        }
    }

    /// The tick at which the trainee's work began: in a lesson, where the lesson did.
    pub fn began(&self) -> Tick {
        self.ended.session.lesson.map_or(Tick(0), |lesson| lesson.tick)
    }

    /// Time of day at the first tick.
    pub const fn start(&self) -> TimeOfDay {
        self.ended.session.setup.station.start
    }
}

/// What a report says of a lesson: that it is one, its phases, and its help.
pub(super) fn lesson_words(phases: LessonPhases) -> String {
    let next = match phases.to < LessonPhase::Points {
        true => ". Nothing is read in it: the rules look at the reading that would come next",
        false => "",
    };
    format!(
        "{}; {}. Everything before was done by the careful operator and is not assessed{next}",
        phases.words(),
        phases.help.words()
    )
}

/// The title of a session's scenario, and what it teaches.
pub(super) fn title_and_lesson(signed: &EndedSession) -> (String, String) {
    // A session could not have begun with a scenario that cannot be read.
    sim_core::scenario::check(&signed.source.text, KnownRules::Any)
        .map(|scenario| (scenario.title, scenario.lesson))
        .unwrap_or_default()
}
