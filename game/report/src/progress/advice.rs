//! What to practise next, why, and which scenario teaches it.
//!
//! What a scenario teaches is in its own data: it names the habits that it is about, and its faults.
//! A session with such a habit shows which rules it breaks and which scales it misreads; whoever
//! breaks those rules and misreads those scales is taught there.

use serde::Serialize;
use sim_core::fault::sheets;
use sim_core::marking::Marks;
use sim_core::marking::readings::FREE_SEEN;
use sim_core::procedure::rule;
use sim_core::scenario::{KnownRules, check};
use sim_core::trial::rehearsal;

use super::session::{Errors, Scale, Summary, errors};
use super::{LATELY, RuleBroken, lately};
use crate::text::{part_name, severity};

/// Advice given at once (CHOSEN: more is not read).
const MOST: usize = 5;
/// Rules told at once.
const MOST_RULES: usize = 3;
/// A part with less than this needs practice, percent (CHOSEN: the usual pass mark is 75).
const WEAK_PERCENT: f64 = 75.0;
/// The seed with which it is found out what a scenario teaches.
const SEED: u64 = 1;
/// By how much more a habit has to misread a scale to be what teaches it, divisions (CHOSEN).
const MISREADS: f64 = 0.25;

/// One thing to practise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Advice {
    /// What.
    pub what: String,
    /// Why, with the figures that show it.
    pub why: String,
    /// Where it is taught; none where no scenario at hand teaches it.
    pub scenario: Option<Practise>,
}

/// A scenario to practise in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Practise {
    /// Its file.
    pub file: String,
    /// Its title.
    pub title: String,
    /// What it teaches, in its own words.
    pub lesson: String,
}

/// What a scenario teaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Lesson {
    /// The scenario.
    pub practise: Practise,
    sha256: String,
    /// Rules that its habits break so that they do not pass.
    decides: Vec<&'static str>,
    /// All rules that its habits break.
    breaks: Vec<&'static str>,
    scales: Vec<Scale>,
    faults: Vec<&'static str>,
}

impl Lesson {
    /// What a scenario teaches, from its text; `None` where it cannot be read.
    pub fn of(file: String, text: &str) -> Option<Self> {
        let scenario = check(text, KnownRules::Any).ok()?;
        let had = |operator: &str| rehearsal(text, operator, SEED).ok()?.marks;
        let careful = had("careful");
        let habits: Vec<Marks> = scenario.about.iter().filter_map(|habit| had(habit)).collect();
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
        let well = careful.as_ref().map(|marks| errors(&marks.readings)).unwrap_or_default();
        let ill: Vec<Errors> = habits.iter().flat_map(|marks| errors(&marks.readings)).collect();
        let misread = |scale: &Scale| {
            let off = |errors: &Errors| (errors.scale == *scale).then_some(errors.mean_off);
            let best = well.iter().find_map(off).unwrap_or(0.0);
            ill.iter().filter_map(off).any(|worse| worse > best + MISREADS)
        };
        Some(Self {
            sha256: sim_core::digest::sha256_hex(text.as_bytes()),
            decides: rules(true),
            breaks: rules(false),
            scales: Scale::ALL.into_iter().filter(misread).collect(),
            faults: scenario.faults.iter().map(|entry| entry.fault.name()).collect(),
            practise: Practise { file, title: scenario.title, lesson: scenario.lesson },
        })
    }
}

/// What to practise next, the most pressing first.
pub(super) fn next(sessions: &[Summary], rules: &[RuleBroken], lessons: &[Lesson]) -> Vec<Advice> {
    if sessions.is_empty() {
        return Vec::new();
    }
    let desk = Desk { sessions, lessons };
    let kept = rules.iter().filter(|rule| rule.keeps).take(MOST_RULES);
    let mut advice: Vec<Advice> = kept.map(|rule| desk.of_rule(rule)).collect();
    advice.extend(desk.of_faults());
    advice.extend(desk.of_scales());
    advice.extend(desk.of_parts());
    if advice.is_empty() {
        advice.extend(desk.what_is_left());
    }
    advice.truncate(MOST);
    advice
}

