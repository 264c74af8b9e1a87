//! The figures of a trial, as they are written, printed and drawn.

use std::collections::BTreeMap;
use std::ops::Range;

use serde::Serialize;
use sim_core::fault::Fault;
use sim_core::marking::MarkPartName;
use sim_core::trial::tally::NoticeCount;
use sim_core::trial::{
    ConfidenceInterval, RuleFigures, Tally, TrialJudgement, TrialReason, judge, pass_rate,
    rule_figures, told,
};

/// A scenario of a trial, with its operators.
#[derive(Debug)]
pub struct TrialEntry {
    /// The file as named.
    pub file: String,
    /// Its text.
    pub text: String,
    /// SHA-256 of the text.
    pub sha256: String,
    /// Its title.
    pub title: String,
    /// The habits that it is about.
    pub about: Vec<String>,
    /// Its faults.
    pub faults: Vec<Fault>,
    /// Its operators.
    pub operators: Vec<String>,
}

/// A whole trial.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figures {
    /// Version of the program.
    pub program: &'static str,
    /// The first seed.
    pub first_seed: u64,
    /// Seeds for each operator in each scenario.
    pub runs: u64,
    /// How little so few seeds prove; none where they are enough.
    pub caution: Option<String>,
    /// Every scenario.
    pub scenarios: Vec<ScenarioFigures>,
    /// Every rule over all sessions.
    pub rules: Vec<RuleFigures>,
}

/// A scenario.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ScenarioFigures {
    /// The file.
    pub file: String,
    /// Its title.
    pub title: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// The habits that it is about.
    pub about: Vec<String>,
    /// The verdict with its reasons.
    #[serde(flatten)]
    pub judged: TrialJudgement,
    /// The reasons again, each told with one session and with what to change.
    pub details: Vec<TrialReason>,
    /// Every operator in it.
    pub operators: Vec<OperatorFigures>,
    /// Every rule over the sessions of this scenario.
    pub rules: Vec<RuleFigures>,
}

/// An operator in a scenario.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OperatorFigures {
    /// Its name.
    pub operator: String,
    /// Whether the scenario is about it.
    pub about: bool,
    /// Sessions.
    pub sessions: u64,
    /// Those that passed.
    pub passed: u64,
    /// Those that came to no proper end.
    pub unfinished: u64,
    /// The share that passed, with its interval.
    pub pass_rate: ConfidenceInterval,
    /// The marks in all.
    pub total: MeanSd,
    /// The six parts of the marks.
    pub parts: Vec<PartFigures>,
    /// Every fault of the scenario.
    pub faults: Vec<FaultFigures>,
    /// Sessions with a false alarm.
    pub false_alarms: u64,
    /// What decided sessions that did not pass.
    pub decided: BTreeMap<String, u64>,
    /// The lowest seeds that passed.
    pub passed_seeds: Vec<u64>,
    /// The lowest seeds that did not.
    pub failed_seeds: Vec<u64>,
}

/// Mean and standard deviation of marks.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MeanSd {
    /// Mean.
    pub mean: f64,
    /// Standard deviation of the sample.
    pub sd: f64,
}

/// A part of the marks.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PartFigures {
    /// Which.
    pub part: MarkPartName,
    /// Its marks.
    #[serde(flatten)]
    pub marks: MeanSd,
}

/// A fault of the scenario.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaultFigures {
    /// Its name.
    pub fault: String,
    /// Sessions in which it was noticed.
    pub noticed: u64,
    /// In which way, and in how many it was in force.
    #[serde(flatten)]
    pub ways: NoticeCount,
}

impl OperatorFigures {
    /// What most often decided a session that was not passed; of equals the first in the alphabet.
    pub fn decided_by(&self) -> Option<&str> {
        self.decided.iter().rev().max_by_key(|&(_, count)| *count).map(|(by, _)| by.as_str())
    }
}

/// The parts in the order of a tally.
pub const PARTS: [MarkPartName; 6] = [
    MarkPartName::Safety,
    MarkPartName::Readings,
    MarkPartName::Fit,
    MarkPartName::Procedure,
    MarkPartName::Judgement,
    MarkPartName::Record,
];

