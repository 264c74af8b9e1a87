//! Phases C to E, the manometer's fluid: it stays in its legs, and it is read while it is liquid.

use super::evidence::{At, Evidence, place};
use super::occasions::{at_legs, leg_reads};
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::ground_truth::GroundTruth;

/// Share of ice from which a column is slush, and from which it does not move: what is seen of it.
const SLUSH: f64 = 0.05;
const STUCK: f64 = 0.9;

/// The manometer's valves are shut, or its tube is off the pressure tap, while the openings are covered
/// and the blower runs.
///
/// One shut valve is enough: the air behind it holds the water. Broken by covering the openings with the
/// tube on the tap and both valves open; kept by shutting a valve or pulling the tube off first.
pub static SPARED: ProcedureRule = ProcedureRule {
    id: "manometer-spared",
    title: "Shut the manometer's valves before covering the openings",
    why: "The whole suction of the blower stands on the pressure tap then, and pulls the water over into the tube.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.2.3"),
    phase: WorkPhase::Power,
    repair: Repair::KeepFluid,
    test: |evidence| {
        let covered = |facts: &GroundTruth| facts.blocked && facts.powered;
        let moments = || evidence.indexed_events().map(|at| (at, &at.event.after));
        if !moments().any(|(_, facts)| covered(facts)) {
            return Outcome::NotReached;
        }
        let Some((at, _)) = moments().find(|(_, facts)| covered(facts) && exposed(facts)) else {
            return Outcome::Kept;
        };
        let text =
            "openings covered with the manometer's tube on the pressure tap and both valves open";
        Outcome::broken(Slip::at(at.tick(), text))
    },
};

/// Whether what stands on the pressure tap stands on the manometer's water.
fn exposed(facts: &GroundTruth) -> bool {
    facts.tube_on_tap
        && place(facts, RigPart::Manometer) == PartPlace::Hook
        && facts.valve_quarters.iter().all(|&quarters| quarters > 0)
        && facts.opening > 0.0
}

/// The manometer is read while its water is liquid.
///
/// Slush still comes to rest, late: it is a slight slip. Broken by reading a column that is frozen; kept
/// by antifreeze, or by reading before ice forms.
pub static LIQUID: ProcedureRule = ProcedureRule {
    id: "manometer-liquid",
    title: "Read the manometer only while its water is liquid",
    why: "A frozen column stays where it froze, whatever the flow is.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::None,
    test: |evidence| {
        let frozen = |at: At<'_>| {
            (at.facts().ice >= STUCK).then(|| "leg read on a column that was frozen".to_owned())
        };
        let of_check =
            Outcome::over(leg_reads(evidence), |at| Some(Slip::at(at.tick(), frozen(at)?)));
        let slush = at_legs(evidence, frozen).and(of_check.first_only());
        if slush != Outcome::Kept {
            return slush;
        }
        let slow = |at: At<'_>| {
            (at.facts().ice >= SLUSH).then(|| {
                let percent = 100.0 * at.facts().ice;
                Slip::at(at.tick(), format!("leg read while {percent:.0} % of the water was ice"))
                    .mild()
            })
        };
        let legs = evidence.points().into_iter().flat_map(|point| [point.up, point.down]);
        Outcome::over(legs.flatten(), slow).first_only()
    },
};

/// The density by which the legs at a reading are multiplied, as the label of the fluid in the manometer
/// gives it; that of water where the reading is not known.
pub(crate) fn density_at(evidence: &Evidence<'_>, leg: Field) -> f64 {
    evidence.read(leg).map_or(1.0, |at| at.facts().fluid.relative_density())
}
