//! Phase E, reading a point: both legs, at eye level, the pen tapped to rest, written as visible.

use super::evidence::{At, Evidence, PointTaken};
use super::instrument::{Instrument, nearest_seen};
use super::outcome::{Outcome, beyond};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;
use crate::session::action::Sight;
use crate::units::for_text;

/// Largest distance of the eye from the level of what is read, mm.
const EYE_MM: f64 = 15.0;
/// How far the pen may be from rest, chart divisions: the friction that one tap leaves.
const AT_REST_DIVISIONS: f64 = 0.6;
/// How far a written value may be from what was visible before it no longer counts as a reading,
/// divisions.
const NO_READING_DIVISIONS: f64 = 2.0;

/// The pen is tapped at least once after the flow was changed and before it is read.
///
/// Broken by reading it as it stands; kept by one tap.
pub static TAPPED: ProcedureRule = ProcedureRule {
    id: "pen-tapped",
    title: "Tap the recorder before reading the pen",
    why: "Friction holds the pen half a division or more from rest, always on the same side.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::TapPen,
    test: |evidence| {
        at_charts(evidence, |at| {
            let off = at.facts().pen - at.facts().pen_at_rest;
            (at.facts().taps == 0)
                .then(|| format!("pen read without tapping, {:.1} divisions from rest", off.abs()))
        })
    },
};

/// The pen is at rest when it is read: tapped until it no longer moves.
///
/// Broken by one tap on a pen that sticks by two divisions; kept by tapping again.
pub static PEN_AT_REST: ProcedureRule = ProcedureRule {
    id: "pen-at-rest",
    title: "Tap until the pen no longer moves",
    why: "One tap frees a clean pen; a neglected one needs three.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::TapPen,
    test: |evidence| {
        at_charts(evidence, |at| {
            let off = (at.facts().pen - at.facts().pen_at_rest).abs();
            (at.facts().taps > 0 && off > AT_REST_DIVISIONS).then(|| {
                let taps = match at.facts().taps {
                    1 => "1 tap".to_owned(),
                    taps => format!("{taps} taps"),
                };
                format!("pen read {off:.1} divisions from rest after {taps}")
            })
        })
    },
};

/// One slip for each point at which the pen was read in a wrong state.
fn at_charts(evidence: &Evidence<'_>, wrong: fn(At<'_>) -> Option<String>) -> Outcome {
    let charts = evidence.points().into_iter().filter_map(|p| Some((p.number, p.chart?)));
    Outcome::over(charts, |(number, at)| {
        Some(Slip::at_point(at.tick(), number.number(), wrong(at)?))
    })
}

/// Both legs are written.
///
/// Broken by one leg, or one leg doubled into a sum; kept by 3.1 and 3.0, and by a last point that
/// thunder interrupted.
pub static BOTH_LEGS: ProcedureRule = ProcedureRule {
    id: "both-legs",
    title: "Read both legs",
    why: "One leg shows half of the pressure, which makes the root term 29 percent too small.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::AddSecondLeg,
    test: |evidence| {
        let points = evidence.points();
        let whole = points.iter().filter(|point| !evidence.broken_off(point));
        Outcome::over(whole, |point| {
            let text = match (point.up, point.down) {
                (Some(_), Some(_)) => return None,
                (Some(_), None) => "only the leg that went up was read",
                (None, Some(_)) => "only the leg that went down was read",
                (None, None) => "no leg was read",
            };
            Some(Slip::at_point(point.first.tick(), point.number.number(), text))
        })
    },
};

/// The pressure difference is the sum of both legs as written.
///
/// Broken by 3.1 and 3.0 with 3.1 as their sum; kept by 6.1.
pub static LEGS_ADDED: ProcedureRule = ProcedureRule {
    id: "legs-added",
    title: "Add both legs",
    why: "The water falls on one side as it rises on the other: the pressure is the sum.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::AddSecondLeg,
    test: |evidence| {
        let number = |field| evidence.book.number(field);
        let legs = |point: PointTaken<'_>| {
            let both = (number(Field::Up(point.number))?, number(Field::Down(point.number))?);
            Some((point.number, point.last.tick(), both))
        };
        let points = evidence.points();
        Outcome::over(points.into_iter().filter_map(legs), |(point, tick, (up, down))| {
            let (up, down) = (up.abs(), down.abs());
            let slip = |text: String| Slip::at_point(tick, point.number(), text);
            let Some(sum) = number(Field::DeltaH(point)) else {
                let text = "the sum of both legs is missing".to_owned();
                return (!evidence.rightly_stopped()).then(|| slip(text).mild());
            };
            let off = (sum - up - down).abs();
            let text = format!(
                "wrote {sum} in for {up} in and {down} in, which add up to {:.2} in",
                up + down
            );
            (off > 0.051).then(|| slip(text))
        })
    },
};

