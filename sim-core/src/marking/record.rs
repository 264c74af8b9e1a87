//! The record: complete, legible, consistent, and in the required units.

use super::part_score::PartScore;
use crate::calibration::FEWEST_POINTS;
use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::{Ending, Evidence, TraineeDecision};
use crate::procedure::fluid::density_at;
use crate::scenario::lesson::LessonPhase;

/// Loss for a value in the wrong unit.
const WRONG_UNIT: f64 = 0.2;
/// Loss for a record that contradicts itself.
const CONTRADICTION: f64 = 0.1;
/// Loss for a record that nobody signed.
const UNSIGNED: f64 = 0.5;

/// The part: the fraction of entries that are there and legible, minus losses for wrong units and
/// contradictions.
pub(super) fn part(evidence: &Evidence<'_>) -> PartScore {
    let mut wanted = wanted(evidence);
    wanted.retain(|field| evidence.assesses(LessonPhase::of_field(*field)));
    if wanted.is_empty() {
        return PartScore::outside_lesson();
    }
    let mut reasons = Vec::new();
    let (mut missing, mut illegible) = (Vec::new(), Vec::new());
    for field in &wanted {
        match evidence.book.text(*field) {
            None => missing.push(field.label()),
            Some(_) if field.is_words() || evidence.book.number(*field).is_some() => {}
            Some(text) => illegible.push(format!("{} (`{text}`)", field.label())),
        }
    }
    let there = wanted.len() - missing.len() - illegible.len();
    let mut share = there as f64 / wanted.len() as f64;
    if !missing.is_empty() {
        reasons.push(format!("missing: {}", missing.join(", ")));
    }
    if !illegible.is_empty() {
        reasons.push(format!("not a number: {}", illegible.join(", ")));
    }
    for wrong in wrong_units(evidence) {
        share -= WRONG_UNIT;
        reasons.push(wrong);
    }
    for wrong in contradictions(evidence) {
        share -= CONTRADICTION;
        reasons.push(wrong);
    }
    if evidence.ended == Ending::TimeOut {
        share -= UNSIGNED;
        reasons.push("the field book is not signed".to_owned());
    }
    PartScore::earned(share.clamp(0.0, 1.0), reasons)
}

/// The fields that a finished record has.
fn wanted(evidence: &Evidence<'_>) -> Vec<Field> {
    let mut fields = vec![
        Field::CalibratorSerial,
        Field::CertificateSerial,
        Field::CertificateDate,
        Field::CertificateSlope,
        Field::CertificateIntercept,
        Field::Temperature,
        Field::Pressure,
    ];
    if evidence.setup.work_order.is_check_alone() {
        fields.extend(of_check(evidence));
        return fields;
    }
    let taken = evidence.book.points();
    let more = PointNumber::all().filter(|number| !taken.contains(number));
    let short = FEWEST_POINTS.saturating_sub(taken.len());
    for number in taken.iter().copied().chain(more.take(short)) {
        if !evidence.is_electronic() {
            fields.extend([Field::Up(number), Field::Down(number)]);
        }
        fields.extend([
            Field::DeltaH(number),
            Field::Chart(number),
            Field::PointFlow(number),
            Field::ChartTerm(number),
        ]);
    }
    fields.extend([
        Field::Expression,
        Field::Slope,
        Field::Intercept,
        Field::Correlation,
        Field::Decision,
    ]);
    if evidence.verdict() != TraineeDecision::Refused {
        fields.extend([Field::TargetFlow, Field::SetPoint]);
        if evidence.setup.work_order.flow_check.is_some() {
            fields.extend([Field::CheckTemperature, Field::CheckPressure]);
            fields.extend(of_check(evidence));
        }
        if evidence.run_was_made() {
            fields.extend(Field::RUN);
            let added = evidence.setup.work_order.added_filters();
            fields.extend(Field::of_added_filters(added.map_or(0, |order| order.sheets)));
            fields.extend(evidence.setup.work_order.next_run().map(|_| Field::NextFilterNumber));
        }
    }
    fields
}

