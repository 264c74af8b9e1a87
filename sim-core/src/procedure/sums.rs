//! Phase G, the calculations: flows, corrected chart readings, and the line through them.

use super::certificate::CERTIFICATE_PAIR;
use super::evidence::{Evidence, TraineeDecision};
use super::outcome::{Outcome, beyond};
use super::own_sums::{OwnPoint, OwnSums, own_delta_h};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::{
    AVERAGES_PRESSURE_WINDOW_MMHG, AVERAGES_TEMPERATURE_WINDOW_K, Basis, Expression, FittedLine,
    PointReading, RecorderScale,
};
use crate::field_book::Field;
use crate::scenario::setup::SeasonAverages;
use crate::time::Tick;
use crate::units::for_text;

/// How far a written flow may be from the calculated one, m3/min: two decimals, rounded, and 273 for
/// 273.15.
pub(crate) const FLOW_OFF_M3_MIN: f64 = 0.0061;
/// How far a written corrected chart reading may be from the calculated one: one decimal, rounded, and
/// 273 for 273.15.
pub(crate) const TERM_OFF: f64 = 0.11;
/// How far a written slope may be from the calculated one, as a fraction of it.
const SLOPE_OFF: f64 = 0.01;
/// How far a written intercept may be from the calculated one, chart divisions.
const INTERCEPT_OFF: f64 = 0.5;
/// How far a written correlation coefficient may be from the calculated one.
const CORRELATION_OFF: f64 = 0.0011;

/// The flow of each point follows from its readings.
///
/// Qstd = (sqrt(dH P/760 298/T) - b)/m, standard m3/min; dH inches of water, P mmHg, T kelvins.
/// Broken by 1.74 where the readings give 1.70; kept by 1.70 or 1.703.
pub static POINT_FLOWS: ProcedureRule = ProcedureRule {
    id: "point-flows",
    title: "Calculate the flow of each point",
    why: "The line is drawn through these numbers.",
    severity: Severity::Data,
    decides: Decides::Never,
    // The form is read, the algebra from memory.
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3.7"),
    phase: WorkPhase::Sums,
    repair: Repair::RedoSums,
    test: |evidence| {
        each_point(evidence, |point| {
            let own = for_text(point.flow, 3);
            let Some(written) = evidence.book.number(Field::PointFlow(point.number)) else {
                return Some(format!("the flow is missing; your readings give {own:.3} m³/min"));
            };
            beyond((written - point.flow).abs(), FLOW_OFF_M3_MIN)
                .then(|| format!("wrote {written} m³/min, but your readings give {own:.3} m³/min"))
        })
    },
};

/// The expression of the corrected chart reading is that for the recorder on the bench:
/// I sqrt(P/760 298/T) for a square-root scale.
///
/// For that scale, broken by plotting I itself, or by a root over I; kept by 55.1 for I = 56 at
/// 747 mmHg and 25 °C.
pub static EXPRESSION: ProcedureRule = ProcedureRule {
    id: "chart-expression",
    title: "Use the expression that fits the recorder",
    why: "The wrong one gives a good line with r = 0.998, and a wrong flow on any other day.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    // The text around the table is read, the table from memory.
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3.9 and Table 1"),
    phase: WorkPhase::Sums,
    repair: Repair::RightExpression,
    test: |evidence| {
        let term = |number| evidence.book.number(Field::ChartTerm(number));
        let own = OwnSums::of(evidence).points;
        if let Some(first) = own.first().filter(|_| own.iter().all(|p| term(p.number).is_none()))
            && calculated(evidence)
        {
            return Outcome::without(evidence, Field::ChartTerm(first.number));
        }
        each_point(evidence, |point| {
            let written = term(point.number)?;
            let off = (written - point.term).abs();
            let other = other_expression(evidence, point, written).filter(|_| off > TERM_OFF)?;
            let right = evidence.expression();
            let (other, wanted) = (term_of(other, right), wanted(evidence, right));
            let term = for_text(point.term, 2);
            Some(format!("wrote {written}, which is {other}, but {wanted} gives {term:.2}"))
        })
    },
};

