//! The rules on lessons.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;
use crate::scenario::flow_check::CheckedLine;
use crate::scenario::lesson::{LessonHelp, LessonPhase};

/// The phases of a lesson are in order and ordered, and its help is not switched off.
pub(super) const PHASES: ScenarioRule = ScenarioRule {
    id: "lesson-possible",
    about: "A lesson begins no later than it ends, with phases that its work order asks for, and its \
            help does not contradict `help`. Its rehearsal, not this check, shows that the careful \
            operator reaches its beginning.",
    find: phases,
};

fn phases(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(phases) = scenario.terms.phases else { return };
    let ordered: Vec<LessonPhase> =
        LessonPhase::ALL.into_iter().filter(|phase| is_ordered(*phase, scenario)).collect();
    let names: Vec<String> = ordered.iter().map(|phase| format!("{phase:?}")).collect();
    let names = names.join(", ");
    for (entry, phase) in [("from", phases.from), ("to", phases.to)] {
        if !ordered.contains(&phase) {
            findings.add(
                format!("terms.phases.{entry}"),
                format!("the work order asks for nothing in the phase {phase:?}"),
                format!("take one of {names}, or order what belongs to {phase:?}"),
            );
        }
    }
    if phases.from > phases.to {
        findings.add(
            "terms.phases.to",
            format!(
                "the lesson ends with {:?}, before it begins with {:?}",
                phases.to, phases.from
            ),
            format!("write a phase that does not come before {:?}: {names}", phases.from),
        );
    }
    if !scenario.terms.help && phases.help != LessonHelp::Silent {
        findings.add(
            "terms.phases",
            format!("the lesson's help is {:?}, but `help: false` allows none", phases.help),
            "leave `help` out, or write `help: Silent` in the lesson",
        );
    }
}

/// Whether a scenario orders a phase.
fn is_ordered(phase: LessonPhase, scenario: &Scenario) -> bool {
    let check = scenario.flow_check;
    let check_alone = check.is_some_and(|check| check.is_whole_job());
    match phase {
        LessonPhase::Arrival
        | LessonPhase::Mounting
        | LessonPhase::Manometer
        | LessonPhase::Power
        | LessonPhase::Restoring => true,
        LessonPhase::Points | LessonPhase::Calculations => !check_alone,
        LessonPhase::FlowCheck => {
            check.is_some_and(|check| check_alone || check.line == CheckedLine::Own)
        }
        LessonPhase::SettingUp | LessonPhase::Recovery | LessonPhase::Volume => {
            scenario.run.is_some()
        }
    }
}
