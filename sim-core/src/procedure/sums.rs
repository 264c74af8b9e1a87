//! Phase G, the sums: flows, chart terms, and the line through them.

use super::evidence::Evidence;
use super::own_sums::{OwnPoint, OwnSums};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::{Expression, FittedLine, PointReading, RecorderScale};
use crate::field_book::Field;
use crate::time::Tick;

/// How far a written flow may be from the sum, m3/min: two decimals, rounded, and 273 for 273.15.
pub(crate) const FLOW_OFF_M3_MIN: f64 = 0.0061;
/// How far a written chart term may be from the sum: one decimal, rounded, and 273 for 273.15.
pub(crate) const TERM_OFF: f64 = 0.08;
/// How far a written slope may be from the sum, as a share of it.
const SLOPE_OFF: f64 = 0.01;
/// How far a written intercept may be from the sum, chart divisions.
const INTERCEPT_OFF: f64 = 0.35;
/// How far a written correlation coefficient may be from the sum.
const CORRELATION_OFF: f64 = 0.0011;

/// Each point's flow follows from its own readings.
///
/// Qstd = (sqrt(dH P/760 298/T) - b)/m, standard m3/min; dH inches of water, P mmHg, T kelvins.
/// Broken by 1.74 where the readings give 1.70; kept by 1.70 or 1.703.
pub static POINT_FLOWS: ProcedureRule = ProcedureRule {
    id: "point-flows",
    title: "Work out the flow of each point",
    why: "The line is drawn through these numbers.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR 50 App. B, 9.3.7 (form read; algebra from memory)"),
    phase: WorkPhase::Sums,
    repair: Repair::RedoSums,
    test: |evidence| {
        each_point(evidence, |point| {
            let written = evidence.book.number(Field::PointFlow(point.number))?;
            let off = (written - point.flow).abs();
            (off > FLOW_OFF_M3_MIN).then(|| {
                format!(
                    "wrote {written} m³/min where the own readings give {:.3} m³/min",
                    point.flow
                )
            })
        })
    },
};

/// The chart term is that of the recorder on the bench: I sqrt(P/760 298/T) for a square-root scale.
///
/// There, broken by plotting I itself, or by a root over I; kept by 55.1 for I = 56 at 747 mmHg and 25 °C.
pub static EXPRESSION: ProcedureRule = ProcedureRule {
    id: "chart-expression",
    title: "The chart term that fits the recorder",
    why: "The wrong one gives a fine line, r = 0.998, and a wrong flow on any other day.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::memory(
        "40 CFR 50 App. B, Table 1 (text around it read; table from memory)",
    ),
    phase: WorkPhase::Sums,
    repair: Repair::RightExpression,
    test: |evidence| {
        each_point(evidence, |point| {
            let written = evidence.book.number(Field::ChartTerm(point.number))?;
            let off = (written - point.term).abs();
            let right = evidence.setup.expression();
            let other = other_recorder(right, point, written).filter(|_| off > TERM_OFF)?;
            let (other, scale) = (term_of(other), scale(right.recorder));
            Some(format!("wrote {written}, which is {other}; {scale} gives {:.2}", point.term))
        })
    },
};

/// Each point's chart term follows from its own reading.
///
/// Broken by a slip of the sum; kept within 0.08. A wrong expression is the other rule's business.
pub static CHART_TERMS: ProcedureRule = ProcedureRule {
    id: "chart-terms",
    title: "Work out the chart term of each point",
    why: "The line is drawn through these numbers.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR 50 App. B, 9.3.8 (from memory)"),
    phase: WorkPhase::Sums,
    repair: Repair::RedoSums,
    test: |evidence| {
        each_point(evidence, |point| {
            let written = evidence.book.number(Field::ChartTerm(point.number))?;
            let off = (written - point.term).abs();
            let other = other_recorder(evidence.setup.expression(), point, written);
            (off > TERM_OFF && other.is_none()).then(|| {
                format!("wrote chart term {written} where the own reading gives {:.2}", point.term)
            })
        })
    },
};

/// The recorder whose term was written in the place of the right one, if it is that of another.
fn other_recorder(right: Expression, point: &OwnPoint, written: f64) -> Option<RecorderScale> {
    let PointReading { chart, conditions, .. } = point.reading;
    let others =
        [RecorderScale::MassFlow, RecorderScale::LinearInPressure, RecorderScale::SquareRoot];
    others.into_iter().filter(|other| *other != right.recorder).find(|&recorder| {
        let term = Expression { recorder, ..right }.calibration_term(chart, conditions);
        term.is_ok_and(|term| (written - term).abs() <= TERM_OFF)
    })
}

