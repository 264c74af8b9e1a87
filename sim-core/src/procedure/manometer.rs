//! Phase C, the manometer: plumb, open, zeroed, and connected by a clear tube.

use super::evidence::{At, Evidence, place};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::fault::Fault;
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::action::{Action, FaultPlace, Sight};
use crate::session::ground_truth::GroundTruth;
use crate::units::for_text;

/// Largest tilt, degrees.
const PLUMB_DEG: f64 = 1.0;
/// Largest zero, inches: half a division.
const ZERO_IN: f64 = 0.05;
/// Quarter turns of a fully open valve.
const OPEN_QUARTERS: u8 = 4;

/// The manometer is plumb at every reading, within 1 degree.
///
/// Broken by reading at 5 degrees; kept by swinging it upright before zeroing.
pub static PLUMB: ProcedureRule = ProcedureRule {
    id: "manometer-plumb",
    title: "Hang the manometer plumb",
    why: "A tilt of 10 degrees makes readings 1.5 percent too high, and the zero changes with every swing.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::PlumbManometer,
    test: |evidence| {
        at_legs(evidence, |facts| {
            (facts.tilt_deg.abs() > PLUMB_DEG).then(|| {
                format!("leg read with the manometer {:.1}° out of plumb", facts.tilt_deg.abs())
            })
        })
    },
};

/// Both valves are fully open at every reading.
///
/// Broken by one valve a quarter open or shut; kept by four quarters on both.
pub static VALVES_OPEN: ProcedureRule = ProcedureRule {
    id: "valves-open",
    title: "Both valves fully open at every point",
    why: "Air trapped behind a shut valve holds the water, and the leg hardly moves.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::OpenValves,
    test: |evidence| {
        at_legs(evidence, |facts| {
            let [left, right] = facts.valve_quarters;
            (left.min(right) < OPEN_QUARTERS).then(|| {
                format!(
                    "leg read with the left valve {left} and the right valve {right} of \
                     {OPEN_QUARTERS} quarter turns open"
                )
            })
        })
    },
};

/// The manometer is at zero when the points begin: each leg within 0.05 in.
///
/// A reported fault of the manometer that moving the scale cannot cure (a bubble, a stuck scale) is
/// judged as a fault and not here. Broken by legs at +0.2 and +0.2; kept by moving the scale to 0.0.
pub static ZEROED: ProcedureRule = ProcedureRule {
    id: "manometer-zeroed",
    title: "Zero the manometer",
    why: "An error of the zero is in every reading, and moves the whole line.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::ZeroManometer,
    test: |evidence| {
        let Some(at) = first_leg(evidence) else { return Vec::new() };
        let [left, right] = at.facts().zero_in;
        let worst = left.abs().max(right.abs());
        let excused = cannot_be_zeroed(at.facts()) && evidence.reported(FaultPlace::Manometer);
        if worst <= ZERO_IN || excused {
            return Vec::new();
        }
        let text = format!(
            "zero at {:+.2} in on the left leg and {:+.2} in on the right when the first leg was read",
            for_text(left, 2),
            for_text(right, 2)
        );
        let slip = Slip::at(at.tick(), text);
        // Missing the zero by less than a division does not spoil the volume.
        vec![if worst <= 2.0 * ZERO_IN { slip.mild() } else { slip }]
    },
};

/// Whether something is wrong that moving the scale cannot cure.
fn cannot_be_zeroed(facts: &GroundTruth) -> bool {
    facts.faults.iter().any(|fault| {
        matches!(
            fault,
            Fault::ManometerBubble { .. }
                | Fault::ManometerScaleStuck
                | Fault::ManometerUnequalBores { .. }
        )
    })
}

