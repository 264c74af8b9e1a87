//! A drill's journal, replayed: every question is drawn and every answer judged once more.

use super::journal::{DrillJournal, DrillJournalError, DrillLine};
use super::question::Question;
use super::result::DrillResult;
use super::series::result;

/// Replays a journal and returns what came of every answer, also of a last one that was not judged any
/// more.
///
/// # Errors
///
/// When another version wrote it, a question cannot be drawn, or a result differs from the recorded one:
/// the first line that is wrong.
pub fn replay(journal: &DrillJournal) -> Result<Vec<DrillResult>, DrillJournalError> {
    if journal.version != crate::VERSION {
        return Err(DrillJournalError::OtherVersion { found: journal.version.clone() });
    }
    let mut results: Vec<DrillResult> = Vec::new();
    let mut question = None;
    for (line, content) in &journal.lines {
        let line = *line;
        let wrong = |what: String| DrillJournalError::Unreadable { line, what };
        match content {
            DrillLine::Moved { number, made } => {
                let asked = drawn(journal, &mut question, *number).map_err(wrong)?;
                asked.make(*made).map_err(|error| wrong(error.to_string()))?;
            }
            DrillLine::Answered { number, answer, seconds, unix_s } => {
                let asked = drawn(journal, &mut question, *number).map_err(wrong)?;
                let judged = asked.judge(answer).map_err(wrong)?;
                results.push(result(asked, &judged, *seconds, *unix_s));
                question = None;
            }
            DrillLine::Judged(recorded) if results.last() != Some(recorded) => {
                return Err(DrillJournalError::Differs { line });
            }
            DrillLine::Judged(_) | DrillLine::Ended { .. } => {}
            // Reading the journal has refused them already.
            DrillLine::Drill { .. } | DrillLine::Series { .. } => {}
        }
    }
    Ok(results)
}

/// The question that is open, drawn if it is not yet.
fn drawn<'a>(
    journal: &DrillJournal,
    open: &'a mut Option<Question>,
    number: u32,
) -> Result<&'a mut Question, String> {
    let asked = match open.take() {
        Some(asked) => asked,
        None => {
            Question::draw(journal.kind, journal.seed, number).map_err(|error| error.to_string())?
        }
    };
    Ok(open.insert(asked))
}
