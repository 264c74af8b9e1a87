//! Recording what the trainee thinks of a session that has ended.

use super::active_session::Session;
use super::journal::{JournalLine, SinkError};
use super::own_judgement::OwnJudgement;

/// Why a judgement was not recorded.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum JudgeError {
    /// The session goes on.
    #[error("the session has not ended: sign it before you judge it")]
    NotEnded,
    /// There is one already.
    #[error("your judgement of this session is already in its journal: it is given once")]
    Given,
    /// The journal cannot be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
}

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

#[cfg(test)]
mod tests {
    use std::sync::{Arc, Mutex};

    use super::*;
    use crate::session::action::Action;
    use crate::session::checklist_item::ChecklistItem;
    use crate::session::journal::{JournalSink, NullSink};
    use crate::session::own_judgement::{Sureness, VolumeClaim, VolumeOff};
    use crate::session::replay::replay;

    const FIRST: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    #[derive(Clone, Default)]
    struct Paper(Arc<Mutex<String>>);

    impl JournalSink for Paper {
        fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
            let mut text = self.0.lock().expect("it is whole");
            text.push_str(line);
            text.push('\n');
            Ok(())
        }
    }

    fn judgement() -> OwnJudgement {
        let sure_pct = Sureness::try_from(80).expect("a sureness");
        OwnJudgement {
            volume: Some(VolumeClaim { off: VolumeOff::Within5, sure_pct }),
            again: [ChecklistItem::Points, ChecklistItem::Manometer].into(),
        }
    }

    #[test]
    fn it_follows_the_seal_is_replayed_and_changes_no_mark() {
        let paper = Paper::default();
        let mut session =
            crate::operator::begin(FIRST, 1, Box::new(paper.clone())).expect("a session");
        assert_eq!(session.judge(judgement()), Err(JudgeError::NotEnded));
        session.act(Action::Sign).expect("it is signed");
        let plain = paper.0.lock().expect("it is whole").clone();
        session.judge(judgement()).expect("it is written");
        assert_eq!(session.judge(judgement()), Err(JudgeError::Given));
        let text = paper.0.lock().expect("it is whole").clone();
        let opened = |text: &str| {
            replay(text, Box::new(NullSink)).expect("it holds").session.open().expect("it ended")
        };
        let (with, without) = (opened(&text), opened(&plain));
        assert_eq!((with.judgement.clone(), without.judgement.clone()), (Some(judgement()), None));
        assert_ne!(with.head, without.head, "it is part of the chain");
        let marks = |ended: &crate::session::ended_session::EndedSession| {
            crate::marking::mark(&ended.evidence())
        };
        assert_eq!(marks(&with), marks(&without));
    }

    #[test]
    fn it_stands_behind_the_seal_alone_and_once() {
        let paper = Paper::default();
        let mut session =
            crate::operator::begin(FIRST, 1, Box::new(paper.clone())).expect("a session");
        session.act(Action::Sign).expect("it is signed");
        session.judge(judgement()).expect("it is written");
        let text = paper.0.lock().expect("it is whole").clone();
        let bodies: Vec<&str> =
            text.lines().filter_map(|line| line.split_once(' ')).map(|(_, body)| body).collect();
        let chained = |bodies: &[&str]| {
            let mut chain = crate::session::journal::Chain::default();
            bodies.iter().map(|body| chain.add(body) + "\n").collect::<String>()
        };
        let (last, head) = bodies.split_last().expect("lines");
        assert!(last.starts_with("Judgement("), "{last}");
        let twice = chained(&[head, &[last, last]].concat());
        let error = replay(&twice, Box::new(NullSink)).expect_err("it is given once");
        assert!(error.to_string().contains("it is given once"), "{error}");
        let (first, rest) = head.split_at(3);
        let early = chained(&[first, &[last], rest].concat());
        let error = replay(&early, Box::new(NullSink)).expect_err("the session goes on");
        assert!(error.to_string().contains("has not ended"), "{error}");
    }
}
