//! What a scenario teaches. The scenario itself says it: it names the habits that it is about, and its
//! faults. A session with such a habit shows which rules it breaks and which scales it misreads; a person
//! who breaks those rules or misreads those scales can practise there.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use serde::Serialize;
use sim_core::marking::Marks;
use sim_core::scenario::{KnownRules, check};
use sim_core::trial::rehearsal;

use super::session::{ReadScale, ReadingErrors, SessionSummary, reading_errors};

/// The seed with which it is found out what a scenario teaches.
const SEED: u64 = 1;
/// By how much more a habit has to misread a scale to be what teaches it, divisions (CHOSEN).
const MISREADS: f64 = 0.25;

/// A scenario to practise in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PracticeScenario {
    /// Its file.
    pub file: String,
    /// Its title.
    pub title: String,
    /// What it teaches, as the scenario puts it.
    pub lesson: String,
}

/// A scenario with what it teaches.
#[derive(Debug)]
pub struct ScenarioLesson {
    scenario: PracticeScenario,
    sha256: String,
    about: Vec<String>,
    faults: Vec<&'static str>,
    text: String,
    /// What its habits show. It is found out only when it is needed, because it takes whole sessions.
    shown: OnceLock<ShownByHabits>,
}

/// What sessions with the habits of a scenario show.
#[derive(Debug)]
struct ShownByHabits {
    /// Rules that the habits break so that they do not pass.
    decides: Vec<&'static str>,
    /// All rules that the habits break.
    breaks: Vec<&'static str>,
    /// Scales that the habits misread.
    scales: Vec<ReadScale>,
}

impl ScenarioLesson {
    /// The lesson of a scenario, from its text; `None` where it cannot be read.
    pub fn of(file: String, text: &str) -> Option<Self> {
        let scenario = check(text, KnownRules::Any).ok()?;
        Some(Self {
            sha256: sim_core::digest::sha256_hex(text.as_bytes()),
            about: scenario.about,
            faults: scenario.faults.iter().map(|entry| entry.fault.name()).collect(),
            text: text.to_owned(),
            shown: OnceLock::new(),
            scenario: PracticeScenario { file, title: scenario.title, lesson: scenario.lesson },
        })
    }

    /// Whether its habits break a rule so that they do not pass.
    pub fn decides(&self, rule: &str) -> bool {
        self.shown().decides.contains(&rule)
    }

    /// Whether its habits break a rule.
    pub fn breaks(&self, rule: &str) -> bool {
        self.shown().breaks.contains(&rule)
    }

    /// Whether its habits misread a scale.
    pub fn misreads(&self, scale: ReadScale) -> bool {
        self.shown().scales.contains(&scale)
    }

    /// Whether it has a fault.
    pub fn has_fault(&self, fault: &str) -> bool {
        self.faults.contains(&fault)
    }

    fn shown(&self) -> &ShownByHabits {
        self.shown.get_or_init(|| ShownByHabits::by(&self.text, &self.about))
    }
}

impl ShownByHabits {
    /// Rehearses a scenario carefully and with each of its habits, and compares.
    fn by(text: &str, about: &[String]) -> Self {
        let marks_of = |operator: &str| rehearsal(text, operator, SEED).ok()?.marks;
        let careful = marks_of("careful");
        let habits: Vec<Marks> = about.iter().filter_map(|habit| marks_of(habit)).collect();
        let kept = |id: &str| {
            let findings = careful.iter().flat_map(|marks| &marks.findings);
            !findings.into_iter().any(|found| found.rule == id)
        };
        let rules = |only_decisive: bool| {
            let findings = habits.iter().flat_map(|marks| &marks.findings);
            let wanted =
                findings.filter(|found| !only_decisive || found.decisive || found.critical);
            let mut ids: Vec<&'static str> =
                wanted.map(|found| found.rule).filter(|id| kept(id)).collect();
            ids.sort_unstable();
            ids.dedup();
            ids
        };
        let well =
            careful.as_ref().map(|marks| reading_errors(&marks.readings)).unwrap_or_default();
        let ill: Vec<ReadingErrors> =
            habits.iter().flat_map(|marks| reading_errors(&marks.readings)).collect();
        let misread = |scale: &ReadScale| {
            let off = |errors: &ReadingErrors| (errors.scale == *scale).then_some(errors.mean_off);
            let best = well.iter().find_map(off).unwrap_or(0.0);
            ill.iter().filter_map(off).any(|worse| worse > best + MISREADS)
        };
        Self {
            decides: rules(true),
            breaks: rules(false),
            scales: ReadScale::ALL.into_iter().filter(misread).collect(),
        }
    }
}

