//! Phase D, power: blower on mains, pen ready, warm-up, leak check.

use super::evidence::{At, Evidence, place};
use super::occasions::{Beginning, beginnings};
use super::outcome::Outcome;
use super::rows::{Row, rows, slip};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use super::strip::TIGHT_MM2;
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::session::action::{Action, Sight};
use crate::session::ground_truth::GroundTruth;
use crate::time::spoken;

/// Shortest running time before the first point, s.
const WARM_UP_S: f64 = 300.0;
/// Longest time with the openings covered, s.
const BLOCKED_S: f64 = 30.0;

/// At every point the blower runs directly on the mains and not through the flow controller.
///
/// Broken by leaving its plug in the controller's socket; kept by moving it to the switched mains
/// outlet.
pub static MOTOR_ON_LINE: ProcedureRule = ProcedureRule {
    id: "motor-on-line",
    title: "Run the blower on mains, off the flow controller",
    why: "The controller holds the flow against the knob, so the points crowd together and the line means nothing.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3"),
    phase: WorkPhase::Power,
    repair: Repair::MotorOnLine,
    test: |evidence| {
        Outcome::over(evidence.points(), |point| {
            let text = match point.first.facts().blower_plug {
                BlowerPlug::LineOutlet => return None,
                BlowerPlug::Controller => "point read with the blower on the flow controller",
                BlowerPlug::Loose => "point read with the blower unplugged",
            };
            Some(Slip::at_point(point.first.tick(), point.number.number(), text))
        })
    },
};

/// The pen is uncapped and on the paper when it is read.
///
/// Broken by writing a chart reading with the cap on; kept by a pen that writes.
pub static PEN_DOWN: ProcedureRule = ProcedureRule {
    id: "pen-on-paper",
    title: "Cap off, pen on the paper",
    why: "A lifted or capped pen shows nothing and leaves no record.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Power,
    repair: Repair::PenOnPaper,
    test: |evidence| {
        let charts = rows(evidence).into_iter().map(Row::chart);
        let read = charts.filter_map(|field| Some((field, evidence.read(field)?)));
        Outcome::over(read, |(field, at)| {
            let text = match (at.facts().capped, at.facts().on_paper) {
                (true, _) => "chart reading taken with the cap on the pen",
                (false, false) => "chart reading taken with the pen lifted",
                (false, true) => return None,
            };
            Some(slip(field, at, text))
        })
    },
};

/// The blower has run at least five minutes before the first point.
///
/// A short stop after a full warm-up is allowed once the blower has run for two minutes again. Broken
/// by a first point after 90 s; kept by one after 300 s.
pub static WARM_UP: ProcedureRule = ProcedureRule {
    id: "warm-up",
    title: "Let the blower run for five minutes first",
    why: "While winding and bearings warm up, the flow falls by a percent.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.3"),
    phase: WorkPhase::Power,
    repair: Repair::WaitFiveMinutes,
    test: |evidence| {
        let Some(at) = evidence.first_reading() else { return Outcome::NotReached };
        let running_s = at.facts().running_s;
        let before = evidence.events.iter().take(at.index);
        let longest_s = before.map(|moment| moment.before.running_s).fold(running_s, f64::max);
        if running_s >= WARM_UP_S || (longest_s >= WARM_UP_S && running_s >= 120.0) {
            return Outcome::Kept;
        }
        let slip = Slip::at(
            at.tick(),
            format!(
                "first point read {} after the start; {} is required",
                spoken(running_s as u64),
                spoken(WARM_UP_S as u64)
            ),
        );
        Outcome::broken(if running_s >= 0.8 * WARM_UP_S { slip.mild() } else { slip })
    },
};

/// Shortest time with the openings covered in which a leak is heard or the pen falls, s (CHOSEN).
const LISTENED_S: f64 = 3.0;
/// Part of 18 000 rpm from which the blower draws enough for a leak to hiss (CHOSEN).
const DRAWS: f64 = 0.5;

