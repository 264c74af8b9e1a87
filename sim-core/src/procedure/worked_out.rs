//! Results are written after the readings from which they are worked out.

use std::collections::BTreeMap;

use super::evidence::{Evidence, TraineeDecision};
use super::outcome::Outcome;
use super::readings::Reading;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::{Decision, Field, PointNumber};
use crate::session::action::Action;

/// A result that stands was written after the readings that it needs.
///
/// A reading counts from the look at its instrument, or from when a value was first written for it, so
/// that a correction makes no result too early. Broken by a flow written before its second leg was
/// looked at, by a line or an acceptance written before the last point, and by a volume written before
/// the run; kept by writing all of it at the desk.
pub static WORKED_OUT_AFTER: ProcedureRule = ProcedureRule {
    id: "worked-out-after",
    title: "Work out each result from readings that you have taken",
    why: "A result that is written before its readings was not worked out from them.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Sums,
    repair: Repair::None,
    test: |evidence| {
        let begun = Begun::of(evidence);
        let results = results(evidence);
        if results.is_empty() {
            return Outcome::NotReached;
        }
        Outcome::reached(results.into_iter().filter_map(|(result, needs)| {
            let written = evidence.written(result)?;
            let early = needs
                .into_iter()
                .find(|need| begun.index(*need).is_some_and(|index| index > written.index))?;
            let text = format!("{} was written before {}", result.label(), early.words());
            Some(Slip::at(written.tick(), text))
        }))
    },
};

/// What a result needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Need {
    /// A reading.
    Reading(Field),
    /// The run.
    Run,
}

impl Need {
    /// What came too late.
    fn words(self) -> String {
        match self {
            Self::Reading(field) => format!("{} was read", field.label()),
            Self::Run => "the run".to_owned(),
        }
    }
}

/// Since when there is something to work with.
struct Begun {
    /// The moment at which each field was first written.
    first: BTreeMap<Field, usize>,
    /// The moment of the look at which the value that stands was read.
    read: BTreeMap<Field, usize>,
    /// The moment at which the site was left for the run.
    run: Option<usize>,
}

impl Begun {
    fn of(evidence: &Evidence<'_>) -> Self {
        let mut first = BTreeMap::new();
        for at in evidence.indexed_events() {
            if let Action::Write { field, text } = &at.event.action
                && !text.trim().is_empty()
            {
                first.entry(*field).or_insert(at.index);
            }
        }
        let all = evidence.readings().all();
        let seen = |reading: &Reading| reading.look.unwrap_or(reading.read);
        let read = all.iter().map(|reading| (reading.field, seen(reading))).collect();
        Self { first, read, run: evidence.leaving().map(|at| at.index) }
    }

    /// The moment since which a need is met; nothing if it never is.
    fn index(&self, need: Need) -> Option<usize> {
        match need {
            Need::Reading(field) => {
                let first = self.first.get(&field).copied().unwrap_or(usize::MAX);
                self.read.get(&field).map(|read| first.min(*read))
            }
            Need::Run => self.run,
        }
    }
}

/// Every kind of result, with what it needs.
fn results(evidence: &Evidence<'_>) -> Vec<(Field, Vec<Need>)> {
    let mut results = Vec::new();
    let (mut points, mut checks) = (Vec::new(), Vec::new());
    for point in PointNumber::all() {
        // On a display the whole difference is read; from two legs it is worked out.
        let legs = match evidence.is_electronic() {
            true => vec![Need::Reading(Field::DeltaH(point))],
            false => [Field::Up(point), Field::Down(point)].map(Need::Reading).to_vec(),
        };
        let chart = Need::Reading(Field::Chart(point));
        if !evidence.is_electronic() {
            results.push((Field::DeltaH(point), legs.clone()));
        }
        results.push((Field::PointFlow(point), legs.clone()));
        results.push((Field::ChartTerm(point), vec![chart]));
        points.extend(legs.into_iter().chain([chart]));
        let check = [Field::CheckUp(point), Field::CheckDown(point), Field::CheckChart(point)];
        checks.extend(check.map(Need::Reading));
    }
    let line = [Field::Slope, Field::Intercept, Field::Correlation];
    results.extend(line.map(|field| (field, points.clone())));
    // A refusal needs no more than its reason.
    if evidence.verdict() == TraineeDecision::Accepted {
        results.push((Field::Decision, points));
    }
    let check = [Field::CheckFlow, Field::CheckLineFlow, Field::CheckDifference];
    results.extend(check.map(|field| (field, checks.clone())));
    if evidence.book.decision(Field::CheckOutcome) == Some(Decision::CheckPassed) {
        results.push((Field::CheckOutcome, checks.clone()));
    }
    results.extend(Field::HISTORY.map(|field| (field, checks.clone())));
    let start = Need::Reading(Field::StartChart);
    let [second, third] = [Field::SecondFilterChart, Field::ThirdFilterChart].map(Need::Reading);
    results.push((Field::SecondFilterChange, vec![start, second]));
    results.push((Field::ThirdFilterChange, vec![start, third]));
    results.push((Field::FiltersHeld, vec![start, second, third]));
    let run = [Field::RunMinutes, Field::MeanChart, Field::Volume, Field::Validity];
    results.extend(run.map(|field| (field, vec![Need::Run])));
    results.retain(|(field, _)| evidence.book.text(*field).is_some());
    results
}
