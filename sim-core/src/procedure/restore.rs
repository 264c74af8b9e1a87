//! Phase F, restoring: the sampler as it was, the instruments in their case.

use super::evidence::{Evidence, loose_nuts, place};
use super::next_run::was_to_be_armed;
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::session::action::Action;
use crate::session::ground_truth::GroundTruth;

/// Whether there was time to restore: not if a thunderstorm drove the trainee off.
fn was_time(evidence: &Evidence<'_>) -> bool {
    !evidence.fled_from_thunder()
}

/// The outcome at the end of a rule that applies once something was done with what it is about.
fn at_end(evidence: &Evidence<'_>, touched: bool, wrong: Option<&str>) -> Outcome {
    match touched && was_time(evidence) {
        true => Outcome::at(evidence.end_tick, wrong.map(str::to_owned)),
        false => Outcome::NotReached,
    }
}

/// Whether any of these actions was taken.
fn ever(evidence: &Evidence<'_>, wanted: impl Fn(&Action) -> bool) -> bool {
    evidence.events.iter().any(|moment| wanted(&moment.action))
}

/// Whether something was true before or after any action.
fn ever_true(evidence: &Evidence<'_>, wanted: impl Fn(&GroundTruth) -> bool) -> bool {
    evidence.events.iter().any(|moment| wanted(&moment.before) || wanted(&moment.after))
}

/// Whether a part was ever taken or put somewhere.
fn moved(evidence: &Evidence<'_>, part: RigPart) -> bool {
    evidence.events.iter().any(|moment| place(&moment.before, part) != place(&moment.after, part))
}

/// The blower is plugged back into the flow controller at the end, and the sampler's cord into the
/// mains.
///
/// Broken by leaving the blower's plug in the switched mains outlet, or the cord unplugged; kept by
/// plugging both back.
pub static PLUG_BACK: ProcedureRule = ProcedureRule {
    id: "plug-on-controller",
    title: "Plug the blower back into the controller, and the cord into the mains",
    why: "On mains the next run has neither flow control nor a timer; without the cord it never begins.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let wrong = match evidence.end.blower_plug {
            BlowerPlug::Controller => {
                // Where a run is ordered, other rules ask for its cord.
                let ordered = evidence.setup.work_order.run.is_some();
                let cord_out = !evidence.end.sampler_cord_in && !ordered;
                cord_out.then_some("the sampler's cord was left unplugged")
            }
            BlowerPlug::LineOutlet => {
                Some("the blower was left plugged into the switched mains outlet")
            }
            BlowerPlug::Loose => Some("the blower was left unplugged"),
        };
        let unplugged = ever(evidence, |action| {
            matches!(action, Action::PlugBlower { .. } | Action::UnplugSampler)
        });
        at_end(evidence, unplugged || wrong.is_some(), wrong)
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
        let ran = ever_true(evidence, |facts| facts.powered);
        let wrong = evidence.end.powered.then_some("the blower was still running at the end");
        at_end(evidence, ran || wrong.is_some(), wrong)
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
        if was_to_be_armed(evidence) {
            return Outcome::NotReached;
        }
        let uncapped = ever_true(evidence, |facts| !facts.capped) || !evidence.end.capped;
        let wrong = (!evidence.end.capped).then_some("the pen was left without its cap");
        at_end(evidence, uncapped, wrong)
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
        let lifted = evidence.indexed_events().find(|at| {
            at.facts().tube_on_tap
                && matches!(
                    at.event.action,
                    Action::Take { part: RigPart::Calibrator | RigPart::Manometer }
                )
        });
        if let Some(at) = lifted {
            let text = "lifted with the tube still on the pressure tap";
            return Outcome::broken(Slip::at(at.tick(), text));
        }
        let connected = ever_true(evidence, |facts| facts.tube_on_tap);
        let wrong = evidence.end.tube_on_tap.then_some("the tube was left on the pressure tap");
        at_end(evidence, connected || wrong.is_some(), wrong)
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
        let lifted = evidence.indexed_events().filter(|at| {
            matches!(at.event.action, Action::Take { part: RigPart::Manometer })
                && place(at.facts(), RigPart::Manometer) == PartPlace::Hook
        });
        Outcome::over(lifted, |at| {
            let [left, right] = at.facts().valve_quarters;
            let text = format!(
                "manometer lifted with the left valve {left} and the right valve {right} quarter \
                 turns open"
            );
            (left.max(right) > 0).then(|| Slip::at(at.tick(), text))
        })
        .first_only()
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
        let mounted = moved(evidence, RigPart::Adapter) || moved(evidence, RigPart::Calibrator);
        at_end(evidence, mounted || wrong.is_some(), wrong)
    },
};

/// The hold-down frame is back on the holder at the end, and held by its nuts.
///
/// Where a run is ordered, other rules ask for its nuts. Broken by a bare holder, or a nut that turns
/// freely; kept by the frame on it with four nuts that are hand-tight.
pub static HOLDER_CLOSED: ProcedureRule = ProcedureRule {
    id: "holder-closed",
    title: "Hold-down frame back on the holder, and held by its nuts",
    why: "A gasket that lies open hardens and collects grit, and a loose frame lets air past the filter.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let bare = place(evidence.end, RigPart::Frame) != PartPlace::Holder;
        let ordered = evidence.setup.work_order.run.is_some();
        let wrong = match (bare, loose_nuts(evidence.end)) {
            (true, _) => Some("the hold-down frame was not put back on the holder"),
            (false, 1..) if !ordered => Some("a nut of the hold-down frame was left loose"),
            (false, _) => None,
        };
        at_end(evidence, moved(evidence, RigPart::Frame) || bare, wrong)
    },
};

/// The filter that lay on the holder is back under the frame at the end.
///
/// Does not apply once a run was made: its filter goes to the laboratory. Broken by the frame alone;
/// kept by a filter under it.
pub static FILTER_BACK: ProcedureRule = ProcedureRule {
    id: "filter-back",
    title: "Filter back under the hold-down frame",
    why: "Without a filter, whatever the wind brings falls into the blower, and the next run is no sample.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Restore,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        let gone = place(evidence.end, RigPart::Filter) != PartPlace::Holder;
        let wrong = gone.then_some("the filter was not put back under the hold-down frame");
        let taken = moved(evidence, RigPart::Filter) && !evidence.run_was_made();
        at_end(evidence, taken, wrong)
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
        let opened = ever_true(evidence, |facts| facts.lid_open) || evidence.end.lid_open;
        at_end(evidence, opened, evidence.end.lid_open.then_some("the lid was left open"))
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
        let carried = RigPart::ALL.iter().any(|&part| moved(evidence, part));
        let text = format!("left behind: {}", left.join(", "));
        at_end(evidence, carried || !left.is_empty(), (!left.is_empty()).then_some(text.as_str()))
    },
};
