//! The trainee's own judgement beside what is true.

use serde::Serialize;

use super::Marks;
use crate::procedure::{WorkPhase, rule};
use crate::session::checklist_item::ChecklistItem;
use crate::session::own_judgement::{OwnJudgement, Sureness, VolumeOff};

/// The trainee's own judgement beside what is true.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OwnJudged {
    /// What was said of the volume, if anything.
    pub volume: Option<ClaimJudged>,
    /// What the trainee would do again.
    pub again: Vec<ChecklistItem>,
    /// Phases in which a rule was broken, and of which the trainee would do something again.
    pub known: Vec<WorkPhase>,
    /// Phases in which a rule was broken, and of which the trainee would do nothing again.
    pub unknown: Vec<WorkPhase>,
    /// What the trainee would do again although no rule was broken in its phase.
    pub needless: Vec<ChecklistItem>,
}

/// What was said of the volume beside what is true.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ClaimJudged {
    /// How far off it was said to be.
    pub off: VolumeOff,
    /// How sure the trainee was.
    pub sure_pct: Sureness,
    /// How far off it is, percent; none where there is no volume, because there is no line.
    pub error_pct: Option<f64>,
    /// Whether it is as good as was said; none likewise.
    pub came_true: Option<bool>,
}

/// Compares a judgement with the marks of its session.
pub fn judged(own: &OwnJudgement, marks: &Marks) -> OwnJudged {
    let error_pct = volume_error_pct(marks);
    let volume = own.volume.map(|claim| ClaimJudged {
        off: claim.off,
        sure_pct: claim.sure_pct,
        error_pct,
        came_true: error_pct.map(|error| claim.off.holds(error)),
    });
    let broken = marks.findings.iter().filter_map(|found| Some(rule(found.rule)?.phase));
    let mut phases: Vec<WorkPhase> = broken.collect();
    phases.sort_unstable();
    phases.dedup();
    let is_named = |phase: &WorkPhase| own.again.iter().any(|item| phase_of(*item) == Some(*phase));
    let needless = own.again.iter().copied();
    let needless =
        needless.filter(|item| phase_of(*item).is_some_and(|phase| !phases.contains(&phase)));
    OwnJudged {
        volume,
        again: own.again.iter().copied().collect(),
        needless: needless.collect(),
        known: phases.iter().copied().filter(|phase| is_named(phase)).collect(),
        unknown: phases.iter().copied().filter(|phase| !is_named(phase)).collect(),
    }
}

/// The error of the volume, percent: of the sample if one was taken, otherwise of any run at the ordered
/// flow by the trainee's line.
pub fn volume_error_pct(marks: &Marks) -> Option<f64> {
    let sample = marks.run.as_ref().and_then(|run| run.error_pct);
    sample.or(marks.set_point_flow_error_pct)
}

/// The phase of the rules to which an item of the checklist belongs; none for reading through the book,
/// which is no phase of its own.
pub const fn phase_of(item: ChecklistItem) -> Option<WorkPhase> {
    Some(match item {
        ChecklistItem::Papers | ChecklistItem::Conditions => WorkPhase::Arrive,
        ChecklistItem::Mounting => WorkPhase::Strip,
        ChecklistItem::Manometer => WorkPhase::Manometer,
        ChecklistItem::WarmUp | ChecklistItem::LeakCheck => WorkPhase::Power,
        ChecklistItem::Points => WorkPhase::Points,
        ChecklistItem::Calculations => WorkPhase::Sums,
        ChecklistItem::SetPoint => WorkPhase::SetPoint,
        ChecklistItem::FlowCheck | ChecklistItem::ControlChart => WorkPhase::Check,
        ChecklistItem::Restoring => WorkPhase::Restore,
        ChecklistItem::SettingUp | ChecklistItem::NextRun => WorkPhase::Load,
        ChecklistItem::Recovering => WorkPhase::Recover,
        ChecklistItem::Volume => WorkPhase::Volume,
        ChecklistItem::FieldBook => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::own_judgement::VolumeClaim;
    use crate::trial::rehearsal;

    const FIRST: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    fn claim(off: VolumeOff) -> OwnJudgement {
        let volume = Some(VolumeClaim { off, sure_pct: Sureness::ALL[3] });
        OwnJudgement { volume, again: [ChecklistItem::Points, ChecklistItem::Papers].into() }
    }

    fn marks_of(operator: &str) -> Marks {
        rehearsal(FIRST, operator, 1).expect("a session").marks.expect("it has marks")
    }

    #[test]
    fn careful_work_is_as_good_as_said_and_one_leg_is_not() {
        let careful = judged(&claim(VolumeOff::Within2), &marks_of("careful"));
        assert_eq!(careful.volume.expect("a claim").came_true, Some(true), "{careful:?}");
        let leg = judged(&claim(VolumeOff::Within10), &marks_of("one-leg"));
        assert_eq!(leg.volume.expect("a claim").came_true, Some(false), "{leg:?}");
        let leg = judged(&claim(VolumeOff::Worse), &marks_of("one-leg"));
        assert_eq!(leg.volume.expect("a claim").came_true, Some(true), "{leg:?}");
    }

    #[test]
    fn what_would_be_done_again_is_compared_with_where_rules_were_broken() {
        let marks = marks_of("never-zeroes");
        let judged = judged(&claim(VolumeOff::Within5), &marks);
        assert!(judged.unknown.contains(&WorkPhase::Manometer), "{judged:?}");
        assert!(judged.needless.contains(&ChecklistItem::Papers), "{judged:?}");
        let own = OwnJudgement { volume: None, again: [ChecklistItem::Manometer].into() };
        let known = super::judged(&own, &marks);
        assert!(known.known.contains(&WorkPhase::Manometer) && known.needless.is_empty());
    }

    #[test]
    fn every_phase_of_the_rules_has_an_item_to_be_named_by() {
        for rule in crate::procedure::RULES {
            let named =
                ChecklistItem::ALL.into_iter().any(|item| phase_of(item) == Some(rule.phase));
            assert!(named, "{:?} of {}", rule.phase, rule.id);
        }
    }
}
