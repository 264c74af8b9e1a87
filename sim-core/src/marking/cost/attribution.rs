//! The costs, one by one and all together.

use super::causes::{Cause, causes};
use super::context::CostContext;
use super::costs::{Cost, CostOf, Costs, WaterfallStep};
use super::edits::Edits;
use super::reread::RereadReadings;
use super::run::{ChartFrom, CostedRun};
use super::sample::sampled;
use super::undo::UndoMethod;
use crate::calibration::{Curve, Expression};
use crate::field_book::Field;
use crate::marking::Marks;
use crate::procedure::Evidence;
use crate::procedure::evidence::TraineeDecision;
use crate::procedure::own_sums::own_slope_and_intercept;
use crate::procedure::sums::own_expression;
use crate::session::action::FaultPlace;
use crate::session::counterfactual::counterfactual;
use crate::session::ended_session::EndedSession;

/// The outcome of a replayed session.
#[derive(Debug, Clone, Copy)]
struct Outcome {
    /// Volume, standard m3.
    volume_m3: Option<f64>,
    /// Actions that could not be done.
    refused: usize,
}

/// The bench on which volumes are compared.
struct Bench<'a> {
    signed: &'a EndedSession,
    context: &'a CostContext<'a>,
    run: Option<CostedRun>,
    true_m3: Option<f64>,
    /// Sessions that have already been replayed.
    known: Vec<(Edits, Outcome)>,
}

const SUMS_REPEATED: &str = "calculations repeated from your readings";
const RIGHT_EXPRESSION: &str = "corrected chart reading by the expression for this recorder";
const REMAINDER: &str =
    "your reading errors, the bias of the certificate's laboratory and that of the method";
const ONLY_CHECKED: &str =
    "a flow check makes no calibration line and takes no sample, so no volume depends on it";
const BEFORE_POINTS: &str =
    "the lesson ends before the points, so there is no calibration line on which a volume depends";
const OF_SET_POINT: &str =
    "the flow at your set point against the flow at the set point from your line; not in the sum";
const NO_EFFECT_ON_SAMPLE: &str = "it changes neither the sampled air nor the reported volume";
const NO_ORDERED_FLOW: &str = "no chart reading of this rig gives the ordered flow";
const NO_SET_POINT: &str = "there is no set point that this pen can reach: the run is at the chart reading that really \
     gives the ordered flow";
const NO_OWN_LINE: &str = "you have no calibration line that gives a flow for this run";
const REFUSED: &str =
    "the calibration was refused, so no run depends on it: these would be the costs of using it";

/// Calculates what each slip of a session cost. It is a pure function with the same bits each time;
/// it replays the session about twice for each different repair.
pub fn costs(signed: &EndedSession, marks: &Marks) -> Costs {
    let evidence = signed.evidence();
    if evidence.setup.work_order.is_check_alone() {
        return without_line(ONLY_CHECKED);
    }
    if signed.next_reading.is_some() {
        return without_line(BEFORE_POINTS);
    }
    let context = CostContext::of(&evidence, &marks.findings);
    let run = CostedRun::after(&evidence, &signed.rig);
    let true_m3 = run.and_then(|run| run.drawn(&signed.rig));
    let mut bench = Bench { signed, context: &context, run, true_m3, known: Vec::new() };
    let causes = causes(&context, marks);
    let right_expression = evidence.expression();
    let expression = own_expression(&evidence);
    let read = |curve: Curve| match expression == right_expression {
        true => run?.read_rightly(curve),
        false => run?.read_off(curve),
    };
    let own = own_curve(&evidence, expression).and_then(read);
    let as_read = bench.readings_as_they_are();
    let sums = as_read.curve(expression).and_then(read);
    let right = run.and_then(|run| run.read_rightly(as_read.curve(right_expression)?));
    let base = Base { own, sums, right };

    let each: Vec<Cost> =
        causes.iter().map(|cause| cost(cause, &causes, &base, &mut bench)).collect();
    let mut stairs = vec![("sums", SUMS_REPEATED.to_owned(), sums)];
    if expression != right_expression {
        stairs.push(("expression", RIGHT_EXPRESSION.to_owned(), right));
    }
    let mut all = Edits::default();
    let mut all_m3 = right;
    for cause in causes.iter().filter(|cause| counted_with(cause, &causes).is_none()) {
        let group = causes.iter().filter(|other| cause.stands_for(other) || *other == cause);
        let mut changed = false;
        for edits in group.filter_map(again_edits) {
            all.join(edits);
            changed = true;
        }
        if changed {
            all_m3 = bench.undone(&all).volume_m3;
            stairs.push((cause.id, cause.title.clone(), all_m3));
        }
    }
    let together_pct = own.zip(all_m3).and_then(|(own, all)| percent(own, all));
    let of_line: Vec<&Cost> = causes
        .iter()
        .zip(&each)
        .filter(|(cause, _)| !matches!(cause.way, UndoMethod::Sample(_)))
        .map(|(_, cost)| cost)
        .collect();
    let single = sum_of_costs(&of_line, &base);
    Costs {
        run,
        own_volume_m3: own,
        sums_redone_m3: sums,
        true_volume_m3: true_m3,
        all_repaired_m3: all_m3,
        together_pct,
        remaining_pct: all_m3.zip(true_m3).and_then(|(all, truth)| percent(all, truth)),
        interaction_pct: single.zip(together_pct).map(|(single, together)| single - together),
        waterfall: waterfall(own, true_m3, stairs),
        notes: notes(&evidence, run, &base),
        each,
    }
}

