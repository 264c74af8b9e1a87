//! Phase B, preparing: the sampler dead, the filter out, plate and calibrator on and tight.

use super::evidence::{At, Evidence, place};
use super::occasions::{at_beginnings, beginnings};
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::rig::flow::mounting::SNUG_QUARTERS;
use crate::rig::parts::{BlowerPlug, Nut, PartPlace, RigPart};
use crate::session::action::Action;
use crate::session::action_traits::Reach;
use crate::session::ground_truth::{EventRecord, GroundTruth};
use crate::time::Tick;

/// Fraction of 18 000 rpm below which the rotor counts as stopped (CHOSEN: no longer heard).
const STANDING: f64 = 0.05;
/// Largest difference between the nuts, quarter turns.
const EVEN_QUARTERS: u8 = 2;

/// No hands in the sampler while the blower has power or turns.
///
/// Examines each nut that is loosened, each washer and gasket, and each thing taken from, put on or
/// shifted on the holder. The lid may be opened and a nut tightened while it runs: neither brings a
/// hand near the fan. Broken by lifting the hold-down frame while the blower runs down; kept by
/// unplugging and waiting for silence.
pub static DEAD_BEFORE_HANDS: ProcedureRule = ProcedureRule {
    id: "dead-before-hands",
    title: "No power and no motion before hands go in",
    why: "Below the plate a fan turns at 18 000 rpm next to live brushes.",
    severity: Severity::Critical,
    decides: Decides::Never,
    // Read at second hand.
    source: RuleSource::read("29 CFR 1910.333(a)(1)"),
    phase: WorkPhase::Strip,
    repair: Repair::None,
    test: |evidence| {
        let turns = |facts: &GroundTruth| facts.powered || facts.speed_ratio > STANDING;
        Outcome::over(hands_in(evidence), |moment| {
            let facts = &moment.before;
            let rpm = facts.speed_ratio * 18_000.0;
            let power = if facts.powered { "with power on" } else { "running down" };
            let text = format!("hands went in with the rotor at {rpm:.0} rpm, {power}");
            turns(facts).then(|| Slip::at(moment.tick, text))
        })
        .first_only()
    },
};

/// Nothing can start the blower while hands are in.
///
/// The sampler's cord is unplugged, and the blower is not plugged into an outlet that is switched on.
/// Broken by relying on the timer's switch; kept by unplugging the cord.
pub static ISOLATED: ProcedureRule = ProcedureRule {
    id: "isolated",
    title: "Pull the plug: a switch is not enough",
    why: "The timer can start the blower at any time; only a plug that you keep with you prevents it.",
    severity: Severity::Safety,
    decides: Decides::Never,
    // Cord and plug equipment; read at second hand.
    source: RuleSource::read("29 CFR 1910.147(a)(2)(iii)(A)"),
    phase: WorkPhase::Strip,
    repair: Repair::None,
    test: |evidence| {
        // Hands beside a blower with power break the other rule.
        let dead = hands_in(evidence).filter(|moment| !moment.before.powered);
        Outcome::over(dead, |moment| {
            let text = if moment.before.sampler_cord_in {
                "hands went in with the sampler's cord plugged into the mains"
            } else {
                "hands went in with the blower plugged into a mains outlet that was switched on"
            };
            (!isolated(&moment.before)).then(|| Slip::at(moment.tick, text))
        })
        .first_only()
    },
};

/// Whether nothing can start: the cord unplugged, and no other supply to the blower.
fn isolated(facts: &GroundTruth) -> bool {
    let fed = facts.blower_plug == BlowerPlug::LineOutlet && facts.line_on;
    !facts.sampler_cord_in && !fed
}

/// Whether hands were ever in the sampler.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Hands {
    /// Hands were in it.
    WentIn,
    /// Hands never were in it.
    StayedOut,
}

/// Whether hands were ever in the sampler.
pub(crate) fn handled(evidence: &Evidence<'_>) -> Hands {
    // In a lesson, the hands that went in before it were not the trainee's.
    match hands_in(evidence).any(|moment| evidence.is_trainees(moment.tick)) {
        true => Hands::WentIn,
        false => Hands::StayedOut,
    }
}

/// Every moment at which hands were in the sampler.
fn hands_in<'a>(evidence: &Evidence<'a>) -> impl Iterator<Item = &'a EventRecord> + use<'a> {
    evidence.events.iter().filter(|moment| match moment.action.traits().reach {
        Reach::Outside => false,
        Reach::Inside => true,
        Reach::From(part) => on_holder(place(&moment.before, part)),
        Reach::Onto(place) => on_holder(place),
    })
}

/// Whether hands that are there are above the rotor.
const fn on_holder(place: PartPlace) -> bool {
    matches!(place, PartPlace::Holder | PartPlace::Adapter)
}

/// Both gaskets are in place when the readings begin, of the points as of a flow check.
///
/// Broken by a calibrator put on the plate without its gasket; kept by fitting the spare one.
pub static GASKETS: ProcedureRule = ProcedureRule {
    id: "gaskets-seated",
    title: "Both gaskets in place",
    why: "Air that leaks in beside the calibrator is sampled but not measured, and r does not show it.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Strip,
    repair: Repair::CloseLeak,
    test: |evidence| {
        at_beginnings(evidence, |facts, what| {
            let missing = match (facts.holder_gasket, facts.calibrator_gasket) {
                (true, true) => return None,
                (false, true) => "the holder gasket",
                (true, false) => "the gasket under the calibrator",
                (false, false) => "either gasket",
            };
            let leak = facts.leak_mm2;
            Some(format!("{what} read without {missing}; leak {leak:.0} mm²"))
        })
    },
};

