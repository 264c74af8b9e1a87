//! Phase I, the filter: a sound, fresh one, handled by its edges, rough side up, centred and tight.
//!
//! All of it is judged at the moment when the site is left.

use super::evidence::{loose_nuts, place};
use super::load::{at_leaving, when};
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::rig::parts::{FilterSide, PartPlace, RigPart, Seat};

/// A fresh filter lies under the hold-down frame.
///
/// Broken by leaving with the old sheet or none; kept by one from the folder.
pub static FILTER_FITTED: ProcedureRule = ProcedureRule {
    id: "filter-fitted",
    title: "Fit a fresh filter under the hold-down frame",
    why: "An old filter carries the dust of another day, and its mass is not known.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_leaving(evidence, |facts, run| {
            let on = |part| place(facts, part) == PartPlace::Holder;
            match (on(RigPart::Filter) && run.sheet.number > 0, on(RigPart::Frame)) {
                (true, true) => None,
                (false, _) => Some("left without a fresh filter on the holder".to_owned()),
                (true, false) => Some("left without the hold-down frame on the filter".to_owned()),
            }
        })
    },
};

/// The filter was held up to the light.
///
/// Broken by fitting it without inspection; kept by one look through it.
pub static FILTER_INSPECTED: ProcedureRule = ProcedureRule {
    id: "filter-inspected",
    title: "Hold the filter up to the light",
    why: "A pinhole lets dust through that never reaches the balance.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.2"),
    phase: WorkPhase::Load,
    repair: Repair::None,
    test: |evidence| {
        at_leaving(evidence, |_, run| {
            when(!run.sheet.seen_through, "the filter was never held up to the light")
        })
    },
};

/// The filter is sound and dry.
///
/// Broken by running with a torn, pinholed or wet one; kept by taking another from the folder.
pub static FILTER_SOUND: ProcedureRule = ProcedureRule {
    id: "filter-sound",
    title: "Run with a sound, dry filter",
    why: "Air that passes through a hole leaves no dust on the filter, but the volume includes it.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.2"),
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_leaving(evidence, |_, run| {
            if run.sheet.holes_mm2 > 0.0 {
                Some(format!("the filter had holes of {:.1} mm²", run.sheet.holes_mm2))
            } else {
                when(run.sheet.wetness > 1.1, "the filter was wet")
            }
        })
    },
};

/// The filter is touched by its edges only.
///
/// Broken by a thumb on its face; kept by always taking it by its edges.
pub static FILTER_EDGES: ProcedureRule = ProcedureRule {
    id: "filter-by-edges",
    title: "Handle the filter by its edges",
    why: "A thumb leaves half a milligram on the filter and takes dust away.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.5"),
    phase: WorkPhase::Load,
    repair: Repair::None,
    test: |evidence| {
        let run = evidence.end.run.as_ref().filter(|run| run.left && run.sheet.number > 0);
        Outcome::over(run, |run| {
            let times = match run.sheet.thumbs {
                1 => "once".to_owned(),
                thumbs => format!("{thumbs} times"),
            };
            let text = format!("the face of the filter was touched with a thumb, {times}");
            (run.sheet.thumbs > 0).then(|| Slip::at(evidence.end_tick, text))
        })
    },
};

/// The rough side is up.
///
/// Broken by fitting it as it came out of the envelope; kept by turning it over.
pub static FILTER_SIDE: ProcedureRule = ProcedureRule {
    id: "filter-rough-up",
    title: "Rough side of the filter up",
    why: "Dust falls off the smooth side before it is weighed.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_leaving(evidence, |_, run| {
            when(run.sheet.up == FilterSide::Smooth, "the filter was fitted smooth side up")
        })
    },
};

/// The filter is centred.
///
/// Broken by a margin that the hold-down frame pushed aside; kept by even margins.
pub static FILTER_CENTRED: ProcedureRule = ProcedureRule {
    id: "filter-centred",
    title: "Filter centred under the hold-down frame",
    why: "Where a margin is bare, air passes unfiltered.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_leaving(evidence, |_, run| {
            when(run.sheet.seat == Seat::Shifted, "the filter was off centre, with one margin bare")
        })
    },
};

/// The hold-down frame is tight on the filter.
///
/// Broken by a nut that turns freely; kept by four that are hand-tight.
pub static FRAME_TIGHT: ProcedureRule = ProcedureRule {
    id: "frame-tight",
    title: "Four nuts tight on the hold-down frame",
    why: "Air that leaks past the filter is counted as sampled.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Load,
    repair: Repair::RestoreSampler,
    test: |evidence| {
        at_leaving(evidence, |facts, _| {
            let loose = loose_nuts(facts);
            (loose > 0)
                .then(|| format!("nuts of the hold-down frame that were not hand-tight: {loose}"))
        })
    },
};