/// The costs of a session that made no line and took no sample, so that no volume depends on it.
fn without_line(why: &str) -> Costs {
    Costs {
        run: None,
        own_volume_m3: None,
        sums_redone_m3: None,
        true_volume_m3: None,
        each: Vec::new(),
        all_repaired_m3: None,
        together_pct: None,
        remaining_pct: None,
        interaction_pct: None,
        waterfall: Vec::new(),
        notes: vec![why.to_owned()],
    }
}

/// The volumes before anything is undone, standard m3.
struct Base {
    /// By the trainee's line as written.
    own: Option<f64>,
    /// By the repeated calculations, with the trainee's expression.
    sums: Option<f64>,
    /// By the repeated calculations, with the right expression.
    right: Option<f64>,
}

/// The changes of a cause for which the session is replayed.
fn again_edits(cause: &Cause) -> Option<&Edits> {
    match &cause.way {
        UndoMethod::Replay(edits) => Some(edits),
        _ => None,
    }
}

/// An earlier cause with which this one is counted. A fault is counted with the slip
/// whose repair also undoes it, wherever that slip is.
fn counted_with<'c>(cause: &Cause, causes: &'c [Cause]) -> Option<&'c Cause> {
    again_edits(cause)?;
    let earlier = causes.iter().take_while(|other| *other != cause);
    let slips = causes.iter().filter(|other| other.repair.is_some() && cause.fault.is_some());
    slips.chain(earlier).find(|other| other.stands_for(cause))
}

/// The cost of one cause.
fn cost(cause: &Cause, causes: &[Cause], base: &Base, bench: &mut Bench<'_>) -> Cost {
    let mut note = cause.note.clone();
    let mut say = |text: &str| {
        let gap = if note.is_empty() { "" } else { "; " };
        note = format!("{note}{gap}{text}");
    };
    let (volume_m3, told_m3) = match &cause.way {
        UndoMethod::Replay(edits) => {
            let outcome = bench.undone(edits);
            match outcome.refused {
                0 => {}
                1 => say("1 action could not be repeated"),
                refused => say(&format!("{refused} actions could not be repeated")),
            }
            (outcome.volume_m3, base.right)
        }
        UndoMethod::Sums => (base.sums, base.own),
        UndoMethod::Expression => (base.right, base.sums),
        UndoMethod::SetPoint => {
            say(OF_SET_POINT);
            bench.set_point_volumes()
        }
        UndoMethod::Sample(way) => match sampled(way, bench.context, bench.signed) {
            Some(sampled) => {
                say(sampled.note);
                (sampled.undone_m3, sampled.told_m3)
            }
            None => {
                say(NO_EFFECT_ON_SAMPLE);
                (None, None)
            }
        },
        UndoMethod::NoVolume(why) => {
            say(why);
            (base.right, base.right)
        }
    };
    let counted_with = counted_with(cause, causes);
    if let Some(other) = counted_with {
        say(&format!("counted with \"{}\"", other.title));
    }
    Cost {
        id: cause.id,
        of: if cause.fault.is_some() { CostOf::Fault } else { CostOf::Rule },
        title: cause.title.clone(),
        repair: cause.repair,
        volume_m3,
        cost_pct: told_m3.zip(volume_m3).and_then(|(told, undone)| percent(told, undone)),
        counted_with: counted_with.map(|other| other.id),
        note,
    }
}

/// The sum of the single costs: those of calculations and expression, which exist even if no rule
/// was broken, and those of the causes that are counted.
fn sum_of_costs(each: &[&Cost], base: &Base) -> Option<f64> {
    let of_sums = percent(base.own?, base.sums?)?;
    let of_expression = percent(base.sums?, base.right?)?;
    use crate::procedure::Repair::{RedoSums, RightExpression, SetPointFromLine};
    let counted = each.iter().filter(|cost| {
        let elsewhere = [RedoSums, RightExpression, SetPointFromLine];
        cost.counted_with.is_none() && cost.repair.is_none_or(|repair| !elsewhere.contains(&repair))
    });
    let of_slips: f64 = counted.filter_map(|cost| cost.cost_pct).sum();
    Some(of_sums + of_expression + of_slips)
}