/// Works the figures out.
pub fn figures(scenarios: &[TrialEntry], seeds: &Range<u64>, tallies: &[Vec<Tally>]) -> Figures {
    let scenarios = scenarios.iter().zip(tallies);
    Figures {
        program: sim_core::VERSION,
        first_seed: seeds.start,
        runs: seeds.end - seeds.start,
        caution: caution(seeds.end - seeds.start),
        scenarios: scenarios.map(|(entry, tallies)| scenario(entry, tallies)).collect(),
        rules: rule_figures(tallies.iter().flatten()),
    }
}

/// So many seeds are enough for a verdict to be relied on (CHOSEN: with all of them passed the interval
/// begins above 96 %).
const ENOUGH: u64 = 100;

/// How little so many seeds prove.
fn caution(runs: u64) -> Option<String> {
    (runs < ENOUGH).then(|| {
        let ConfidenceInterval { low, high, .. } = pass_rate(runs, runs);
        let seeds = if runs == 1 { "1 seed".to_owned() } else { format!("{runs} seeds") };
        format!(
            "Fewer than {ENOUGH} seeds prove little: an operator who passes all of {seeds} may in truth pass anything \
             from {:.1} to {:.1} % of the time (Wilson interval at 95 %).",
            100.0 * low,
            100.0 * high,
        )
    })
}

fn scenario(entry: &TrialEntry, tallies: &[Tally]) -> ScenarioFigures {
    let sat: Vec<(&str, &Tally)> =
        entry.operators.iter().map(String::as_str).zip(tallies).collect();
    let faults: Vec<&str> = entry.faults.iter().map(|fault| fault.name()).collect();
    let judged = judge(&entry.about, &faults, &sat);
    let objections = judged.objections.iter();
    ScenarioFigures {
        details: objections.filter_map(|objection| told(&entry.text, objection)).collect(),
        file: entry.file.clone(),
        title: entry.title.clone(),
        sha256: entry.sha256.clone(),
        about: entry.about.clone(),
        judged,
        operators: sat.iter().map(|&(name, tally)| operator(name, entry, tally)).collect(),
        rules: rule_figures(tallies),
    }
}

fn operator(name: &str, entry: &TrialEntry, tally: &Tally) -> OperatorFigures {
    let marked = tally.sessions - tally.unfinished;
    let mean_sd = |sums: &sim_core::trial::tally::MarkSums, count: u64| MeanSd {
        mean: sums.mean(count),
        sd: sums.sd(count),
    };
    let faults = entry.faults.iter().zip(&tally.faults);
    OperatorFigures {
        operator: name.to_owned(),
        about: entry.about.iter().any(|about| about == name),
        sessions: tally.sessions,
        passed: tally.passed,
        unfinished: tally.unfinished,
        pass_rate: pass_rate(tally.passed, tally.sessions),
        total: mean_sd(&tally.total, marked),
        parts: PARTS
            .into_iter()
            .zip(tally.parts.iter().zip(tally.assessed))
            .map(|(part, (sums, count))| PartFigures { part, marks: mean_sd(sums, count) })
            .collect(),
        faults: faults
            .map(|(fault, ways)| FaultFigures {
                fault: fault.name().to_owned(),
                noticed: ways.noticed(),
                ways: *ways,
            })
            .collect(),
        false_alarms: tally.false_alarms,
        decided: tally.decided.clone(),
        passed_seeds: tally.passed_seeds.clone(),
        failed_seeds: tally.failed_seeds.clone(),
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::caution;

    #[test]
    fn few_seeds_are_said_to_prove_little() {
        // n / (n + z^2), z = 1.96: the lower end of Wilson's interval where all passed.
        let one = caution(1).unwrap();
        assert!(
            one.contains("all of 1 seed may in truth pass anything from 20.7 to 100.0 %"),
            "{one}"
        );
        assert!(caution(99).unwrap().contains("from 96.3 to"), "{:?}", caution(99));
        assert_eq!(caution(100), None);
    }
}
