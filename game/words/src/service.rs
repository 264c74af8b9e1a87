//! The sentences as a front end asks for them.

use content::SpeechService;
use content::advice::AdvisedStep;
use content::briefing::Briefing;
use content::own_sums::OwnSums;
use sessions::LiveSession;
use sim_core::field_book::FieldBook;
use sim_core::scenario::setup::LessonHelp;
use sim_core::scenario::setup::SeasonAverages;
use sim_core::session::SitePapers;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;
use sim_core::time::Tick;

use super::advice::{self, History};
use super::briefing::briefing;
use super::caution::caution;
use super::own_sums::own_sums;
use super::say::{chart_told, listen, look, paper, say_action};

/// The sentences of this package, for a window or any other front end.
#[derive(Debug, Clone, Copy, Default)]
pub struct PlainSentences;

/// The next step of a lesson in which it is shown all the time; nothing elsewhere, and nothing once the
/// session has ended.
pub fn shown_step(session: &dyn LiveSession) -> Option<String> {
    let phases = session.papers().terms.phases?;
    if phases.help != LessonHelp::Shown || session.ended().is_some() {
        return None;
    }
    let view = session.view();
    let history = History::of(session.done());
    let advice = advice::what_now(&view, session.book(), &session.papers(), &history);
    Some(advice::step(&view, &advice))
}

impl SpeechService for PlainSentences {
    fn briefing(&self, papers: &SitePapers<'_>) -> Briefing {
        briefing(papers)
    }

    fn look(&self, view: &View, at: Sight, papers: &SitePapers<'_>) -> String {
        look(view, at, papers)
    }

    fn listen(&self, view: &View) -> String {
        listen(view)
    }

    fn paper(&self, at: Sight, papers: &SitePapers<'_>) -> String {
        paper(at, papers)
    }

    fn action(&self, action: &Action) -> String {
        say_action(action)
    }

    fn caution(&self, action: &Action) -> Option<&'static str> {
        caution(action)
    }

    fn next_step(
        &self,
        view: &View,
        book: &FieldBook,
        papers: &SitePapers<'_>,
        done: &mut dyn Iterator<Item = (Tick, &Action)>,
    ) -> AdvisedStep {
        let advice = advice::what_now(view, book, papers, &History::of(done));
        let (now, why) = (advice::step(view, &advice), advice::why(&advice));
        AdvisedStep { now, why, deeds: advice.deeds }
    }

    fn own_sums(
        &self,
        book: &FieldBook,
        averages: Option<SeasonAverages>,
    ) -> Result<OwnSums, String> {
        own_sums(book, averages)
    }

    fn control_chart(&self, papers: &SitePapers<'_>, book: &FieldBook) -> Option<String> {
        papers.control_chart(book).map(|chart| chart_told(&chart))
    }
}
