//! What to practise next, why, and which scenario teaches it.

use serde::Serialize;
use sim_core::fault::sheets;
use sim_core::marking::MarkPartName;
use sim_core::marking::readings::FREE_SEEN;
use sim_core::procedure::rule;

use super::super::names::{part_name, severity};
use super::super::number_format::NumberFormat;
use super::lesson::{Lessons, PracticeScenario, ScenarioLesson};
use super::recent::recent;
use super::rule_counts::RuleCount;
use super::session::{ReadScale, ReadingErrors, SessionSummary};

/// Advice given at once (CHOSEN: more is not read).
const MOST: usize = 5;
/// Rules named at once.
const MOST_RULES: usize = 3;
/// A part with less than this needs practice, percent (CHOSEN: the usual pass mark is 75).
const WEAK_PERCENT: f64 = 75.0;

/// One thing to practise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PracticeAdvice {
    /// What it is about.
    pub topic: PracticeTopic,
    /// What to practise, in words.
    pub what: String,
    /// Why, with the figures that show it.
    pub why: String,
    /// Where it is taught; none where no scenario at hand teaches it.
    pub scenario: Option<PracticeScenario>,
}

/// What a piece of advice is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PracticeTopic {
    /// A rule that is broken again and again, by id.
    Rule(&'static str),
    /// A fault that was missed, by name.
    Fault(&'static str),
    /// A scale that was read badly.
    Scale(ReadScale),
    /// A part of the marks that is weak.
    Part(MarkPartName),
    /// The next scenario, where nothing is urgent.
    NextScenario,
}

/// What to practise next, the most urgent first.
pub(super) fn next(
    sessions: &[SessionSummary],
    rules: &[RuleCount],
    lessons: &[ScenarioLesson],
) -> Vec<PracticeAdvice> {
    if sessions.is_empty() {
        return Vec::new();
    }
    let adviser = Adviser { sessions, lessons: Lessons::for_sessions(lessons, sessions) };
    let kept = rules.iter().filter(|rule| rule.keeps).take(MOST_RULES);
    let mut advice: Vec<PracticeAdvice> = kept.map(|rule| adviser.of_rule(rule)).collect();
    advice.extend(adviser.of_faults());
    advice.extend(adviser.of_scales());
    advice.extend(adviser.of_parts());
    if advice.is_empty() {
        advice.extend(adviser.of_what_is_left());
    }
    advice.truncate(MOST);
    advice
}

/// What advice is based on.
struct Adviser<'a> {
    sessions: &'a [SessionSummary],
    lessons: Lessons<'a>,
}