/// The zero was checked while it was visible: manometer hung, both valves open, blower off, tube off.
///
/// Broken by zeroing with the blower on, before hanging, or never; kept by a look at the legs, or by
/// moving the scale, in that state.
pub static ZERO_SEEN: ProcedureRule = ProcedureRule {
    id: "zero-seen",
    title: "Zero with both legs open to the air and the blower off",
    why: "Only then are both legs under the same pressure.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::ZeroManometer,
    test: |evidence| {
        let Some(first) = first_leg(evidence) else { return Vec::new() };
        let hung = evidence.events().take(first.index).rev().find(|at| {
            place(at.facts(), RigPart::Manometer) != PartPlace::Hook
                && place(&at.moment.after, RigPart::Manometer) == PartPlace::Hook
        });
        let looks = || {
            let since = hung.map_or(0, |at| at.index);
            evidence
                .events()
                .take(first.index)
                .skip(since)
                .filter(|at| looks_at_zero(&at.moment.action))
        };
        if looks().any(|at| zero_can_be_seen(&at.moment.after) && !at.moment.after.tube_on_tap) {
            return Vec::new();
        }
        let tick = first.tick();
        if looks().any(|at| zero_can_be_seen(&at.moment.after)) {
            let text = "the zero was checked only with the tube on the calibrator's pressure tap";
            return vec![Slip::at(tick, text).mild()];
        }
        vec![Slip::at(
            tick,
            "first leg read without checking the zero with both legs open and the blower off",
        )]
    },
};

/// Whether an action shows the zero.
fn looks_at_zero(action: &Action) -> bool {
    matches!(
        action,
        Action::SlideScale { .. }
            | Action::Look { at: Sight::LeftLeg | Sight::RightLeg | Sight::Manometer, .. }
    )
}

/// Whether both legs are under the pressure of the air, unless the tube is on the pressure tap.
fn zero_can_be_seen(facts: &GroundTruth) -> bool {
    place(facts, RigPart::Manometer) == PartPlace::Hook
        && facts.valve_quarters.iter().all(|&quarters| quarters >= OPEN_QUARTERS)
        && !facts.powered
        && facts.speed_ratio < 0.1
}

/// Blowing gently into the tube shows that the water moves freely.
///
/// Broken by connecting the tube without trying it; kept by one gentle breath after hanging.
pub static BLOW_THROUGH: ProcedureRule = ProcedureRule {
    id: "blow-through",
    title: "Blow through the tube and watch the water",
    why: "This shows at once a blocked tube or a shut valve that would cost a morning later.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::MANUALS,
    phase: WorkPhase::Manometer,
    repair: Repair::None,
    test: |evidence| {
        let Some(at) = first_leg(evidence) else { return Vec::new() };
        if at.facts().blown_through {
            return Vec::new();
        }
        vec![Slip::at(at.tick(), "first leg read although the water was never seen to move freely")]
    },
};

/// The tube is on the pressure tap at every reading, without a kink and without water.
///
/// Broken by reading through a kink; kept by smoothing and draining it first.
pub static TUBE_CLEAR: ProcedureRule = ProcedureRule {
    id: "tube-clear",
    title: "Tube on the pressure tap, without kink or water",
    why: "A kink delays the pressure, and water in a bend adds its height to the reading.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::ClearTube,
    test: |evidence| {
        evidence
            .points()
            .iter()
            .filter_map(|point| {
                point.legs().find_map(|at| {
                    let text = tube_trouble(evidence, at)?;
                    Some(Slip::at_point(
                        at.tick(),
                        point.number.number(),
                        format!("leg read with {text}"),
                    ))
                })
            })
            .collect()
    },
};

/// What is wrong with the tube at a moment.
fn tube_trouble(evidence: &Evidence<'_>, at: At<'_>) -> Option<&'static str> {
    let facts = at.facts();
    if !facts.tube_on_tap {
        return Some("the tube off the pressure tap");
    }
    let done =
        |wanted: &Action| evidence.moments.iter().take(at.index).any(|m| m.action == *wanted);
    let faults = &facts.faults;
    if faults.iter().any(|fault| matches!(fault, Fault::TubeKinked))
        && !done(&Action::StraightenTube)
    {
        return Some("a kink in the tube");
    }
    let wet = faults.iter().any(|fault| matches!(fault, Fault::TubeWet { .. }));
    (wet && !done(&Action::DrainTube)).then_some("water in the tube")
}

/// The first moment at which a leg was written.
fn first_leg<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    evidence
        .points()
        .iter()
        .flat_map(|point| point.legs().collect::<Vec<_>>())
        .min_by_key(|at| at.index)
}

/// One slip for each point at which a leg was read in a wrong state.
fn at_legs(evidence: &Evidence<'_>, wrong: fn(&GroundTruth) -> Option<String>) -> Vec<Slip> {
    evidence
        .points()
        .iter()
        .filter_map(|point| {
            point.legs().find_map(|at| {
                Some(Slip::at_point(at.tick(), point.number.number(), wrong(at.facts())?))
            })
        })
        .collect()
}