/// The recorder that the own chart terms are for: another than the one on the bench where the terms
/// of most points are those of that other one.
pub(crate) fn own_recorder(evidence: &Evidence<'_>) -> RecorderScale {
    let right = evidence.setup.expression();
    let points = OwnSums::of(evidence).points;
    let of_point = |point: &OwnPoint| {
        let written = evidence.book.number(Field::ChartTerm(point.number))?;
        let off = (written - point.term).abs();
        other_recorder(right, point, written).filter(|_| off > TERM_OFF)
    };
    let wrong: Vec<RecorderScale> = points.iter().filter_map(of_point).collect();
    let others =
        [RecorderScale::MassFlow, RecorderScale::LinearInPressure, RecorderScale::SquareRoot];
    let most = others.into_iter().find(|other| {
        2 * wrong.iter().filter(|recorder| *recorder == other).count() > points.len()
    });
    most.unwrap_or(right.recorder)
}

/// The term of a recorder, in words.
fn term_of(recorder: RecorderScale) -> String {
    match recorder {
        RecorderScale::MassFlow => format!("the chart reading itself, as for {}", scale(recorder)),
        _ => format!("the term of {}", scale(recorder)),
    }
}

/// What a recorder's chart is.
const fn scale(recorder: RecorderScale) -> &'static str {
    match recorder {
        RecorderScale::SquareRoot => "a square-root scale",
        RecorderScale::LinearInPressure => "an indicator linear in pressure",
        RecorderScale::MassFlow => "a mass flow meter",
    }
}

/// Slope, intercept and correlation coefficient are those of least squares through the points.
///
/// Points as worked out, rounded or not, are both right. Broken by a line drawn by eye that is off
/// by more than 1 percent in slope or 0.35 in intercept; kept by least squares.
pub static LINE: ProcedureRule = ProcedureRule {
    id: "line",
    title: "Least squares through the own points",
    why: "Every later volume is read off this line.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR 50 App. B, 9.3.8 (from memory)"),
    phase: WorkPhase::Sums,
    repair: Repair::RedoSums,
    test: |evidence| {
        let sums = OwnSums::of(evidence);
        let Some(line) = sums.line else { return Vec::new() };
        if line_matches(evidence, &sums).iter().all(|(_, right)| right.unwrap_or(true)) {
            return Vec::new();
        }
        let text = |field| evidence.book.text(field).unwrap_or("nothing");
        let evidence_text = format!(
            "wrote slope {}, intercept {}, r {}; the own points give {:.2}, {:.2}, {:.4}",
            text(Field::Slope),
            text(Field::Intercept),
            text(Field::Correlation),
            line.slope,
            line.intercept,
            line.r
        );
        vec![Slip::at(tick_of(evidence, Field::Slope), evidence_text)]
    },
};

/// For slope, intercept and correlation: whether the written number is right, if there is one.
pub(crate) fn line_matches(evidence: &Evidence<'_>, sums: &OwnSums) -> [(Field, Option<bool>); 3] {
    let lines: Vec<FittedLine> = [sums.line, sums.written_line].into_iter().flatten().collect();
    let right = |field: Field, near: &dyn Fn(f64, &FittedLine) -> bool| {
        let written = evidence.book.number(field)?;
        Some(lines.iter().any(|line| near(written, line)))
    };
    let slope = |written: f64, line: &FittedLine| (written / line.slope - 1.0).abs() <= SLOPE_OFF;
    let intercept =
        |written: f64, line: &FittedLine| (written - line.intercept).abs() <= INTERCEPT_OFF;
    let correlation = |written: f64, line: &FittedLine| (written - line.r).abs() <= CORRELATION_OFF;
    [
        (Field::Slope, right(Field::Slope, &slope)),
        (Field::Intercept, right(Field::Intercept, &intercept)),
        (Field::Correlation, right(Field::Correlation, &correlation)),
    ]
}

/// One slip for each point whose sum is wrong.
fn each_point(evidence: &Evidence<'_>, wrong: impl Fn(&OwnPoint) -> Option<String>) -> Vec<Slip> {
    OwnSums::of(evidence)
        .points
        .iter()
        .filter_map(|point| {
            let tick = tick_of(evidence, Field::PointFlow(point.number));
            Some(Slip::at_point(tick, point.number.number(), wrong(point)?))
        })
        .collect()
}

/// When a field was last written, or the session's end.
pub(super) fn tick_of(evidence: &Evidence<'_>, field: Field) -> Tick {
    evidence.written(field).map_or(evidence.end_tick, |at| at.tick())
}
