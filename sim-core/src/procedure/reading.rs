//! Phase E, reading a point or a flow check: both legs, at eye level, the pen tapped to rest, written
//! as visible.
//!
//! Every rule looks at the moment at which the instrument was read, whenever the value was written.

use super::evidence::{At, Evidence, PointTaken};
use super::fluid::density_at;
use super::outcome::{Outcome, beyond};
use super::rows::{Row, as_written, checks_of, points_of, rows, slip};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::field_book::Field;

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

/// The outcome over every reading of the pen: one slip for each that was taken in a wrong state.
fn at_charts(evidence: &Evidence<'_>, wrong: fn(At<'_>) -> Option<String>) -> Outcome {
    let charts = rows(evidence)
        .into_iter()
        .map(Row::chart)
        .filter_map(|field| Some((field, evidence.read(field)?)));
    Outcome::over(charts, |(field, at)| Some(slip(field, at, &wrong(at)?)))
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
        let of_points = Outcome::over(whole, |point| {
            let text = legs_missing(point.up, point.down)?;
            Some(Slip::at_point(point.first.tick(), point.number.number(), text))
        });
        let of_checks = Outcome::over(checks_of(evidence), |row| {
            let [up, down] = row.legs().map(|field| evidence.read(field));
            let text = legs_missing(up, down).filter(|_| !evidence.rightly_stopped())?;
            let at = up.or(down).or_else(|| evidence.read(row.chart()))?;
            Some(slip(row.chart(), at, text))
        });
        of_points.and(of_checks)
    },
};

/// What is missing of the legs of a row.
const fn legs_missing(up: Option<At<'_>>, down: Option<At<'_>>) -> Option<&'static str> {
    match (up, down) {
        (Some(_), Some(_)) => None,
        (Some(_), None) => Some("only the leg that went up was read"),
        (None, Some(_)) => Some("only the leg that went down was read"),
        (None, None) => Some("no leg was read"),
    }
}

/// The pressure difference is the sum of both legs as written.
///
/// A fluid other than water counts with its density. Broken by 3.1 and 3.0 with 3.1 as their sum; kept
/// by 6.1.
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
            let density = density_at(evidence, Field::Up(point));
            let off = (sum - (up + down) * density).abs();
            let text = if density > 1.0 {
                format!(
                    "wrote {sum} in for {up} in and {down} in of a fluid {density} times as dense as \
                     water, which are {:.2} in of water",
                    (up + down) * density
                )
            } else {
                format!(
                    "wrote {sum} in for {up} in and {down} in, which add up to {:.2} in",
                    up + down
                )
            };
            (off > 0.051).then(|| slip(text))
        })
    },
};

/// Legs are read with the eye within 15 mm of the level of the water.
///
/// Judged by the look at which each leg was read. Broken by reading from 60 mm above; kept
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
        let looks = rows(evidence).into_iter().filter_map(|row| {
            let looks = row.legs().into_iter().filter_map(|field| evidence.look(field));
            let worst = looks.max_by(|one, other| eye(one).total_cmp(&eye(other)))?;
            Some((row.chart(), worst))
        });
        Outcome::over(looks, |(field, worst)| {
            let text = format!("leg read with the eye {:.0} mm off level", eye(&worst));
            (eye(&worst) > EYE_MM).then(|| slip(field, worst, &text))
        })
    },
};

/// How far the eye was off level, mm.
fn eye(look: &At<'_>) -> f64 {
    look.event.after.eye_mm.abs()
}

/// Nothing is written without looking at it since the flow was set.
///
/// What was read in time may be written later. Broken by writing a leg as expected from the last point;
/// kept by a look at leg and pen each time.
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
        Outcome::over(rows(evidence), |row| {
            let unseen = row.readings(evidence).find(|reading| reading.look.is_none())?;
            let at = evidence.written(unseen.field)?;
            let text =
                "a reading was written without looking at the instrument since the flow was set";
            Some(slip(unseen.field, at, text))
        })
    },
};

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
        Outcome::over(points_of(evidence), |row| {
            let wrong = row.readings(evidence).find(|reading| {
                reading.off().is_none_or(|off| beyond(off, NO_READING_DIVISIONS))
            })?;
            Some(slip(wrong.field, evidence.read(wrong.field)?, &as_written(evidence, wrong)))
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
        Outcome::over(rows(evidence), |row| {
            let [up, down] = row.legs();
            let shown = match row {
                Row::Point(number) if evidence.is_electronic() => {
                    Some((Field::DeltaH(number), 2..=2))
                }
                _ => None,
            };
            let wrong = [(up, 1..=2), (down, 1..=2), (row.chart(), 0..=1)];
            wrong.into_iter().chain(shown).find_map(|(field, wanted)| {
                let text = evidence.book.text(field)?;
                let decimals = decimals_of(text)?;
                let text = format!("`{text}` is not written to half a division");
                let at = evidence.written(field)?;
                (!wanted.contains(&decimals)).then(|| slip(field, at, &text))
            })
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
