//! Phase A, arrival: roof edge and conditions.

use super::evidence::{At, Evidence};
use super::occasions::measured;
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::session::action::{Action, Sight};
use crate::units::for_text;

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
        let touched = evidence.indexed_events().find(|at| touches(&at.event.action));
        Outcome::over(touched, |touched| {
            let looked = evidence.last_look(&[Sight::RoofEdge], touched.index);
            let text =
                "the roof edge and the ladder were not looked at before anything was handled";
            looked.is_none().then(|| Slip::at(touched.tick(), text))
        })
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
            | Action::ReadInWords
            | Action::MarkChecklist { .. }
            | Action::Wait { .. }
            | Action::LeaveRoof
            | Action::Sign
    )
}

/// Temperature is taken in the shade.
///
/// Looks at where the thermometer was when the temperature was read. Broken by writing 31 with the
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
        over_conditions(evidence, [Field::Temperature, Field::CheckTemperature], |at, _| {
            let facts = at.facts();
            let (shown, air) = (facts.thermometer_c, facts.temperature_c);
            let (shown, air) = (for_text(shown, 1), for_text(air, 1));
            let text = format!(
                "the thermometer was in the sun: it showed {shown:.1} °C, but the air had {air:.1} °C"
            );
            (!facts.thermometer_shaded).then(|| Slip::at(at.tick(), text))
        })
    },
};

/// Pressure is that of the station, not reduced to sea level.
///
/// Looks at the setting of the barometer when the pressure was read. A value within 3 mmHg of the
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
        over_conditions(evidence, [Field::Pressure, Field::CheckPressure], |at, written| {
            let truth = at.facts().pressure_mmhg;
            let off = (written - truth).abs();
            if at.facts().barometer_at_station || off <= 3.0 {
                return None;
            }
            let text = format!(
                "wrote {written:.0} mmHg from a barometer set to sea level, but the station \
                 pressure was {truth:.0} mmHg"
            );
            let slip = Slip::at(at.tick(), text);
            Some(if off <= 10.0 { slip.mild() } else { slip })
        })
    },
};

/// The outcome over a condition as written for the points and for the flow check. Where something
/// was measured without it, nothing can be judged.
fn over_conditions(
    evidence: &Evidence<'_>,
    [field, of_check]: [Field; 2],
    slip: impl Fn(At<'_>, f64) -> Option<Slip>,
) -> Outcome {
    if measured(evidence) && evidence.book.number(field).is_none() {
        return Outcome::without(evidence, field);
    }
    let written = [field, of_check]
        .into_iter()
        .filter_map(|field| evidence.read(field).zip(evidence.book.number(field)));
    Outcome::over(written, |(at, number)| slip(at, number))
}

/// Temperature and pressure are written as the instruments showed them.
///
/// A value more than one division (1 °C, 1 mmHg) from everything that the instrument showed while it was
/// looked at is not a reading, and neither is one without a look. Broken by writing 760 for 747; kept by 747 for 746.6.
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
        let fields =
            [Field::Temperature, Field::Pressure, Field::CheckTemperature, Field::CheckPressure];
        let missing =
            fields.into_iter().take(2).find(|&field| evidence.book.number(field).is_none());
        if let Some(field) = missing.filter(|_| measured(evidence)) {
            return Outcome::without(evidence, field);
        }
        let written = fields.into_iter().filter(|&field| evidence.book.number(field).is_some());
        Outcome::over(written, |field| as_shown(evidence, field))
    },
};

/// A slip if an instrument was not looked at, or if a value is more than a division from everything that
/// it showed then, and from the truth.
fn as_shown(evidence: &Evidence<'_>, field: Field) -> Option<Slip> {
    let (reading, at) = (evidence.reading(field)?, evidence.read(field)?);
    let written = reading.value?;
    let label = field.label();
    if reading.look.is_none() {
        let text = format!("the {label} was written without looking at the instrument");
        return Some(Slip::at(at.tick(), text));
    }
    let truth = reading.instrument.undisturbed(at.facts());
    let near = |value: f64| (written - value).abs() <= CONDITIONS_OFF;
    let (shown, unit) = (for_text(reading.seen, 1), reading.instrument.unit());
    let text = format!("wrote {written} {unit} when {shown:.1} {unit} was shown");
    (!near(reading.seen) && !near(truth)).then(|| Slip::at(at.tick(), text))
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
        if !measured(evidence) {
            return Outcome::NotReached;
        }
        let conditions =
            [(Field::Temperature, "temperature"), (Field::Pressure, "station pressure")];
        Outcome::over(conditions, |(field, name)| {
            let text = format!("the {name} is missing from the field book");
            evidence.book.number(field).is_none().then(|| Slip::at(evidence.end_tick, text))
        })
    },
};
