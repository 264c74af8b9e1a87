//! Phase C, the manometer: plumb, open, zeroed, and connected by a clear tube.

use super::evidence::{At, Evidence, place};
use super::occasions::{at_legs, first_legs, leg_reads};
use super::outcome::Outcome;
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
/// Height of water in the tube that matters, in: half a division.
const WET_IN: f64 = 0.05;
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
        let leaning = |at: At<'_>| {
            let tilt_deg = at.facts().tilt_deg.abs();
            (tilt_deg > PLUMB_DEG)
                .then(|| format!("leg read with the manometer {tilt_deg:.1}° out of plumb"))
        };
        let of_check =
            Outcome::over(leg_reads(evidence), |at| Some(Slip::at(at.tick(), leaning(at)?)));
        at_legs(evidence, leaning).and(of_check.first_only())
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
        at_legs(evidence, |at| {
            let [left, right] = at.facts().valve_quarters;
            (left.min(right) < OPEN_QUARTERS).then(|| {
                format!(
                    "leg read with the left valve {left} and the right valve {right} of \
                     {OPEN_QUARTERS} quarter turns open"
                )
            })
        })
    },
};

/// The manometer is at zero when the readings begin: each leg within 0.05 in.
///
/// A reported fault of the manometer that moving the scale cannot cure (a bubble, a stuck scale) is
/// judged as a fault and not here. Broken by legs at +0.2 and +0.2; kept by moving
/// the scale to 0.0.
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
        Outcome::over(first_legs(evidence), |start| {
            let facts = start.at.facts();
            let [left, right] = facts.zero_in;
            let worst = left.abs().max(right.abs());
            let excused = cannot_be_zeroed(facts) && evidence.reported(FaultPlace::Manometer);
            if worst <= ZERO_IN || excused {
                return None;
            }
            let text = format!(
                "zero at {:+.2} in on the left leg and {:+.2} in on the right when the {} was read",
                for_text(left, 2),
                for_text(right, 2),
                start.what
            );
            let slip = Slip::at(start.at.tick(), text);
            // Missing the zero by less than a division does not spoil the volume.
            Some(if worst <= 2.0 * ZERO_IN { slip.mild() } else { slip })
        })
    },
};

/// The error of a wrong zero in the sum of both legs, in. A scale that is shifted adds to one leg what
/// it takes from the other; a bubble, a tilt or a fault shifts both legs against each other.
pub(super) fn zero_of_sum_in(facts: &GroundTruth) -> f64 {
    let [left, right] = facts.zero_in;
    left - right
}

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
        Outcome::over(first_legs(evidence), |start| {
            let (seen, with_tube) = zero_looked_at(evidence, start.at);
            let (tick, what) = (start.at.tick(), start.what);
            if seen {
                return None;
            }
            if with_tube {
                let text =
                    "the zero was checked only with the tube on the calibrator's pressure tap";
                return Some(Slip::at(tick, text).mild());
            }
            let text = format!(
                "{what} read without checking the zero with both legs open and the blower off"
            );
            Some(Slip::at(tick, text))
        })
    },
};

/// Whether the zero was looked at before a reading, since the manometer was last hung or topped up:
/// with the tube off, and with the tube on at least.
fn zero_looked_at(evidence: &Evidence<'_>, first: At<'_>) -> (bool, bool) {
    let hung = evidence.indexed_events().take(first.index).rev().find(|at| {
        let hung = place(at.facts(), RigPart::Manometer) != PartPlace::Hook
            && place(&at.event.after, RigPart::Manometer) == PartPlace::Hook;
        hung || matches!(at.event.action, Action::AddFluid { .. })
    });
    let since = hung.map_or(0, |at| at.index);
    let looks: Vec<At<'_>> = evidence
        .indexed_events()
        .take(first.index)
        .skip(since)
        .filter(|at| looks_at_zero(&at.event.action) && zero_can_be_seen(&at.event.after))
        .collect();
    (looks.iter().any(|at| !at.event.after.tube_on_tap), !looks.is_empty())
}

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
        Outcome::over(first_legs(evidence), |start| {
            let text =
                format!("{} read although the water was never seen to move freely", start.what);
            (!start.at.facts().blown_through).then(|| Slip::at(start.at.tick(), text))
        })
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
        at_legs(evidence, |at| Some(format!("leg read with {}", tube_trouble(evidence, at)?)))
    },
};

/// What is wrong with the tube at a moment.
pub(super) fn tube_trouble(evidence: &Evidence<'_>, at: At<'_>) -> Option<&'static str> {
    if !at.facts().tube_on_tap {
        return Some("the tube off the pressure tap");
    }
    // What was done before the trouble began is no remedy for it.
    let in_force = |wrong: fn(&Fault) -> bool, remedy: fn(&Action) -> bool| {
        let mut before = evidence.events.iter().take(at.index);
        at.facts().faults.iter().any(wrong)
            && !before
                .any(|moment| remedy(&moment.action) && moment.before.faults.iter().any(wrong))
    };
    let straightens = |action: &Action| matches!(action, Action::StraightenTube);
    if in_force(|fault| matches!(fault, Fault::TubeKinked), straightens) {
        return Some("a kink in the tube");
    }
    // It is dried in the van as well, with the manometer.
    let dries = |action: &Action| matches!(action, Action::DrainTube | Action::ChangeFluid { .. });
    let wet = in_force(|fault| matches!(fault, Fault::TubeWet { .. }), dries);
    (wet || at.facts().tube_water_in > WET_IN).then_some("water in the tube")
}
