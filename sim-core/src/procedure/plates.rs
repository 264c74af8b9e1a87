//! Phase E with a calibrator that has fixed plates: each plate is proved tight before it is read.

use super::evidence::{At, Evidence};
use super::outcome::Outcome;
use super::power::{listened, mounted};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use super::strip::TIGHT_MM2;
use crate::session::action::Action;

/// After every change of a plate the joints are proved tight again, before the first reading with the
/// new plate.
///
/// What counts as a leak check is the same as for the first one, which is judged by a rule of its own as
/// long as the plate was put in before the calibrator was mounted. It decides where the joints did leak
/// at the reading. Broken by changing the plate and reading on; kept by covering the openings for ten
/// seconds and listening, once for each plate.
pub static PLATE_LEAK_CHECK: ProcedureRule = ProcedureRule {
    id: "plate-leak-check",
    title: "Check for leaks again after every change of a plate",
    why: "A change of the plate opens a joint and moves the others; only the check shows whether they \
          are tight again.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.2.5"),
    phase: WorkPhase::Points,
    repair: Repair::CloseLeak,
    test: |evidence| {
        Outcome::over(first_with_each_plate(evidence), |(change, first)| {
            if listened(evidence, change.index, first) {
                return None;
            }
            let Action::PutInPlate { plate } = change.event.action else { return None };
            let text = format!("plate with {} holes read without a leak check", plate.holes());
            let slip = Slip::at(first.tick(), text);
            Some(if first.facts().leak_mm2 < TIGHT_MM2 { slip.mild() } else { slip })
        })
    },
};

/// Each change of the plate on the mounted calibrator, with the first reading after it.
fn first_with_each_plate<'a>(evidence: &Evidence<'a>) -> Vec<(At<'a>, At<'a>)> {
    let mut firsts: Vec<At<'a>> = evidence.points().into_iter().map(|point| point.first).collect();
    firsts.sort_by_key(|at| at.index);
    let mut changes: Vec<(At<'a>, At<'a>)> = Vec::new();
    for first in firsts {
        let put = evidence
            .indexed_events()
            .take(first.index)
            .rfind(|at| matches!(at.event.action, Action::PutInPlate { .. }));
        let Some(change) = put.filter(|put| put.index > mounted(evidence, first)) else { continue };
        if changes.last().is_none_or(|(before, _)| before.index != change.index) {
            changes.push((change, first));
        }
    }
    changes
}
