//! Phase A, arrival: weather and roof, conditions.

use super::evidence::{Evidence, THUNDER_WAIT_S};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::rig::parts::{BlowerPlug, TimerSwitch};
use crate::session::action::{Action, OnOff, Sight};
use crate::session::ground_truth::GroundTruth;
use crate::units::for_text;

/// Thunder means leaving the roof: no work for 30 minutes after thunder was heard.
///
/// The trainee has a minute to notice it, and may make the sampler safe; five minutes after the first
/// thunder nobody may be on the roof. Broken by turning the knob three minutes after thunder; kept by
/// switching off, unplugging and leaving.
pub static THUNDER: ProcedureRule = ProcedureRule {
    id: "thunder",
    title: "No work within 30 minutes of thunder",
    why: "Anyone who can hear thunder can be struck, and a roof with a metal shelter is a dangerous place.",
    severity: Severity::Critical,
    decides: Decides::Never,
    source: RuleSource::memory("United States National Weather Service, 30-minute rule"),
    phase: WorkPhase::Arrive,
    repair: Repair::None,
    test: |evidence| {
        let first = evidence
            .events()
            .find_map(|at| at.facts().thunder_since_s.map(|since| at.tick().seconds() - since));
        // Somebody who arrives after thunder has as much time to notice it as somebody at work.
        let Some(first_s) = first.map(|first: f64| first.max(0.0)) else { return Vec::new() };
        let working = evidence.events().find(|at| {
            let heard = at.facts().thunder_since_s.is_some_and(|since| since < THUNDER_WAIT_S);
            let after_s = at.tick().seconds() - first_s;
            heard
                && after_s > NOTICE_S
                && (after_s > LEAVE_S || !makes_safe(&at.moment.action))
                && !matches!(at.moment.action, Action::LeaveRoof | Action::Sign)
        });
        working
            .map(|at| {
                let since_min = at.facts().thunder_since_s.unwrap_or_default() / 60.0;
                let evidence = format!("still working {since_min:.0} min after thunder");
                Slip::at(at.tick(), evidence)
            })
            .into_iter()
            .collect()
    },
};

/// Time given to notice thunder, s (CHOSEN).
const NOTICE_S: f64 = 60.0;
/// Time given to make things safe and leave, s (CHOSEN).
const LEAVE_S: f64 = 300.0;

/// Whether an action only looks, records, or makes the sampler safe.
fn makes_safe(action: &Action) -> bool {
    matches!(
        action,
        Action::Look { .. }
            | Action::Listen
            | Action::Write { .. }
            | Action::Strike { .. }
            | Action::Decide { .. }
            | Action::Report(_)
            | Action::AskHelp { .. }
            | Action::Wait { .. }
            | Action::SwitchLine { to: OnOff::Off }
            | Action::SwitchTimer { to: TimerSwitch::Off }
            | Action::UnplugSampler
            | Action::PlugBlower { into: BlowerPlug::Loose }
            | Action::CapPen
            | Action::LiftPen
            | Action::CloseLid
            | Action::CloseDoor
            | Action::LeaveRoof
            | Action::Sign
    )
}

/// The roof edge and the ladder are looked at before the hands are busy.
///
/// Broken by never looking at them, or only after the first thing was touched; kept by a look on
/// arrival.
pub static ROOF_EDGE: ProcedureRule = ProcedureRule {
    id: "roof-edge",
    title: "Look at the roof edge and the ladder first",
    why: "Falls happen to people who step back while they look at their work.",
    severity: Severity::Practice,
    decides: Decides::Never,
    // Read at second hand.
    source: RuleSource::read("29 CFR 1910.28(b)(13)"),
    phase: WorkPhase::Arrive,
    repair: Repair::None,
    test: |evidence| {
        let touched = evidence.events().find(|at| touches(&at.moment.action));
        let Some(touched) = touched else { return Vec::new() };
        match evidence.last_look(&[Sight::RoofEdge], touched.index) {
            Some(_) => Vec::new(),
            None => vec![Slip::at(
                touched.tick(),
                "the roof edge and the ladder were not looked at before anything was handled",
            )],
        }
    },
};

/// Whether an action needs hands.
fn touches(action: &Action) -> bool {
    !matches!(
        action,
        Action::Look { .. }
            | Action::Listen
            | Action::Write { .. }
            | Action::Strike { .. }
            | Action::Decide { .. }
            | Action::Report(_)
            | Action::AskHelp { .. }
            | Action::Wait { .. }
            | Action::LeaveRoof
            | Action::Sign
    )
}

