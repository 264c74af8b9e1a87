//! What a front end asks of the words: things, papers and actions said, and advice.

use std::fmt::Debug;

use sim_core::field_book::FieldBook;
use sim_core::scenario::setup::SeasonAverages;
use sim_core::session::SitePapers;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;
use sim_core::time::Tick;

use super::advice::AdvisedStep;
use super::briefing::Briefing;
use super::own_sums::OwnSums;

/// Says what can be seen, heard, read and done, in whole sentences.
pub trait SpeechService: Debug + Send + Sync {
    /// What a trainee is told before the job.
    fn briefing(&self, papers: &SitePapers<'_>) -> Briefing;

    /// What is seen when looking at something. `view` is as it is with the eyes on it.
    fn look(&self, view: &View, at: Sight, papers: &SitePapers<'_>) -> String;

    /// What you hear when you listen.
    fn listen(&self, view: &View) -> String;

    /// A paper as it is printed; empty for anything else.
    fn paper(&self, at: Sight, papers: &SitePapers<'_>) -> String;

    /// An action in the words that ask for it.
    fn action(&self, action: &Action) -> String;

    /// The most important caution beside an action, with its source in brackets.
    fn caution(&self, action: &Action) -> Option<&'static str>;

    /// The next step of the work, from what can be seen, the field book, the papers and what was done.
    fn next_step(
        &self,
        view: &View,
        book: &FieldBook,
        papers: &SitePapers<'_>,
        done: &mut dyn Iterator<Item = (Tick, &Action)>,
    ) -> AdvisedStep;

    /// Flow and corrected chart reading of each point in the book, and their line, with the averages
    /// of the season built in if the order asks for them and the day allows it.
    ///
    /// # Errors
    ///
    /// What the book lacks for the calculations.
    fn own_sums(
        &self,
        book: &FieldBook,
        averages: Option<SeasonAverages>,
    ) -> Result<OwnSums, String>;

    /// The control chart of the sampler's history in words, with what is entered on it for today; none
    /// where the sampler has no history.
    fn control_chart(&self, papers: &SitePapers<'_>, book: &FieldBook) -> Option<String>;
}
