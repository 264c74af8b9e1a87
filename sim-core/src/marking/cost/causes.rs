//! What can have a cost: rules that were broken and faults that were in force, in the order of the
//! work.

use super::context::CostContext;
use super::sample::{SampleMethod, has_sample};
use super::undo::{UndoMethod, repair_of, way, without};
use crate::fault::{AllowedFor, Fault, Remedy};
use crate::field_book::Field;
use crate::marking::Marks;
use crate::marking::judgement::FaultVerdict;
use crate::marking::remedied::remedied;
use crate::procedure::{Repair, WorkPhase};
use crate::session::action::FaultPlace;

/// A broken rule or a fault.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Cause {
    /// Id of the rule, or name of the fault.
    pub id: &'static str,
    /// The fault, if it is one.
    pub fault: Option<Fault>,
    /// The rule's title, or the fault in words.
    pub title: String,
    /// What undoes the slip; none for a fault.
    pub repair: Option<Repair>,
    /// How it is undone.
    pub way: UndoMethod,
    /// A note about it.
    pub note: String,
    phase: WorkPhase,
}

impl Cause {
    /// Whether this also covers another cause, so that both are counted once.
    pub fn stands_for(&self, other: &Self) -> bool {
        match (&self.repair, &other.repair, &other.fault) {
            (Some(mine), Some(others), _) => mine == others,
            (Some(mine), None, Some(fault)) => repair_of(fault) == Some(*mine),
            _ => self.id == other.id && self.fault == other.fault,
        }
    }
}

/// Every broken rule that has a repair, once, and every fault that was in force.
pub(super) fn causes(context: &CostContext<'_>, marks: &Marks) -> Vec<Cause> {
    let mut causes: Vec<Cause> = Vec::new();
    for finding in &marks.findings {
        let known = causes.iter().any(|cause| cause.id == finding.rule);
        if known || finding.repair == Repair::None {
            continue;
        }
        causes.push(Cause {
            id: finding.rule,
            fault: None,
            title: finding.title.to_owned(),
            repair: Some(finding.repair),
            way: match finding.repair {
                Repair::RedoRunSums | Repair::RestoreSampler
                    if of_sample(finding.phase, context) =>
                {
                    UndoMethod::Sample(SampleMethod::Rule(finding.rule))
                }
                repair => way(repair, context),
            },
            note: String::new(),
            phase: finding.phase,
        });
    }
    for judged in &marks.faults {
        let Some(fault) = judged.fault else { continue };
        let (way, note) = if fault.belongs_to_run() {
            let way = match has_sample(context.evidence) {
                true => UndoMethod::Sample(SampleMethod::Without(fault)),
                false => UndoMethod::NoVolume("no run was made, so it had no effect"),
            };
            (way, "")
        } else if got_round(context, &fault) {
            (UndoMethod::NoVolume("corrected or allowed for, so it does not affect the volume"), "")
        } else {
            (UndoMethod::Replay(Box::new(without(&fault, context))), told(judged.verdict))
        };
        causes.push(Cause {
            id: fault.name(),
            fault: Some(fault),
            title: judged.what.clone(),
            repair: None,
            way,
            note: note.to_owned(),
            phase: phase_of(judged.place),
        });
    }
    causes.sort_by_key(|cause| cause.phase);
    causes
}

/// Whether a slip in this phase concerns a sample that was taken.
fn of_sample(phase: WorkPhase, context: &CostContext<'_>) -> bool {
    phase >= WorkPhase::Load && has_sample(context.evidence)
}

/// What became of a fault, for its entry among the costs.
const fn told(verdict: FaultVerdict) -> &'static str {
    match verdict {
        FaultVerdict::Found => "found, with a right response, but it is still in the readings",
        FaultVerdict::CauseOpen | FaultVerdict::WrongCause => {
            "found, but not its cause, and it is still in the readings"
        }
        FaultVerdict::NeverShowed => "not found: nobody on the roof could have told it",
        FaultVerdict::Guessed => "reported before anything had shown it",
        FaultVerdict::WrongResponse => "found, but the response did not help",
        FaultVerdict::OnlySaid => "found, but what was reported as done was not done",
        _ => "not found",
    }
}

/// Whether the readings are free of a fault, because it was corrected or allowed for in what was
/// written. What was done counts here, not what was reported.
fn got_round(context: &CostContext<'_>, fault: &Fault) -> bool {
    let evidence = context.evidence;
    let nearer_truth = |field| {
        context.reading(field).is_some_and(|reading| {
            let moment = evidence.events.get(reading.read);
            moment.is_some_and(|moment| {
                let truth = reading.instrument.undisturbed(&moment.before);
                (reading.written - truth).abs() < (reading.written - reading.seen).abs()
            })
        })
    };
    if fault.sheet().remedy == Remedy::ClearTube {
        // Straightening, pushing home or draining after the points is too late.
        return false;
    }
    let allowed_for = || match fault.sheet().allowed_for {
        AllowedFor::Unknown => false,
        AllowedFor::InPressure => nearer_truth(Field::Pressure),
        AllowedFor::InChartReadings => {
            let charts = context.points.iter().filter(|p| nearer_truth(Field::Chart(p.number)));
            2 * charts.count() > context.points.len()
        }
    };
    remedied(evidence, fault) || allowed_for()
}

/// The phase of the work in which a fault at this place matters.
const fn phase_of(place: FaultPlace) -> WorkPhase {
    match place {
        FaultPlace::Certificate
        | FaultPlace::Barometer
        | FaultPlace::Thermometer
        | FaultPlace::Weather => WorkPhase::Arrive,
        FaultPlace::Mounting | FaultPlace::Filter | FaultPlace::Calibrator => WorkPhase::Strip,
        FaultPlace::Manometer | FaultPlace::Tube => WorkPhase::Manometer,
        FaultPlace::Blower | FaultPlace::FlowController => WorkPhase::Power,
        FaultPlace::Recorder | FaultPlace::Timer => WorkPhase::Points,
    }
}