impl Adviser<'_> {
    /// The recent sessions in words: `your last session`, `your last 3 sessions`.
    fn last_sessions(&self) -> String {
        match recent(self.sessions).len() {
            1 => "your last session".to_owned(),
            count => format!("your last {count} sessions"),
        }
    }

    /// So many of the recent sessions: `your last session`, `2 of your last 3 sessions`.
    fn of_last_sessions(&self, count: usize) -> String {
        match recent(self.sessions).len() {
            1 => self.last_sessions(),
            _ => format!("{count} of {}", self.last_sessions()),
        }
    }

    fn of_rule(&self, broken: &RuleCount) -> PracticeAdvice {
        let why = rule(broken.rule).map_or("", |rule| rule.why);
        let id = broken.rule;
        let decided = self.lessons.teaching(|lesson| lesson.decides(id));
        PracticeAdvice {
            topic: PracticeTopic::Rule(id),
            what: broken.title.to_owned(),
            why: format!(
                "You broke this rule ({}) in {} of {} sessions, and in {} of the last {}. {why}",
                severity(broken.severity),
                broken.broken,
                self.sessions.len(),
                broken.lately,
                recent(self.sessions).len(),
            ),
            scenario: decided.or_else(|| self.lessons.teaching(|lesson| lesson.breaks(id))),
        }
    }

    /// Faults that were not found recently, the most often missed first.
    fn of_faults(&self) -> Option<PracticeAdvice> {
        let missed = || recent(self.sessions).iter().flat_map(|one| one.missed.iter().copied());
        let count = |name: &str| missed().filter(|other| *other == name).count();
        // Of several missed as often, the first by name: the same journals give the same advice.
        let most = missed().max_by_key(|name| (count(name), std::cmp::Reverse(*name)))?;
        let sheet = sheets().find(|sheet| sheet.name == most)?;
        let more = match missed().filter(|name| *name != most).count() {
            0 => String::new(),
            1 => " One other fault was missed as well.".to_owned(),
            others => format!(" {others} other faults were missed as well."),
        };
        Some(PracticeAdvice {
            topic: PracticeTopic::Fault(most),
            what: format!("Find this fault: {}", sheet.title),
            why: format!(
                "You missed it in {}.{more} Its sign: {} How to confirm it: {}",
                self.of_last_sessions(count(most)),
                sheet.sign,
                sheet.check
            ),
            scenario: self.lessons.teaching(|lesson| lesson.has_fault(most)),
        })
    }

    /// The scale that was recently read worst, where it was read badly.
    fn of_scales(&self) -> Option<PracticeAdvice> {
        let mean = |scale: ReadScale, of: fn(&ReadingErrors) -> f64| {
            let errors = recent(self.sessions).iter().filter_map(|one| one.errors(scale));
            let (sum, count) = errors.fold((0.0, 0.0), |(sum, count), errors| {
                let readings = errors.count as f64;
                (sum + of(errors) * readings, count + readings)
            });
            (count > 0.0).then(|| sum / count)
        };
        let off = |scale| mean(scale, |errors| errors.mean_off).unwrap_or(0.0);
        let worst =
            ReadScale::ALL.into_iter().max_by(|one, other| off(*one).total_cmp(&off(*other)))?;
        let mean_signed = mean(worst, |errors| errors.mean_signed).unwrap_or(0.0);
        (off(worst) > FREE_SEEN).then(|| PracticeAdvice {
            topic: PracticeTopic::Scale(worst),
            what: format!("Read the {} more closely", worst.words()),
            why: format!(
                "Your readings were off by {:.2} divisions on average in {} ({} with their sign). Up to {FREE_SEEN} \
                 divisions cost no marks.",
                off(worst),
                self.last_sessions(),
                NumberFormat::Signed(2).write(mean_signed),
            ),
            scenario: self.lessons.teaching(|lesson| lesson.misreads(worst)),
        })
    }

    /// The part that was recently weakest, where it is weak.
    fn of_parts(&self) -> Option<PracticeAdvice> {
        let last = recent(self.sessions);
        let parts = last.first()?.parts.map(|share| share.part);
        let mean = |part: MarkPartName| {
            let shares = last.iter().flat_map(|one| one.parts).filter(|share| share.part == part);
            let known: Vec<f64> = shares.filter_map(|share| share.percent).collect();
            (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
        };
        let known = parts.into_iter().filter_map(|part| Some((part, mean(part)?)));
        let (part, percent) = known.min_by(|one, other| one.1.total_cmp(&other.1))?;
        (percent < WEAK_PERCENT).then(|| PracticeAdvice {
            topic: PracticeTopic::Part(part),
            what: format!("Gain more marks for {}", part_name(part)),
            why: format!(
                "You had {percent:.0} % of its marks on average in {}, less than of any other part.",
                self.last_sessions()
            ),
            scenario: None,
        })
    }

    /// Where nothing is urgent: the next scenario that was not passed yet.
    fn of_what_is_left(&self) -> Option<PracticeAdvice> {
        Some(PracticeAdvice {
            topic: PracticeTopic::NextScenario,
            what: "Continue with the next scenario".to_owned(),
            why: "You break no rule repeatedly, and you read the scales well.".to_owned(),
            scenario: Some(self.lessons.not_passed()?),
        })
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::lesson::tests::{lesson, passed};
    use super::super::rule_counts::rule_counts;
    use super::super::session::tests::summary;
    use super::*;

    fn advice(sessions: &[SessionSummary], lessons: &[ScenarioLesson]) -> Vec<PracticeAdvice> {
        next(sessions, &rule_counts(sessions), lessons)
    }

    #[test]
    fn who_keeps_reading_one_leg_is_sent_where_both_are_needed() {
        let sessions = [summary("a", &["both-legs"]), summary("b", &["both-legs"])];
        let lessons = [lesson("05_moved_from_the_coast"), lesson("08_number_six")];
        let advice = advice(&sessions, &lessons);
        let first = advice.first().unwrap();
        assert_eq!(first.topic, PracticeTopic::Rule("both-legs"));
        assert_eq!(first.what, rule("both-legs").unwrap().title);
        let why = "You broke this rule (data) in 2 of 2 sessions, and in 2 of the last 2.";
        assert!(first.why.starts_with(why), "{}", first.why);
        assert_eq!(first.scenario.as_ref().unwrap().file, "08_number_six");
    }

    #[test]
    fn who_missed_a_fault_is_sent_where_it_is() {
        let mut one = summary("a", &[]);
        one.missed = vec!["BarometerAtSeaLevel"];
        let lessons = [lesson("08_number_six"), lesson("05_moved_from_the_coast")];
        let advice = advice(&[one], &lessons);
        let first = advice.first().unwrap();
        assert_eq!(first.topic, PracticeTopic::Fault("BarometerAtSeaLevel"));
        assert!(first.why.starts_with("You missed it in your last session."), "{}", first.why);
        assert_eq!(first.scenario.as_ref().unwrap().file, "05_moved_from_the_coast");
    }

    #[test]
    fn who_does_well_goes_on_with_what_was_not_passed() {
        let lessons = [lesson("08_number_six"), lesson("05_moved_from_the_coast")];
        let advice = advice(&[passed(&lessons[0])], &lessons);
        assert_eq!(advice.len(), 1);
        let scenario = advice[0].scenario.as_ref().unwrap();
        assert_eq!(scenario.file, "05_moved_from_the_coast");
    }
}