/// Legs are read with the eye within 15 mm of the level of the water.
///
/// Judged by the last look at each leg before it was written. Broken by reading from 60 mm above; kept
/// by bending the knees.
pub static EYE_LEVEL: ProcedureRule = ProcedureRule {
    id: "eye-level",
    title: "Eye at the level of the water",
    why: "Seen from above, the scale behind the leg shifts against the meniscus.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::EyeLevel,
    test: |evidence| {
        let points = evidence.points();
        let looks = points.iter().filter_map(|point| {
            let looks = legs_with_looks(evidence, point).into_iter().filter_map(|(_, look)| look);
            let worst = looks.max_by(|one, other| eye(one).total_cmp(&eye(other)))?;
            Some((point.number, worst))
        });
        Outcome::over(looks, |(number, worst)| {
            let text = format!("leg read with the eye {:.0} mm off level", eye(&worst));
            (eye(&worst) > EYE_MM).then(|| Slip::at_point(worst.tick(), number.number(), text))
        })
    },
};

/// How far the eye was off level, mm.
fn eye(look: &At<'_>) -> f64 {
    look.moment.after.eye_mm.abs()
}

/// Nothing is written without looking at it since the flow was set.
///
/// Broken by writing a leg as expected from the last point; kept by a look at leg and pen each time.
pub static LOOKED: ProcedureRule = ProcedureRule {
    id: "looked-before-writing",
    title: "Look before writing",
    why: "A number that was not read is invented, however well it fits.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::ReadAsSeen,
    test: |evidence| {
        Outcome::over(evidence.points().iter(), |point| {
            let since = point.flow_since();
            let pen = point
                .chart
                .map(|at| (at, evidence.last_look(&[Sight::Pen, Sight::Recorder], at.index)));
            let unseen = legs_with_looks(evidence, point)
                .into_iter()
                .chain(pen)
                .find(|(_, look)| look.is_none_or(|look| look.tick() < since))?;
            let text =
                "a reading was written without looking at the instrument since the flow was set";
            Some(Slip::at_point(unseen.0.tick(), point.number.number(), text))
        })
    },
};

/// Each leg written and the last look at it before.
fn legs_with_looks<'a>(
    evidence: &Evidence<'a>,
    point: &PointTaken<'a>,
) -> Vec<(At<'a>, Option<At<'a>>)> {
    let sights = [(point.up, Sight::LeftLeg), (point.down, Sight::RightLeg)];
    sights
        .into_iter()
        .filter_map(|(at, leg)| {
            let at = at?;
            Some((at, evidence.last_look(&[leg, Sight::Manometer], at.index)))
        })
        .collect()
}

/// What is written is what was visible, within two divisions.
///
/// A smaller difference costs marks for the reading only. Broken by 3.4 for 3.10; kept by 3.15.
pub static AS_SEEN: ProcedureRule = ProcedureRule {
    id: "values-as-seen",
    title: "Write what you see",
    why: "A value two divisions off is a slip of the pen or wishful thinking.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::ReadAsSeen,
    test: |evidence| {
        let check = |point: &PointTaken<'_>, at: Option<At<'_>>, instrument: Instrument| {
            let at = at?;
            let field = instrument.field(point.number)?;
            let slip = |text: String| Slip::at_point(at.tick(), point.number.number(), text);
            let Some(written) = evidence.book.number(field) else {
                let text = evidence.book.text(field).unwrap_or_default();
                return Some(slip(format!("{}: `{text}` is not a number", field.label())));
            };
            let (seen, off) = nearest_seen(evidence, instrument, at, written);
            let text = format!(
                "wrote {written} {unit} when {seen:.2} {unit} was visible",
                seen = for_text(seen, 2),
                unit = instrument.unit()
            );
            beyond(off / instrument.division(), NO_READING_DIVISIONS).then(|| slip(text))
        };
        Outcome::over(evidence.points().iter(), |point| {
            check(point, point.up, Instrument::LegUp)
                .or_else(|| check(point, point.down, Instrument::LegDown))
                .or_else(|| check(point, point.chart, Instrument::Pen))
        })
    },
};

/// Values are written to the division: legs to 0.05 in, the pen to half a division.
///
/// Neither coarser nor finer than the scale can be read. Broken by `3` or `3.127` for a leg, or by
/// `47.25` for the pen; kept by `3.1`, `3.05`, `47`, `47.5` and `47 1/2`.
pub static TO_THE_DIVISION: ProcedureRule = ProcedureRule {
    id: "to-the-division",
    title: "Write to half a division",
    why: "Coarser values throw accuracy away; finer values claim what the scale does not show.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Points,
    repair: Repair::ReadAsSeen,
    test: |evidence| {
        Outcome::over(evidence.points().iter(), |point| {
            let number = point.number;
            let wrong = [
                (Field::Up(number), 1..=2),
                (Field::Down(number), 1..=2),
                (Field::Chart(number), 0..=1),
            ]
            .into_iter()
            .find_map(|(field, wanted)| {
                let text = evidence.book.text(field)?;
                let decimals = decimals_of(text)?;
                (!wanted.contains(&decimals)).then_some(text)
            })?;
            let text = format!("`{wrong}` is not written to half a division");
            Some(Slip::at_point(point.last.tick(), number.number(), text))
        })
    },
};

/// How many decimals a text has; `None` for fractions and for text that is not a number.
fn decimals_of(text: &str) -> Option<usize> {
    let tidy = text.trim().replace(',', ".");
    if !tidy.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '\u{2212}')) {
        return None;
    }
    Some(tidy.split_once('.').map_or(0, |(_, decimals)| decimals.len()))
}
