//! Phase F, restoring: the sampler as it was, the instruments in their case.

use super::evidence::{Evidence, place};
use super::next_run::was_to_be_armed;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::session::action::Action;

/// Whether there was time and reason to restore: not if a thunderstorm drove the trainee off, and not if
/// nothing was ever taken apart.
fn to_be_restored(evidence: &Evidence<'_>) -> bool {
    let touched = evidence.moments.iter().any(|moment| {
        matches!(
            moment.action,
            Action::Take { .. }
                | Action::Put { .. }
                | Action::PlugBlower { .. }
                | Action::UnplugSampler
        )
    });
    touched && !evidence.fled_from_thunder()
}

/// One slip at the end, if something is wrong.
fn at_end(evidence: &Evidence<'_>, wrong: Option<String>) -> Vec<Slip> {
    if !to_be_restored(evidence) {
        return Vec::new();
    }
    wrong.into_iter().map(|text| Slip::at(evidence.end_tick, text)).collect()
}

/// The blower is plugged back into the flow controller at the end.
///
/// Broken by leaving its plug in the switched mains outlet; kept by plugging it back.
pub static PLUG_BACK: ProcedureRule = ProcedureRule {
    id: "plug-on-controller",
    title: "Plug the blower back into the controller",
    why: "On mains the next run has neither flow control nor a timer.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let wrong = match evidence.end.blower_plug {
            BlowerPlug::Controller => None,
            BlowerPlug::LineOutlet => {
                Some("the blower was left plugged into the switched mains outlet")
            }
            BlowerPlug::Loose => Some("the blower was left unplugged"),
        };
        at_end(evidence, wrong.map(str::to_owned))
    },
};

/// The blower is off at the end.
///
/// Broken by signing with the blower running; kept by switching off.
pub static BLOWER_OFF: ProcedureRule = ProcedureRule {
    id: "blower-off",
    title: "Blower off",
    why: "It draws air through an open holder and wears out its brushes for nothing.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let wrong =
            evidence.end.powered.then(|| "the blower was still running at the end".to_owned());
        at_end(evidence, wrong)
    },
};

/// The pen is capped at the end.
///
/// Does not apply if the pen is to record the next run. Broken by leaving it open; kept by its cap.
pub static PEN_CAPPED: ProcedureRule = ProcedureRule {
    id: "pen-capped",
    title: "Cap on the pen",
    why: "An open pen dries out before the next run and leaves no trace.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::None,
    test: |evidence| {
        let open = !evidence.end.capped && !was_to_be_armed(evidence);
        let wrong = open.then(|| "the pen was left without its cap".to_owned());
        at_end(evidence, wrong)
    },
};

/// The tube is off the pressure tap before the calibrator is lifted, and at the end.
///
/// Broken by lifting the calibrator with the tube on it; kept by pulling the tube off first.
pub static TUBE_OFF: ProcedureRule = ProcedureRule {
    id: "tube-off",
    title: "Tube off the pressure tap before anything is lifted",
    why: "The tube can pull the manometer off its hook.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::None,
    test: |evidence| {
        let lifted = evidence.events().find(|at| {
            at.facts().tube_on_tap
                && matches!(
                    at.moment.action,
                    Action::Take { part: RigPart::Calibrator | RigPart::Manometer }
                )
        });
        if let Some(at) = lifted {
            return vec![Slip::at(at.tick(), "lifted with the tube still on the pressure tap")];
        }
        let wrong =
            evidence.end.tube_on_tap.then(|| "the tube was left on the pressure tap".to_owned());
        at_end(evidence, wrong)
    },
};

/// Both valves are shut when the manometer is carried from its hook.
///
/// Broken by lifting it with open valves; kept by shutting both first.
pub static VALVES_SHUT: ProcedureRule = ProcedureRule {
    id: "valves-shut",
    title: "Shut both valves before carrying the manometer",
    why: "Otherwise water runs out on the way, and the next reading starts with a bubble.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::None,
    test: |evidence| {
        evidence
            .events()
            .filter(|at| {
                matches!(at.moment.action, Action::Take { part: RigPart::Manometer })
                    && place(at.facts(), RigPart::Manometer) == PartPlace::Hook
                    && at.facts().valve_quarters.iter().any(|&quarters| quarters > 0)
            })
            .take(1)
            .map(|at| {
                let [left, right] = at.facts().valve_quarters;
                let text = format!(
                    "manometer lifted with the left valve {left} and the right valve {right} \
                     quarter turns open"
                );
                Slip::at(at.tick(), text)
            })
            .collect()
    },
};

/// Calibrator and adapter plate are off the holder at the end.
///
/// Broken by signing with the plate on; kept by both in the case.
pub static CALIBRATOR_OFF: ProcedureRule = ProcedureRule {
    id: "calibrator-off",
    title: "Calibrator and adapter plate off the holder",
    why: "The next sample would be drawn through the openings of the calibrator.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let on = |part| matches!(place(evidence.end, part), PartPlace::Holder | PartPlace::Adapter);
        let wrong = match (on(RigPart::Adapter), on(RigPart::Calibrator)) {
            (false, false) => None,
            (_, true) => Some("the calibrator was left on the holder"),
            (true, false) => Some("the adapter plate was left on the holder"),
        };
        at_end(evidence, wrong.map(str::to_owned))
    },
};

/// The hold-down frame is back on the holder at the end.
///
/// Broken by a bare holder; kept by the frame on it, with or without a filter.
pub static HOLDER_CLOSED: ProcedureRule = ProcedureRule {
    id: "holder-closed",
    title: "Hold-down frame back on the holder",
    why: "A gasket that lies open hardens and collects grit.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let bare = place(evidence.end, RigPart::Frame) != PartPlace::Holder;
        let text = "the hold-down frame was not put back on the holder";
        at_end(evidence, bare.then(|| text.to_owned()))
    },
};

/// The lid is closed at the end.
///
/// Broken by leaving it open; kept by closing it.
pub static LID_CLOSED: ProcedureRule = ProcedureRule {
    id: "lid-closed",
    title: "Lid closed",
    why: "Rain on the holder is rain on the next filter.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_end(evidence, evidence.end.lid_open.then(|| "the lid was left open".to_owned()))
    },
};

/// Nothing lies on the roof, hangs on the hook or is in the hand at the end.
///
/// Broken by a filter on the ground; kept by everything in its case.
pub static NOTHING_LEFT: ProcedureRule = ProcedureRule {
    id: "nothing-left",
    title: "Nothing left behind",
    why: "Anything that lies on a roof can blow off it.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::None,
    test: |evidence| {
        let left: Vec<&str> = RigPart::ALL
            .iter()
            .filter(|&&part| {
                matches!(
                    place(evidence.end, part),
                    PartPlace::Ground | PartPlace::Hand | PartPlace::Hook
                )
            })
            .map(|part| part.words())
            .collect();
        let wrong = (!left.is_empty()).then(|| format!("left behind: {}", left.join(", ")));
        at_end(evidence, wrong)
    },
};