/// The fields of a flow check with the ordered number of readings.
fn of_check(evidence: &Evidence<'_>) -> Vec<Field> {
    let order = evidence.setup.work_order.flow_check;
    let readings = PointNumber::all().take(order.map_or(0, |check| check.readings.into()));
    let mut fields: Vec<Field> = readings
        .flat_map(|r| [Field::CheckUp(r), Field::CheckDown(r), Field::CheckChart(r)])
        .collect();
    fields.extend(order.iter().flat_map(|check| check.sums()));
    fields.push(Field::CheckOutcome);
    fields.extend(evidence.setup.work_order.history.iter().flat_map(|_| Field::HISTORY));
    fields
}

/// Values that were plainly written in another unit.
fn wrong_units(evidence: &Evidence<'_>) -> Vec<String> {
    // After a run the air differs from that on the day of the calibration.
    let then = evidence.written(Field::Pressure).or_else(|| evidence.written(Field::Temperature));
    let facts = then.filter(|_| evidence.run_was_made()).map_or(evidence.end, |at| at.facts());
    let mut wrong = Vec::new();
    if let Some(pressure) = evidence.book.number(Field::Pressure) {
        let ratio = pressure / facts.pressure_mmhg;
        let unit = match ratio {
            ratio if (1.25..1.42).contains(&ratio) => Some("hPa"),
            ratio if (0.035..0.044).contains(&ratio) => Some("inHg"),
            ratio if (0.12..0.145).contains(&ratio) => Some("kPa"),
            _ => None,
        };
        wrong.extend(unit.map(|unit| {
            format!("the pressure {pressure} is in {unit}, but the field book asks for mmHg")
        }));
    }
    if let Some(temperature) = evidence.book.number(Field::Temperature) {
        let near = |other: f64| (temperature - other).abs() < 5.0;
        let off = (temperature - facts.temperature_c).abs() > 15.0;
        let unit = match off {
            true if near(facts.temperature_c * 1.8 + 32.0) => Some("°F"),
            true if near(facts.temperature_c + crate::units::ZERO_CELSIUS_K) => Some("K"),
            _ => None,
        };
        wrong.extend(unit.map(|unit| {
            format!("the temperature {temperature} is in {unit}, but the field book asks for °C")
        }));
    }
    if let Some(target) = evidence.book.number(Field::TargetFlow) {
        let feet = target * crate::units::M3_PER_FT3;
        let ordered = evidence.setup.work_order.target_flow_std_m3_min;
        if (feet - ordered).abs() < 0.05 {
            wrong.push(format!(
                "the target flow {target} is in ft³/min, but the field book asks for m³/min"
            ));
        }
    }
    wrong
}

/// Entries that cannot both be true, or cannot be true at all.
fn contradictions(evidence: &Evidence<'_>) -> Vec<String> {
    let book = evidence.book;
    let mut found = Vec::new();
    if let Some(r) = book.number(Field::Correlation)
        && !(-1.0..=1.0).contains(&r)
    {
        found.push(format!("the correlation coefficient {r} is outside -1 to 1"));
    }
    let (plate, paper) = (book.text(Field::CalibratorSerial), book.text(Field::CertificateSerial));
    if let (Some(plate), Some(paper)) = (plate, paper)
        && !crate::procedure::evidence::same_serial(plate, paper)
        && evidence.verdict() != TraineeDecision::Refused
    {
        found.push(format!(
            "the serial number on the plate is {plate}, but on the certificate it is {paper}"
        ));
    }
    let sums_off = book.points().into_iter().filter(|&number| {
        let (up, down) = (book.number(Field::Up(number)), book.number(Field::Down(number)));
        match (up, down, book.number(Field::DeltaH(number))) {
            (Some(up), Some(down), Some(sum)) => {
                let density = density_at(evidence, Field::Up(number));
                (sum - (up.abs() + down.abs()) * density).abs() > 0.051
            }
            _ => false,
        }
    });
    let sums_off: Vec<String> = sums_off.map(|number| number.number().to_string()).collect();
    if !sums_off.is_empty() {
        found.push(format!("the sum of both legs is wrong at point {}", sums_off.join(", ")));
    }
    found
}