/// The corrected chart reading of each point follows from its reading.
///
/// Broken by an arithmetic slip; kept within 0.08. A wrong expression breaks the other rule.
pub static CHART_TERMS: ProcedureRule = ProcedureRule {
    id: "chart-terms",
    title: "Calculate the corrected chart reading of each point",
    why: "The line is drawn through these numbers.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.9"),
    phase: WorkPhase::Sums,
    repair: Repair::RedoSums,
    test: |evidence| {
        each_point(evidence, |point| {
            let own = for_text(point.term, 2);
            let Some(written) = evidence.book.number(Field::ChartTerm(point.number)) else {
                let missing =
                    format!("the corrected chart reading is missing; your reading gives {own:.2}");
                return (!evidence.rightly_stopped()).then_some(missing);
            };
            let off = beyond((written - point.term).abs(), TERM_OFF);
            let other = other_expression(evidence, point, written);
            (off && other.is_none()).then(|| {
                format!(
                    "wrote a corrected chart reading of {written}, but your reading gives {own:.2}"
                )
            })
        })
    },
};

/// The expression that was used instead of the right one, if there is one: that of another kind of
/// recorder, or, where the order names averages of the season, that with or without them.
fn other_expression(evidence: &Evidence<'_>, point: &OwnPoint, written: f64) -> Option<Expression> {
    let PointReading { chart, conditions, .. } = point.reading;
    let right = evidence.expression();
    let recorders =
        [RecorderScale::MassFlow, RecorderScale::LinearInPressure, RecorderScale::SquareRoot];
    let averages = evidence.setup.work_order.averages.and_then(SeasonAverages::air);
    let bases = [Some(right.basis), Some(Basis::Actual), averages.map(Basis::Averages)];
    let all = bases.into_iter().flatten().flat_map(|basis| {
        recorders.into_iter().map(move |recorder| Expression { recorder, basis })
    });
    all.filter(|other| *other != right).find(|other| {
        let term = other.calibration_term(chart, conditions);
        term.is_ok_and(|term| (written - term).abs() <= TERM_OFF)
    })
}

/// The expression that the trainee used: another than the one that is asked for, if the values of most
/// points are those of that other one.
pub(crate) fn own_expression(evidence: &Evidence<'_>) -> Expression {
    let points = OwnSums::of(evidence).points;
    let of_point = |point: &OwnPoint| {
        let written = evidence.book.number(Field::ChartTerm(point.number))?;
        let off = (written - point.term).abs();
        other_expression(evidence, point, written).filter(|_| off > TERM_OFF)
    };
    let wrong: Vec<Expression> = points.iter().filter_map(of_point).collect();
    let most = wrong.iter().find(|other| {
        2 * wrong.iter().filter(|expression| expression == other).count() > points.len()
    });
    most.copied().unwrap_or_else(|| evidence.expression())
}

/// The corrected chart reading by a wrong expression, in words.
fn term_of(other: Expression, right: Expression) -> String {
    match (other.recorder, other.basis) {
        (recorder, basis) if recorder == right.recorder => match basis {
            Basis::Actual => "the value without the averages of the season".to_owned(),
            Basis::Averages(_) => "the value with the averages of the season built in".to_owned(),
        },
        (RecorderScale::MassFlow, _) => {
            format!("the chart reading itself, as for {}", scale(other.recorder))
        }
        (recorder, _) => format!("the value for {}", scale(recorder)),
    }
}

/// The expression that is asked for, in words.
fn wanted(evidence: &Evidence<'_>, right: Expression) -> String {
    let recorder = scale(right.recorder);
    match (right.basis, evidence.setup.work_order.averages) {
        (Basis::Averages(_), _) => format!("{recorder} with the averages of the order built in"),
        (Basis::Actual, Some(_)) => format!(
            "{recorder}, on a day farther than {AVERAGES_PRESSURE_WINDOW_MMHG:.0} mmHg or \
             {AVERAGES_TEMPERATURE_WINDOW_K:.0} °C from the averages,"
        ),
        (Basis::Actual, None) => recorder.to_owned(),
    }
}