/// All washers are above the plate when the readings begin.
///
/// Broken by one washer under the plate; kept by taking its nut off and moving it.
pub static WASHERS: ProcedureRule = ProcedureRule {
    id: "washers-above",
    title: "Washers above the plate",
    why: "A washer below the plate holds it off its gasket.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Strip,
    repair: Repair::CloseLeak,
    test: |evidence| {
        at_beginnings(evidence, |facts, what| {
            let below: Vec<String> = Nut::ALL
                .iter()
                .zip(facts.washer_above)
                .filter(|(_, above)| !above)
                .map(|(nut, _)| nut.number().to_string())
                .collect();
            let text = || {
                format!("{what} read with the washer of nut {} below the plate", below.join(", "))
            };
            (!below.is_empty()).then(text)
        })
    },
};

/// Four nuts snug and even when the readings begin.
///
/// At least 6 quarter turns each, and no more than 2 between the tightest and the loosest. Broken by
/// 6, 6, 6, 2; kept by 8, 7, 8, 6.
pub static NUTS_EVEN: ProcedureRule = ProcedureRule {
    id: "nuts-snug",
    title: "Four nuts snug and even",
    why: "A loose or uneven plate leaks: 20 mm² moves the intercept from 1.3 to 8.7 and leaves r at 0.999 95.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Strip,
    repair: Repair::CloseLeak,
    test: |evidence| {
        Outcome::over(beginnings(evidence), |start| {
            let facts = start.at.facts();
            let turns = facts.nut_turns;
            let least = turns.iter().copied().min().unwrap_or_default();
            let most = turns.iter().copied().max().unwrap_or_default();
            if least >= SNUG_QUARTERS && most - least <= EVEN_QUARTERS {
                return None;
            }
            let [one, two, three, four] = turns;
            let (what, leak) = (start.what, facts.leak_mm2);
            let text = format!(
                "nuts at {one}, {two}, {three}, {four} quarter turns when the {what} was read; \
                 leak {leak:.0} mm²"
            );
            let slip = Slip::at(start.at.tick(), text);
            Some(if leak < TIGHT_MM2 { slip.mild() } else { slip })
        })
    },
};

/// Leak area that changes no flow by as much as half a percent, mm2 (5 to 15 percent at 20 mm2).
pub(super) const TIGHT_MM2: f64 = 1.0;

/// Nuts are tightened at opposite corners in turn.
///
/// Examines the order in which the nuts first became snug after the plate was put on. Broken by 1, 2,
/// 3, 4; kept by 1, 3, 2, 4 or 2, 4, 3, 1.
pub static OPPOSITE_CORNERS: ProcedureRule = ProcedureRule {
    id: "opposite-corners",
    title: "Tighten opposite corners in turn",
    why: "Going round in a circle tilts the plate, and the last corner never seals.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Strip,
    repair: Repair::CloseLeak,
    test: |evidence| {
        let orders = beginnings(evidence).into_iter().filter_map(|start| {
            let order = tightened(evidence, start.at);
            (order.len() > 1).then_some((start.at, order))
        });
        Outcome::over(orders, |(first, order)| {
            let in_turn = order.chunks(2).all(|pair| match *pair {
                [(one, _), (other, _)] => one.opposite() == other,
                _ => true,
            });
            let last = order.last().map_or(first.tick(), |(_, tick)| *tick);
            let order: Vec<String> =
                order.iter().map(|(nut, _)| nut.number().to_string()).collect();
            let text = format!("nuts tightened in the order {}", order.join(", "));
            (!in_turn).then(|| Slip::at(last, text))
        })
    },
};

/// The order in which the nuts first became snug after the adapter plate was last put on before a
/// reading, and when.
fn tightened(evidence: &Evidence<'_>, first: At<'_>) -> Vec<(Nut, Tick)> {
    let mounted = evidence
        .indexed_events()
        .take(first.index)
        .filter(|at| place(&at.event.after, RigPart::Adapter) == PartPlace::Holder)
        .rfind(|at| place(at.facts(), RigPart::Adapter) != PartPlace::Holder)
        .map_or(0, |at| at.index);
    let mut order: Vec<(Nut, Tick)> = Vec::new();
    for at in evidence.indexed_events().take(first.index).skip(mounted) {
        let Action::TurnNut { nut, .. } = at.event.action else { continue };
        let turns = at.event.after.nut_turns.get(nut.index()).copied().unwrap_or_default();
        if turns >= SNUG_QUARTERS && order.iter().all(|(known, _)| *known != nut) {
            order.push((nut, at.tick()));
        }
    }
    order
}

/// No filter stays on the holder under the calibrator, unless the work order says that the points are
/// taken with one in place.
///
/// Broken by putting the plate on the filter; kept by the filter in its envelope.
pub static FILTER_OUT: ProcedureRule = ProcedureRule {
    id: "filter-out",
    title: "Take the filter out",
    why: "A filter under the calibrator takes away a third of the flow range, and the filter is spoilt.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Strip,
    repair: Repair::RemoveFilter,
    test: |evidence| {
        if evidence.setup.work_order.filter_in_place {
            return Outcome::NotReached;
        }
        Outcome::over(evidence.first_reading(), |at| {
            let there = place(at.facts(), RigPart::Filter) == PartPlace::Holder;
            let text = "first point read with a filter on the holder";
            there.then(|| Slip::at(at.tick(), text))
        })
    },
};