/// The steps from the trainee's volume to the true one. A step whose volume is unknown is left out,
/// and its change becomes part of the next.
fn waterfall(
    own: Option<f64>,
    truth: Option<f64>,
    stairs: Vec<(&'static str, String, Option<f64>)>,
) -> Vec<WaterfallStep> {
    let (Some(mut from_m3), Some(true_m3)) = (own, truth) else { return Vec::new() };
    let last = ("remainder", REMAINDER.to_owned(), truth);
    let mut steps = Vec::new();
    for (id, title, to_m3) in stairs.into_iter().chain([last]) {
        let Some(to_m3) = to_m3 else { continue };
        let change_pct = 100.0 * (to_m3 - from_m3) / true_m3;
        steps.push(WaterfallStep { id, title, from_m3, to_m3, change_pct });
        from_m3 = to_m3;
    }
    steps
}

/// Notes about the costs as a whole.
fn notes(evidence: &Evidence<'_>, run: Option<CostedRun>, base: &Base) -> Vec<String> {
    let mut notes = Vec::new();
    match run.map(|run| run.chart_from) {
        None => notes.push(NO_ORDERED_FLOW.to_owned()),
        Some(ChartFrom::OrderedFlow) => notes.push(NO_SET_POINT.to_owned()),
        Some(ChartFrom::Written | ChartFrom::OwnLine) => {}
    }
    if base.own.is_none() {
        notes.push(NO_OWN_LINE.to_owned());
    }
    if evidence.verdict() == TraineeDecision::Refused {
        notes.push(REFUSED.to_owned());
    }
    notes
}

impl Bench<'_> {
    /// The readings with nothing undone, as written.
    fn readings_as_they_are(&self) -> RereadReadings {
        let edits = Edits::default();
        let same = counterfactual(self.signed, &edits.bench, &edits.steps(self.context));
        RereadReadings::of(self.context, &same, &edits.values)
    }

    /// The volume of the session replayed with changes.
    fn undone(&mut self, edits: &Edits) -> Outcome {
        if let Some((_, outcome)) = self.known.iter().find(|(known, _)| known == edits) {
            return *outcome;
        }
        let had = counterfactual(self.signed, &edits.bench, &edits.steps(self.context));
        let expression = self.context.evidence.expression();
        let curve = RereadReadings::of(self.context, &had, &edits.values).curve(expression);
        let read = self.run.zip(curve).and_then(|(run, curve)| run.read_rightly(curve));
        let stays = |place| matches!(place, FaultPlace::Recorder | FaultPlace::Blower);
        let another_sampler = edits.bench.without.iter().any(|fault| stays(fault.place()));
        let volume_m3 = if another_sampler {
            let drawn = self.run.and_then(|run| run.drawn(&had.rig));
            read.zip(drawn.zip(self.true_m3)).map(|(read, (drawn, truth))| read * truth / drawn)
        } else {
            read
        };
        let outcome = Outcome { volume_m3, refused: had.refused };
        self.known.push((edits.clone(), outcome));
        outcome
    }

    /// The volume sampled at the chart reading that the trainee's line gives for the ordered flow,
    /// and at the one that was written, standard m3.
    fn set_point_volumes(&self) -> (Option<f64>, Option<f64>) {
        let evidence = self.context.evidence;
        let drawn_at = |chart: Option<f64>| {
            let run = CostedRun { chart: chart?, ..self.run? };
            run.drawn(&self.signed.rig)
        };
        let ordered = evidence.setup.work_order.target_flow_std_m3_min;
        let wanted = own_slope_and_intercept(evidence).and_then(|(slope, intercept)| {
            let run = self.run?;
            run.chart_for(slope * ordered + intercept, evidence.expression())
        });
        (drawn_at(wanted), drawn_at(evidence.book.number(Field::SetPoint)))
    }
}

/// The curve of the trainee's line, with the expression that the trainee used.
fn own_curve(evidence: &Evidence<'_>, expression: Expression) -> Option<Curve> {
    let (slope, intercept) = own_slope_and_intercept(evidence)?;
    Curve::new(slope, intercept, expression).ok()
}

/// How much larger one volume is than another, percent of the other.
fn percent(volume: f64, of: f64) -> Option<f64> {
    let percent = 100.0 * (volume - of) / of;
    percent.is_finite().then_some(percent)
}
