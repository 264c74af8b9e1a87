//! Everything about a person's sessions: the sessions in order, rules that keep being broken, and
//! advice.

use std::collections::BTreeMap;

use serde::Serialize;

use super::advice::{self, PracticeAdvice};
use super::calibration::JudgementCalibration;
use super::lesson::ScenarioLesson;
use super::plan::{DrillRow, NextAction, PlanProgress};
use super::rule_counts::{RuleCount, rule_counts};
use super::session::SessionSummary;

/// Everything about a person's sessions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Progress {
    /// The version that marked them.
    pub program: &'static str,
    /// The sessions, the earliest first.
    pub sessions: Vec<SessionSummary>,
    /// Journals that were not counted, and why.
    pub left_out: Vec<LeftOut>,
    /// Rules that were broken, those that keep being broken first.
    pub rules: Vec<RuleCount>,
    /// What to practise next, the most urgent first.
    pub next: Vec<PracticeAdvice>,
    /// How many scenarios were at hand to choose from.
    pub scenarios_at_hand: usize,
    /// How well the person judges their own work; none where nothing was judged.
    pub judgement: Option<JudgementCalibration>,
    /// Whose progress it is, where a name was given.
    pub name: Option<String>,
    /// How the person stands with each drill that was tried.
    pub drills: Vec<DrillRow>,
    /// Where the person stands in the lesson plan, where there is one.
    pub plan: Option<PlanProgress>,
    /// The next step, with what to type for it; none where nothing is open and nothing due.
    pub next_step: Option<NextAction>,
}

/// A journal that was not counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// The file.
    pub file: String,
    /// Why, and what to do.
    pub why: String,
}

impl Progress {
    /// Puts the sessions in order and works out what they show. Of a session that is there twice the
    /// second is left out. Lessons are what scenarios teach.
    pub fn of(
        mut sessions: Vec<SessionSummary>,
        mut left_out: Vec<LeftOut>,
        lessons: &[ScenarioLesson],
    ) -> Self {
        // Sessions without a time of the clock come before those that have one, by name.
        sessions.sort_by(|one, other| {
            (one.begun_unix_s, &one.file).cmp(&(other.begun_unix_s, &other.file))
        });
        left_out.extend(leave_out_copies(&mut sessions));
        let rules = rule_counts(&sessions);
        let next = advice::next(&sessions, &rules, lessons);
        let judgement = JudgementCalibration::of(&sessions);
        Self {
            program: sim_core::VERSION,
            sessions,
            left_out,
            rules,
            next,
            scenarios_at_hand: lessons.len(),
            judgement,
            name: None,
            drills: Vec::new(),
            plan: None,
            next_step: None,
        }
    }

    /// The rules that keep being broken.
    pub fn kept_broken(&self) -> impl Iterator<Item = &RuleCount> {
        self.rules.iter().filter(|rule| rule.keeps)
    }
}

/// Takes out every session that is there already. The head of a journal's chain depends on all of its
/// lines: two journals with one head are one session.
fn leave_out_copies(sessions: &mut Vec<SessionSummary>) -> Vec<LeftOut> {
    let mut first: BTreeMap<String, String> = BTreeMap::new();
    let mut copies = Vec::new();
    sessions.retain(|session| match first.get(&session.journal_head) {
        Some(file) => {
            let why = format!("it is a copy of {file}; a session counts once");
            copies.push(LeftOut { file: session.file.clone(), why });
            false
        }
        None => {
            first.insert(session.journal_head.clone(), session.file.clone());
            true
        }
    });
    copies
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::session::tests::summary;
    use super::*;

    #[test]
    fn a_rule_keeps_being_broken_when_it_is_broken_again_and_lately() {
        let sessions = [
            summary("a", &["both-legs", "manometer-zeroed"]),
            summary("b", &["both-legs", "manometer-zeroed"]),
            summary("c", &[]),
            summary("d", &["both-legs"]),
            summary("e", &["warm-up"]),
        ];
        let progress = Progress::of(sessions.into(), Vec::new(), &[]);
        let kept: Vec<&str> = progress.kept_broken().map(|rule| rule.rule).collect();
        assert_eq!(kept, ["both-legs"]);
        let legs = progress.rules.first().unwrap();
        assert_eq!((legs.broken, legs.lately), (3, 1));
        assert_eq!(progress.rules.len(), 3);
    }

    #[test]
    fn sessions_are_in_the_order_of_the_clock() {
        let mut late = summary("a", &[]);
        late.begun_unix_s = Some(2_000);
        let mut early = summary("b", &[]);
        early.begun_unix_s = Some(1_000);
        let untold = summary("z", &[]);
        let progress = Progress::of(vec![late, untold, early], Vec::new(), &[]);
        let order: Vec<&str> = progress.sessions.iter().map(|one| one.file.as_str()).collect();
        assert_eq!(order, ["z", "b", "a"]);
    }

    #[test]
    fn a_session_under_two_names_counts_once() {
        let mut copy = summary("copy", &["both-legs"]);
        copy.journal_head = summary("a", &[]).journal_head;
        let sessions = vec![copy, summary("b", &[]), summary("a", &["both-legs"])];
        let progress = Progress::of(sessions, Vec::new(), &[]);
        let order: Vec<&str> = progress.sessions.iter().map(|one| one.file.as_str()).collect();
        assert_eq!(order, ["a", "b"]);
        let left = progress.left_out.first().unwrap();
        assert_eq!(
            (left.file.as_str(), left.why.as_str()),
            ("copy", "it is a copy of a; a session counts once")
        );
        assert_eq!(progress.kept_broken().count(), 0, "broken in one session only");
    }
}