/// What advice is drawn from.
struct Desk<'a> {
    sessions: &'a [Summary],
    lessons: &'a [Lesson],
}

impl Desk<'_> {
    /// The first scenario that teaches it: one that was not passed yet before those that were.
    fn taught(&self, teaches: impl Fn(&Lesson) -> bool) -> Option<Practise> {
        let passed = |lesson: &&Lesson| {
            let same = |one: &Summary| one.passed && one.scenario_sha256 == lesson.sha256;
            self.sessions.iter().any(same)
        };
        let all = || self.lessons.iter().filter(|lesson| teaches(lesson));
        let found = all().find(|lesson| !passed(lesson)).or_else(|| all().next());
        found.map(|lesson| lesson.practise.clone())
    }

    fn last(&self) -> usize {
        lately(self.sessions).len()
    }

    fn of_rule(&self, broken: &RuleBroken) -> Advice {
        let why = rule(broken.rule).map_or("", |rule| rule.why);
        let id = broken.rule;
        let decided = self.taught(|lesson| lesson.decides.contains(&id));
        Advice {
            what: broken.title.to_owned(),
            why: format!(
                "broken in {} of {} sessions, {} of the last {} ({}). {why}",
                broken.broken,
                self.sessions.len(),
                broken.lately,
                self.last(),
                severity(broken.severity),
            ),
            scenario: decided.or_else(|| self.taught(|lesson| lesson.breaks.contains(&id))),
        }
    }

    /// Faults that were lately not found, the most often missed first.
    fn of_faults(&self) -> Option<Advice> {
        let missed = || lately(self.sessions).iter().flat_map(|one| one.missed.iter().copied());
        let count = |name: &str| missed().filter(|other| *other == name).count();
        // Of several missed as often, the first by name: the same journals give the same advice.
        let most = missed().max_by_key(|name| (count(name), std::cmp::Reverse(*name)))?;
        let sheet = sheets().find(|sheet| sheet.name == most)?;
        let others = missed().filter(|name| *name != most).count();
        let more = if others == 0 { String::new() } else { format!(", and {others} other faults") };
        Some(Advice {
            what: format!("Find {}", sheet.title),
            why: format!(
                "not found in {} of the last {} sessions{more}. Its sign: {} To make sure: {}",
                count(most),
                self.last(),
                sheet.sign,
                sheet.check
            ),
            scenario: self.taught(|lesson| lesson.faults.contains(&most)),
        })
    }

    /// The scale that is lately read worst, where it is read badly.
    fn of_scales(&self) -> Option<Advice> {
        let mean = |scale: Scale, of: fn(&Errors) -> f64| {
            let errors = lately(self.sessions).iter().filter_map(|one| one.errors(scale));
            let (sum, count) = errors.fold((0.0, 0.0), |(sum, count), errors| {
                let readings = errors.count as f64;
                (sum + of(errors) * readings, count + readings)
            });
            (count > 0.0).then(|| sum / count)
        };
        let off = |scale| mean(scale, |errors| errors.mean_off).unwrap_or(0.0);
        let worst =
            Scale::ALL.into_iter().max_by(|one, other| off(*one).total_cmp(&off(*other)))?;
        let signed = mean(worst, |errors| errors.mean_signed).unwrap_or(0.0);
        (off(worst) > FREE_SEEN).then(|| Advice {
            what: format!("Read the {} more closely", worst.words()),
            why: format!(
                "off by {:.2} divisions in the mean of the last {} sessions ({signed:+.2} with its sign); \
                 {FREE_SEEN} is free",
                off(worst),
                self.last(),
            ),
            scenario: self.taught(|lesson| lesson.scales.contains(&worst)),
        })
    }

    /// The part that is lately weakest, where it is weak.
    fn of_parts(&self) -> Option<Advice> {
        let last = lately(self.sessions);
        let parts = last.first()?.parts.map(|share| share.part);
        let mean = |part| {
            let shares = last.iter().flat_map(|one| one.parts).filter(|share| share.part == part);
            let known: Vec<f64> = shares.filter_map(|share| share.percent).collect();
            (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
        };
        let known = parts.into_iter().filter_map(|part| Some((part, mean(part)?)));
        let (part, percent) = known.min_by(|one, other| one.1.total_cmp(&other.1))?;
        (percent < WEAK_PERCENT).then(|| Advice {
            what: format!("Get more of {}", part_name(part)),
            why: format!(
                "{percent:.0} % of its marks in the mean of the last {LATELY} sessions, less than of any other part"
            ),
            scenario: None,
        })
    }

    /// Where nothing presses: the next scenario that was not passed yet.
    fn what_is_left(&self) -> Option<Advice> {
        let passed = |lesson: &Lesson| {
            self.sessions.iter().any(|one| one.passed && one.scenario_sha256 == lesson.sha256)
        };
        let left = self.lessons.iter().find(|lesson| !passed(lesson))?;
        Some(Advice {
            what: "Go on with the next scenario".to_owned(),
            why: "no rule keeps being broken, and the scales are read well".to_owned(),
            scenario: Some(left.practise.clone()),
        })
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::super::Progress;
    use super::super::session::tests::summary;
    use super::*;

    fn lesson(name: &str) -> Lesson {
        let path = format!("{}/../../scenarios/{name}.ron", env!("CARGO_MANIFEST_DIR"));
        Lesson::of(name.to_owned(), &std::fs::read_to_string(path).unwrap()).unwrap()
    }

    #[test]
    fn a_scenario_teaches_what_its_habits_break() {
        let lesson = lesson("08_wide_limb");
        assert!(lesson.decides.contains(&"both-legs"), "{lesson:?}");
        assert!(!lesson.breaks.contains(&"thunder"), "{lesson:?}");
        assert_eq!(lesson.faults, ["ManometerUnequalBores"]);
    }

    #[test]
    fn who_keeps_reading_one_leg_is_sent_where_both_are_needed() {
        let sessions = vec![summary("a", &["both-legs"]), summary("b", &["both-legs"])];
        let lessons = [lesson("05_sea_level_barometer"), lesson("08_wide_limb")];
        let progress = Progress::of(sessions, Vec::new(), &lessons);
        let first = progress.next.first().unwrap();
        assert_eq!(first.what, "Read both legs");
        assert!(first.why.starts_with("broken in 2 of 2 sessions, 2 of the last 2 (data)."));
        assert_eq!(first.scenario.as_ref().unwrap().file, "08_wide_limb");
    }

    #[test]
    fn who_missed_a_fault_is_sent_where_it_is() {
        let mut one = summary("a", &[]);
        one.missed = vec!["BarometerAtSeaLevel"];
        let lessons = [lesson("08_wide_limb"), lesson("05_sea_level_barometer")];
        let progress = Progress::of(vec![one], Vec::new(), &lessons);
        let first = progress.next.first().unwrap();
        assert_eq!(first.scenario.as_ref().unwrap().file, "05_sea_level_barometer");
    }

    #[test]
    fn who_does_well_goes_on_with_what_was_not_passed() {
        let lessons = [lesson("08_wide_limb"), lesson("05_sea_level_barometer")];
        let mut one = summary("a", &[]);
        one.scenario_sha256.clone_from(&lessons[0].sha256);
        let progress = Progress::of(vec![one], Vec::new(), &lessons);
        assert_eq!(progress.next.len(), 1);
        let scenario = progress.next[0].scenario.as_ref().unwrap();
        assert_eq!(scenario.file, "05_sea_level_barometer");
    }
}