/// Every scenario at hand, for a person who has passed some of them.
#[derive(Debug)]
pub struct Lessons<'a> {
    all: &'a [ScenarioLesson],
    passed: BTreeSet<&'a str>,
}

impl<'a> Lessons<'a> {
    /// The scenarios at hand, and which of them these sessions passed.
    pub fn for_sessions(all: &'a [ScenarioLesson], sessions: &'a [SessionSummary]) -> Self {
        let passed = sessions.iter().filter(|session| session.passed);
        Self { all, passed: passed.map(|session| session.scenario_sha256.as_str()).collect() }
    }

    /// The first scenario that teaches something: those not passed yet before the others.
    pub fn teaching(&self, teaches: impl Fn(&ScenarioLesson) -> bool) -> Option<PracticeScenario> {
        let passed = |lesson: &&ScenarioLesson| self.passed.contains(lesson.sha256.as_str());
        let open = self.all.iter().filter(|lesson| !passed(lesson));
        let done = self.all.iter().filter(passed);
        let found = open.chain(done).find(|lesson| teaches(lesson));
        found.map(|lesson| lesson.scenario.clone())
    }

    /// The first scenario that was not passed yet.
    pub fn not_passed(&self) -> Option<PracticeScenario> {
        let open = self.all.iter().find(|lesson| !self.passed.contains(lesson.sha256.as_str()));
        open.map(|lesson| lesson.scenario.clone())
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
pub(super) mod tests {
    use super::super::session::tests::summary;
    use super::*;

    /// The lesson of a scenario that comes with the program.
    pub fn lesson(name: &str) -> ScenarioLesson {
        let path = format!("{}/../../scenarios/{name}.ron", env!("CARGO_MANIFEST_DIR"));
        ScenarioLesson::of(name.to_owned(), &std::fs::read_to_string(path).unwrap()).unwrap()
    }

    /// A session in which the scenario of a lesson was passed.
    pub fn passed(lesson: &ScenarioLesson) -> SessionSummary {
        SessionSummary { scenario_sha256: lesson.sha256.clone(), ..summary("a", &[]) }
    }

    #[test]
    fn a_scenario_teaches_what_its_habits_break() {
        let lesson = lesson("08_number_six");
        assert!(lesson.decides("both-legs"), "{lesson:?}");
        assert!(!lesson.breaks("thunder"), "{lesson:?}");
        assert!(lesson.has_fault("ManometerUnequalBores") && lesson.faults.len() == 1);
    }

    #[test]
    fn nothing_is_rehearsed_before_somebody_asks() {
        let lessons = [lesson("08_number_six"), lesson("05_moved_from_the_coast")];
        let sessions = [passed(&lessons[0])];
        let at_hand = Lessons::for_sessions(&lessons, &sessions);
        assert_eq!(at_hand.not_passed().unwrap().file, "05_moved_from_the_coast");
        let fault = |lesson: &ScenarioLesson| lesson.has_fault("BarometerAtSeaLevel");
        assert_eq!(at_hand.teaching(fault).unwrap().file, "05_moved_from_the_coast");
        assert!(lessons.iter().all(|lesson| lesson.shown.get().is_none()));
        // What a scenario teaches is found out once.
        assert!(at_hand.teaching(|lesson| lesson.decides("both-legs")).is_some());
        assert!(lessons.iter().any(|lesson| lesson.shown.get().is_some()));
    }
}