/// A kind of recorder, in words.
const fn scale(recorder: RecorderScale) -> &'static str {
    match recorder {
        RecorderScale::SquareRoot => "a square-root scale",
        RecorderScale::LinearInPressure => "an indicator linear in pressure",
        RecorderScale::MassFlow => "a mass flow meter",
    }
}

/// Slope, intercept and correlation coefficient are those of least squares through the points.
///
/// The points may be rounded or not. Broken by a line drawn by eye that is off by more than 1 percent in
/// slope or 0.35 in intercept; kept by least squares.
pub static LINE: ProcedureRule = ProcedureRule {
    id: "line",
    title: "Fit a least-squares line through your points",
    why: "Every later volume is read off this line.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 9.3.10"),
    phase: WorkPhase::Sums,
    repair: Repair::RedoSums,
    test: |evidence| {
        if !calculated(evidence) {
            return Outcome::NotReached;
        }
        let sums = OwnSums::of(evidence);
        let Some(line) = sums.line else { return no_line(evidence) };
        let blank_is_right = evidence.rightly_stopped();
        let matches = line_matches(evidence, &sums);
        if matches.iter().all(|(_, right)| right.unwrap_or(blank_is_right)) {
            return Outcome::Kept;
        }
        let text = |field| evidence.book.text(field).unwrap_or("nothing");
        let evidence_text = format!(
            "wrote slope {}, intercept {}, r {}, but your points give {:.2}, {:.2}, {:.4}",
            text(Field::Slope),
            text(Field::Intercept),
            text(Field::Correlation),
            for_text(line.slope, 2),
            for_text(line.intercept, 2),
            line.r
        );
        Outcome::broken(Slip::at(tick_of(evidence, Field::Slope), evidence_text))
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

/// One slip for each point with a wrong calculation.
fn each_point(evidence: &Evidence<'_>, wrong: impl Fn(&OwnPoint) -> Option<String>) -> Outcome {
    if !calculated(evidence) {
        return Outcome::NotReached;
    }
    let own = OwnSums::of(evidence).points;
    if own.len() < whole_points(evidence) {
        return no_flow(evidence);
    }
    Outcome::over(&own, |point| {
        let tick = tick_of(evidence, Field::PointFlow(point.number));
        Some(Slip::at_point(tick, point.number.number(), wrong(point)?))
    })
}

/// Whether the work came to the calculations of a line: one of them is written, or the calibration is
/// accepted.
fn calculated(evidence: &Evidence<'_>) -> bool {
    let written = |field| evidence.book.text(field).is_some();
    let of_line = [Field::Slope, Field::Intercept, Field::Correlation];
    // Whoever had to leave in the middle of the calculations leaves some of them undone.
    if evidence.fled_from_thunder() {
        return of_line.into_iter().all(written);
    }
    evidence.verdict() == TraineeDecision::Accepted
        || of_line.into_iter().any(written)
        || evidence
            .book
            .points()
            .into_iter()
            .any(|number| written(Field::PointFlow(number)) || written(Field::ChartTerm(number)))
}

/// The number of points with a chart reading and a pressure.
fn whole_points(evidence: &Evidence<'_>) -> usize {
    let whole = |number: &_| {
        evidence.book.number(Field::Chart(*number)).is_some()
            && own_delta_h(evidence, *number).is_some()
    };
    evidence.book.points().iter().filter(|number| whole(number)).count()
}

/// The outcome where no flow follows from the readings: what is missing for it.
fn no_flow(evidence: &Evidence<'_>) -> Outcome {
    let [slope, intercept] = CERTIFICATE_PAIR;
    let fields = [slope, intercept, Field::Temperature, Field::Pressure];
    Outcome::without_one_of(evidence, &fields)
}

/// The outcome where no line follows from the readings: what is missing for it, unless there are too
/// few points, which is another rule's.
pub(super) fn no_line(evidence: &Evidence<'_>) -> Outcome {
    match whole_points(evidence) >= 2 {
        true => no_flow(evidence),
        false => Outcome::NotReached,
    }
}

/// When a field was last written, or the end of the session.
pub(super) fn tick_of(evidence: &Evidence<'_>, field: Field) -> Tick {
    evidence.written(field).map_or(evidence.end_tick, |at| at.tick())
}
