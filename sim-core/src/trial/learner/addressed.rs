//! Which habit is addressed by which drills, and by lessons on which phases of the work.

use crate::drill::DrillKind;
use crate::scenario::Scenario;
use crate::session::checklist_item::ChecklistItem;

/// What addresses one habit.
#[derive(Debug, Clone, Copy)]
pub struct AddressedHabit {
    /// Its name among those of scripted operators.
    pub habit: &'static str,
    /// Drills that address it.
    pub drills: &'static [DrillKind],
    /// Phases: a lesson to which one of them belongs addresses it.
    pub phases: &'static [ChecklistItem],
}

const fn row(
    habit: &'static str,
    drills: &'static [DrillKind],
    phases: &'static [ChecklistItem],
) -> AddressedHabit {
    AddressedHabit { habit, drills, phases }
}

use ChecklistItem as On;
use DrillKind as By;

/// Every habit of scripted operators, with what addresses it.
pub static ADDRESSED: [AddressedHabit; 35] = [
    row("hurried", &[By::WaterAtRest, By::PenAtRest], &[On::Points]),
    row("one-leg", &[By::Difference], &[On::Points]),
    row("skips-warm-up", &[], &[On::WarmUp]),
    row("on-controller", &[], &[On::WarmUp]),
    row("never-zeroes", &[], &[On::Manometer]),
    row("trusts-certificates", &[By::Certificate], &[On::Papers]),
    row("sees-faults", &[By::Station], &[]),
    row("slant-reader", &[By::Leg, By::Pen], &[]),
    row("trusts-barometer", &[By::Barometer], &[On::Conditions]),
    row("skips-leak-check", &[], &[On::LeakCheck]),
    row("skips-hold-test", &[], &[On::Manometer]),
    row("accepts-any-line", &[By::Line], &[On::Calculations]),
    row("skips-tube-check", &[By::Station], &[On::Manometer]),
    row("doubles-a-leg", &[By::Difference], &[On::Points]),
    row("ignores-thermometer", &[By::Thermometer], &[On::Conditions]),
    row("first-pair", &[By::Certificate], &[On::Papers]),
    row("trusts-copies", &[By::Certificate], &[On::Papers]),
    row("listens-once", &[], &[On::Points]),
    row("reaches-in", &[], &[On::Mounting, On::Restoring]),
    row("skips-pen-zero", &[], &[On::WarmUp]),
    row("ignores-blower", &[], &[On::WarmUp, On::Points]),
    row("never-looks-back", &[], &[On::Points, On::Restoring]),
    row("ignores-thunder", &[], &[On::Papers]),
    row("passes-any-check", &[], &[On::FlowCheck, On::SettingUp]),
    row("square-root-always", &[By::PointSums], &[On::Calculations]),
    row("design-flow-as-it-is", &[By::PointSums], &[On::SetPoint]),
    row("leaves-next-run", &[], &[On::NextRun, On::Recovering]),
    row("checks-as-calibrated", &[], &[On::FlowCheck]),
    row("looks-at-the-day", &[By::Line], &[On::ControlChart]),
    row("leaves-averages-out", &[By::PointSums], &[On::Calculations]),
    row("averages-regardless", &[By::PointSums], &[On::Calculations]),
    row("leaves-valves-open", &[], &[On::LeakCheck]),
    row("leaves-water", &[], &[On::Manometer]),
    row("forgets-density", &[By::Difference], &[On::Manometer]),
    row("leaves-screw", &[], &[On::FlowCheck, On::SettingUp]),
];

impl AddressedHabit {
    /// Whether a drill addresses it.
    pub fn by_drill(&self, kind: DrillKind) -> bool {
        self.drills.contains(&kind)
    }

    /// Whether a lesson on these phases addresses it.
    pub fn by_lesson(&self, phases: &[ChecklistItem]) -> bool {
        self.phases.iter().any(|phase| phases.contains(phase))
    }
}

/// The phases that a scenario teaches as a lesson; none of a whole job, which is no lesson.
pub fn taught_phases(scenario: &Scenario) -> Vec<ChecklistItem> {
    let Some(phases) = scenario.terms.phases else { return Vec::new() };
    let is_taught = |item: &ChecklistItem| item.phase().is_some_and(|phase| phases.has(phase));
    ChecklistItem::ALL.into_iter().filter(is_taught).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::habits::NAMES;

    #[test]
    fn every_habit_is_addressed_by_something_and_stands_here_once() {
        for (name, _) in NAMES.iter().filter(|(name, _)| *name != "careful") {
            let rows: Vec<_> = ADDRESSED.iter().filter(|row| row.habit == *name).collect();
            assert_eq!(rows.len(), 1, "{name}");
            let row = rows.first().expect("a row");
            assert!(!row.drills.is_empty() || !row.phases.is_empty(), "{name}");
        }
        assert_eq!(ADDRESSED.len() + 1, NAMES.len(), "a row for a habit that nobody has");
    }

    #[test]
    fn every_phase_of_the_work_addresses_a_habit() {
        // What is worked out and written at the end is judged by the marks, and no operator has a habit of it.
        let without = [On::FieldBook, On::Volume];
        for phase in ChecklistItem::ALL {
            let some = ADDRESSED.iter().any(|row| row.phases.contains(&phase));
            assert_eq!(some, !without.contains(&phase), "{phase:?}");
        }
    }
}