/// Temperature is taken in the shade.
///
/// Looks at where the thermometer was when the temperature was written. Broken by writing 31 with the
/// thermometer in the sun; kept by placing it in the screen and waiting.
pub static THERMOMETER_SHADED: ProcedureRule = ProcedureRule {
    id: "thermometer-shaded",
    title: "Read the air temperature in the shade",
    why: "The sun adds up to 20 K, and 3 K is half a percent of the flow.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Arrive,
    repair: Repair::ShadeTemperature,
    test: |evidence| {
        let Some(at) = evidence.written(Field::Temperature) else { return Vec::new() };
        let facts = at.facts();
        if facts.thermometer_shaded {
            return Vec::new();
        }
        let (shown, air) = (facts.thermometer_c, facts.temperature_c);
        let (shown, air) = (for_text(shown, 1), for_text(air, 1));
        let evidence = format!(
            "the thermometer was in the sun: it showed {shown:.1} °C, but the air had {air:.1} °C"
        );
        vec![Slip::at(at.tick(), evidence)]
    },
};

/// Pressure is that of the station, not reduced to sea level.
///
/// Looks at the setting of the barometer when the pressure was written. A value within 3 mmHg of the
/// truth is right even so, because it may have been worked back by hand. Broken by 762 mmHg at
/// 1 000 m; kept by 674 mmHg.
pub static STATION_PRESSURE: ProcedureRule = ProcedureRule {
    id: "station-pressure",
    title: "Use station pressure, not sea-level pressure",
    why: "At 1 000 m, pressure reduced to sea level makes the flow 6 percent too large.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. J, 9.6"),
    phase: WorkPhase::Arrive,
    repair: Repair::StationPressure,
    test: |evidence| {
        let Some(at) = evidence.written(Field::Pressure) else { return Vec::new() };
        let Some(written) = evidence.book.number(Field::Pressure) else { return Vec::new() };
        let truth = at.facts().pressure_mmhg;
        let off = (written - truth).abs();
        if at.facts().barometer_at_station || off <= 3.0 {
            return Vec::new();
        }
        let slip = Slip::at(
            at.tick(),
            format!(
                "wrote {written:.0} mmHg from a barometer set to sea level, but the station pressure was {truth:.0} mmHg"
            ),
        );
        vec![if off <= 10.0 { slip.mild() } else { slip }]
    },
};

/// Temperature and pressure are written as the instruments showed them.
///
/// A value more than one division (1 °C, 1 mmHg) from everything shown since the last look at the
/// instrument is not a reading. Broken by writing 760 for 747; kept by 747 for 746.6.
pub static CONDITIONS_AS_READ: ProcedureRule = ProcedureRule {
    id: "conditions-as-read",
    title: "Write temperature and pressure as shown",
    why: "Both enter every point, and a number written from habit is not a measurement.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Arrive,
    repair: Repair::ReadConditions,
    test: |evidence| {
        [
            as_shown(evidence, Field::Temperature, "°C", |facts| {
                (facts.thermometer_c, facts.temperature_c)
            }),
            as_shown(evidence, Field::Pressure, "mmHg", |facts| {
                (facts.barometer_mmhg, facts.pressure_mmhg)
            }),
        ]
        .into_iter()
        .flatten()
        .collect()
    },
};

/// A slip if a value is more than a division from everything that was shown, and from the truth.
fn as_shown(
    evidence: &Evidence<'_>,
    field: Field,
    unit: &str,
    values: fn(&GroundTruth) -> (f64, f64),
) -> Option<Slip> {
    let written = evidence.book.number(field)?;
    let at = evidence.written(field)?;
    let sight = if field == Field::Pressure { Sight::Barometer } else { Sight::Thermometer };
    let looked = evidence.last_look(&[sight], at.index);
    let near = evidence.writes(field).chain(looked).any(|moment| {
        let (shown, truth) = values(moment.facts());
        (written - shown).abs() <= CONDITIONS_OFF || (written - truth).abs() <= CONDITIONS_OFF
    });
    let shown = for_text(values(at.facts()).0, 1);
    let text = format!("wrote {written} {unit} when {shown:.1} {unit} was shown");
    (!near).then(|| Slip::at(at.tick(), text))
}

/// One division (1 °C, 1 mmHg) and the rounding to it.
const CONDITIONS_OFF: f64 = 1.05;

/// Both conditions were written before the calculations.
///
/// Broken by leaving either empty or unreadable although points were taken; kept by a number in
/// each.
pub static CONDITIONS_WRITTEN: ProcedureRule = ProcedureRule {
    id: "conditions-written",
    title: "Write the temperature and pressure of the calibration",
    why: "Without them the readings give no flow at standard conditions.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3"),
    phase: WorkPhase::Arrive,
    repair: Repair::ReadConditions,
    test: |evidence| {
        if evidence.points().is_empty() {
            return Vec::new();
        }
        [(Field::Temperature, "temperature"), (Field::Pressure, "station pressure")]
            .into_iter()
            .filter(|(field, _)| evidence.book.number(*field).is_none())
            .map(|(_, name)| {
                Slip::at(evidence.end_tick, format!("the {name} is missing from the field book"))
            })
            .collect()
    },
};