/// The joints were proved tight before the readings begin, of the points as of a flow check, by
/// listening with the openings covered and the blower on since the calibrator was mounted.
///
/// A look at the pen falling to its zero counts as well. The openings stay covered while somebody
/// listens, for three seconds at least. It decides where the joints did leak at the first reading:
/// whatever is decided about the line later, readings were taken that are worth nothing. Broken by no
/// check, by one in no time or before the rotor runs, or by covering the openings without listening;
/// kept by covering the openings for ten seconds and listening at the joint.
pub static LEAK_CHECK: ProcedureRule = ProcedureRule {
    id: "leak-check",
    title: "Check for leaks with the openings covered",
    why: "A leak does not show later: r stays at 0.999 95, and the volume is wrong by a tenth.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::MANUALS,
    phase: WorkPhase::Power,
    repair: Repair::CloseLeak,
    test: |evidence| {
        // A check that follows the points stands on joints that were proved tight for them.
        let first = beginnings(evidence).into_iter().min_by_key(|start| start.at.index);
        Outcome::over(first, |start| {
            let since = mounted(evidence, start.at);
            if listened(evidence, since, start.at) {
                return None;
            }
            let moments = evidence.events.iter().take(start.at.index).skip(since);
            let covered = moments.map(|m| &m.before).any(|facts| facts.blocked && facts.powered);
            let Beginning { at, what } = start;
            let text = if covered {
                "the openings were covered with the blower on, but nobody listened or watched the \
                 pen"
                .to_owned()
            } else {
                format!("{what} read without a leak check")
            };
            let slip = Slip::at(at.tick(), text);
            Some(if at.facts().leak_mm2 < TIGHT_MM2 { slip.mild() } else { slip })
        })
    },
};

/// The index of the moment at which the calibrator was last mounted before a reading.
pub(super) fn mounted(evidence: &Evidence<'_>, first: At<'_>) -> usize {
    let on = |facts| place(facts, RigPart::Calibrator) == PartPlace::Adapter;
    let mut before = evidence.indexed_events().take(first.index);
    before.rfind(|at| !on(at.facts()) && on(&at.event.after)).map_or(0, |at| at.index)
}

/// Whether somebody listened, or watched the pen, with the openings covered for long enough and the
/// blower running, after this moment and before a reading.
pub(super) fn listened(evidence: &Evidence<'_>, since: usize, first: At<'_>) -> bool {
    evidence.indexed_events().take(first.index).skip(since).any(|at| {
        let facts = at.facts();
        let watches = matches!(
            at.event.action,
            Action::Listen | Action::Look { at: Sight::Pen | Sight::Recorder, .. }
        );
        watches
            && facts.blocked
            && facts.powered
            && facts.speed_ratio > DRAWS
            && covered_s(evidence, at) >= LISTENED_S
    })
}

/// For how long the openings were covered, with the blower on, around a moment, s.
fn covered_s(evidence: &Evidence<'_>, at: At<'_>) -> f64 {
    let drawn = |truth: &GroundTruth| truth.blocked && truth.powered;
    let mut earlier = evidence.indexed_events().take(at.index).rev();
    let from = earlier.find(|earlier| !drawn(earlier.facts())).map(|at| at.tick());
    let mut later = evidence.indexed_events().skip(at.index);
    let until = later.find(|later| !drawn(&later.event.after)).map(|at| at.tick());
    until.unwrap_or(evidence.end_tick).seconds_since(from.unwrap_or_default())
}

/// The openings are never covered for longer than 30 s with the blower on.
///
/// Broken by 50 s; kept by 20 s.
pub static BLOCKED_SHORTLY: ProcedureRule = ProcedureRule {
    id: "blocked-shortly",
    title: "Cover the openings for 30 s at most",
    why: "The motor is cooled only by the air that flows through it.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::MANUALS,
    phase: WorkPhase::Power,
    repair: Repair::None,
    test: |evidence| {
        let longest_s = evidence.end.longest_blocked_s;
        if longest_s <= 0.0 {
            return Outcome::NotReached;
        }
        if longest_s <= BLOCKED_S {
            return Outcome::Kept;
        }
        let over = evidence.events.iter().find(|m| m.after.longest_blocked_s > BLOCKED_S);
        let tick = over.map_or(evidence.end_tick, |moment| moment.tick);
        let text =
            format!("openings covered for {longest_s:.0} s; at most {BLOCKED_S:.0} s is allowed");
        Outcome::broken(Slip::at(tick, text))
    },
};
