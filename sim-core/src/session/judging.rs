//! Recording what the trainee thinks of a session that has ended.

use super::active_session::Session;
use super::journal::JournalLine;
use super::own_judgement::{JudgeError, OwnJudgement};

impl Session {
    /// Records what the trainee thinks of the work: after its end, and once.
    ///
    /// # Errors
    ///
    /// When the session has not ended, the judgement was given before, or the journal cannot be
    /// written.
    pub fn judge(&mut self, own: OwnJudgement) -> Result<(), JudgeError> {
        if self.ended.is_none() {
            return Err(JudgeError::NotEnded);
        }
        if self.judgement.is_some() {
            return Err(JudgeError::Given);
        }
        self.writer.write(&JournalLine::Judgement(own.clone()))?;
        self.judgement = Some(own);
        Ok(())
    }

    /// What the trainee said of the work.
    pub const fn judgement(&self) -> Option<&OwnJudgement> {
        self.judgement.as_ref()
    }
}
