//! Over a person's sessions: marks by part, rules that keep being broken, reading errors in
//! divisions, and what to practise next and why.

pub mod advice;
pub mod page;
pub mod plots;
pub mod session;
pub mod words;

use std::collections::BTreeMap;

use serde::Serialize;
use sim_core::procedure::{ProcedureRule, RULES, Severity};

pub use advice::{Advice, Lesson};
pub use session::Summary;

/// So many of the last sessions say what a person does now.
pub const LATELY: usize = 3;

/// Everything about a person's sessions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Progress {
    /// The version that marked them.
    pub program: &'static str,
    /// The sessions, the earliest first.
    pub sessions: Vec<Summary>,
    /// Journals that could not be counted, and why.
    pub left_out: Vec<LeftOut>,
    /// Rules that were broken, those that keep being broken first.
    pub rules: Vec<RuleBroken>,
    /// What to practise next, the most pressing first.
    pub next: Vec<Advice>,
    /// How many scenarios were at hand to choose from.
    pub scenarios_at_hand: usize,
}

/// A journal that was not counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// The file.
    pub file: String,
    /// Why, and what to do.
    pub why: String,
}

/// How often a rule was broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct RuleBroken {
    /// Its id.
    pub rule: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What is at stake.
    pub severity: Severity,
    /// Sessions in which it was broken.
    pub broken: usize,
    /// The same of the last [`LATELY`].
    pub lately: usize,
    /// Whether it keeps being broken: in two sessions at least, and in one of the last.
    pub keeps: bool,
}

impl Progress {
    /// Puts the sessions in order and says what they show; of a session that stands there twice the
    /// second is left out. Lessons are what scenarios teach.
    pub fn of(mut sessions: Vec<Summary>, mut left_out: Vec<LeftOut>, lessons: &[Lesson]) -> Self {
        // A session that no clock was told of stands before those that have one, by its name.
        sessions.sort_by(|one, other| {
            (one.begun_unix_s, &one.file).cmp(&(other.begun_unix_s, &other.file))
        });
        left_out.extend(leave_out_copies(&mut sessions));
        let rules = broken(&sessions);
        let next = advice::next(&sessions, &rules, lessons);
        Self {
            program: sim_core::VERSION,
            sessions,
            left_out,
            rules,
            next,
            scenarios_at_hand: lessons.len(),
        }
    }

    /// The rules that keep being broken.
    pub fn kept_broken(&self) -> impl Iterator<Item = &RuleBroken> {
        self.rules.iter().filter(|rule| rule.keeps)
    }
}

/// Takes out every session that stands there already: the head of a journal's chain is that of all its
/// lines, so that two with one head are one session.
fn leave_out_copies(sessions: &mut Vec<Summary>) -> Vec<LeftOut> {
    let mut first: BTreeMap<String, String> = BTreeMap::new();
    let mut copies = Vec::new();
    sessions.retain(|session| match first.get(&session.journal_head) {
        Some(file) => {
            let why = format!("it is a copy of {file}: a session counts once");
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

/// The last sessions.
fn lately(sessions: &[Summary]) -> &[Summary] {
    sessions.get(sessions.len().saturating_sub(LATELY)..).unwrap_or_default()
}

fn broken(sessions: &[Summary]) -> Vec<RuleBroken> {
    let count = |sessions: &[Summary], rule: &ProcedureRule| {
        sessions.iter().filter(|session| session.broken.contains(&rule.id)).count()
    };
    let one = |rule: &&'static ProcedureRule| {
        let (broken, lately) = (count(sessions, rule), count(lately(sessions), rule));
        RuleBroken {
            rule: rule.id,
            title: rule.title,
            severity: rule.severity,
            broken,
            lately,
            keeps: broken >= 2 && lately >= 1,
        }
    };
    let mut rules: Vec<RuleBroken> = RULES.iter().map(one).filter(|rule| rule.broken > 0).collect();
    // Life and limb first, then what is done now, then what was done often.
    rules.sort_by_key(|rule| {
        let often = (usize::MAX - rule.lately, usize::MAX - rule.broken);
        (!rule.keeps, gravity(rule.severity), often)
    });
    rules
}

/// The gravest first.
const fn gravity(severity: Severity) -> u8 {
    match severity {
        Severity::Critical => 0,
        Severity::Safety => 1,
        Severity::Data => 2,
        Severity::Practice => 3,
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::session::tests::summary;
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
    fn sessions_stand_in_the_order_of_the_clock() {
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
            ("copy", "it is a copy of a: a session counts once")
        );
        assert_eq!(progress.kept_broken().count(), 0, "broken in one session only");
    }
}
