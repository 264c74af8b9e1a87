//! What the slips of a run cost, in the volume of that sample.
//!
//! A slip in reading or calculating changes the reported volume: the calculations of the run are
//! repeated with that one value as it was visible, and all others as written. A slip in handling, or a
//! fault of the run, changes the air itself: the session is replayed through the day of the run with
//! that one thing undone, and the air that passed through the filter is compared.

use super::context::CostContext;
use super::edits::Edits;
use crate::calibration::{AirConditions, RunPart, RunVolume, run_volume};
use crate::fault::{Fault, FaultKind};
use crate::field_book::Field;
use crate::procedure::evidence::Evidence;
use crate::procedure::own_sums::own_curve;
use crate::procedure::{flow_check, volume};
use crate::rig::parts::{BlowerPlug, TimerSwitch, Trip};
use crate::scenario::run::ScheduledTime as RunMoment;
use crate::session::action::Action;
use crate::session::counterfactual::{
    Counterfactual, EventKind, EventOrigin, Intervention, PlannedEvent, counterfactual,
};
use crate::session::ended_session::EndedSession;
use crate::session::ground_truth::SampleTruth;
use crate::time::Tick;
use crate::units::{PA_PER_MMHG, ZERO_CELSIUS_K};

/// Below this reading of the pen the sampler is not running, chart divisions.
const DRAWS: f64 = 10.0;

/// How a slip or a fault of the run is undone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum SampleMethod {
    /// A slip against the rule with this id is undone.
    Rule(&'static str),
    /// The fault is removed.
    Without(Fault),
}

/// A volume with a slip, and without it, standard m3.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Sampled {
    /// With the slip.
    pub told_m3: Option<f64>,
    /// With the slip undone.
    pub undone_m3: Option<f64>,
    /// What both volumes are.
    pub note: &'static str,
}

const TOLD: &str = "change of the reported volume of this sample; not in the sum";
const DRAWN: &str =
    "change of the volume that passed through the filter of this sample; not in the sum";

/// Volumes with a slip and without it; `None` if it does not affect this sample.
pub(super) fn sampled(
    way: &SampleMethod,
    context: &CostContext<'_>,
    signed: &EndedSession,
) -> Option<Sampled> {
    let evidence = context.evidence;
    let truth = volume::truth(evidence)?;
    let id = match way {
        SampleMethod::Without(fault) => {
            let mut edits = Edits::default();
            edits.bench.without.push(*fault);
            return Some(drawn(&truth, &had(signed, context, &edits)));
        }
        SampleMethod::Rule(id) => *id,
    };
    let told = |undone_m3: Option<f64>| {
        let told_m3 = Numbers::of(evidence).and_then(|own| own.volume(evidence));
        Some(Sampled { told_m3, undone_m3, note: TOLD })
    };
    let with = |change: &dyn Fn(&mut Numbers)| {
        let mut numbers = Numbers::of(evidence)?;
        change(&mut numbers);
        numbers.volume(evidence)
    };
    match id {
        "run-minutes" => told(with(&|own| {
            own.runs_for(meter_difference(evidence).unwrap_or(truth.powered_min));
        })),
        "meter-before" | "meter-after" => told(with(&|own| own.runs_for(truth.powered_min))),
        "mean-chart" => told(with(&|own| own.reads(truth.mean_pen))),
        "run-air" => told(with(&|own| {
            own.pressure_mmhg = truth.mean_pressure_mmhg;
            own.temperature_c = truth.mean_temperature_c;
        })),
        "run-volume" => Some(Sampled {
            told_m3: evidence.book.number(Field::Volume),
            undone_m3: volume::own_run(evidence).map(|run| run.volume_std_m3),
            note: TOLD,
        }),
        "run-split" => told(by_hours(evidence, signed)),
        _ => {
            let mut edits = Edits::default();
            let leaving = evidence.leaving()?.index;
            edits.does_before(leaving, events(id, evidence, signed)?);
            Some(drawn(&truth, &had(signed, context, &edits)))
        }
    }
}

/// What passed through the filter, with a slip and in the session replayed without it.
fn drawn(truth: &SampleTruth, without: &Counterfactual) -> Sampled {
    let sample = without.rig.sample.as_ref();
    Sampled {
        told_m3: Some(truth.filtered_std_m3),
        undone_m3: sample.map(|sample| sample.filtered_std_m3),
        note: DRAWN,
    }
}

/// Replays the whole session, including the day of the run.
fn had(signed: &EndedSession, context: &CostContext<'_>, edits: &Edits) -> Counterfactual {
    let mut steps = Vec::new();
    for at in context.evidence.indexed_events() {
        let tick = at.tick();
        for kind in edits.before.get(&at.index).into_iter().flatten() {
            steps.push(PlannedEvent { tick, kind: kind.clone(), origin: EventOrigin::Between });
        }
        let kind = EventKind::Act(at.event.action.clone());
        steps.push(PlannedEvent { tick, kind, origin: EventOrigin::Original(at.index) });
    }
    counterfactual(signed, &edits.bench, &steps)
}

/// What should have been done before the site was left; `None` if it does not change the sampled air.
fn events(id: &str, evidence: &Evidence<'_>, signed: &EndedSession) -> Option<Vec<EventKind>> {
    let act = |action| EventKind::Act(action);
    Some(match id {
        "timer-as-ordered" => timer_set(evidence)?,
        "timer-in-charge" => {
            let mut events: Vec<EventKind> = [
                Action::PlugSampler,
                Action::PlugBlower { into: BlowerPlug::Controller },
                Action::SwitchTimer { to: TimerSwitch::Auto },
            ]
            .map(act)
            .into();
            events.extend(timer_set(evidence)?);
            events
        }
        "trimmed-to-set-point" | "set-on-warm-blower" => {
            vec![act(Action::TurnTrim { turns: turns_to_set_point(evidence, signed)? })]
        }
        "filter-fitted" => vec![
            EventKind::Intervene(Intervention::FilterFitted),
            EventKind::Intervene(Intervention::FrameTight),
        ],
        "filter-sound" => vec![EventKind::Intervene(Intervention::FilterSound)],
        "filter-centred" => vec![EventKind::Intervene(Intervention::FilterCentred)],
        "frame-tight" => vec![EventKind::Intervene(Intervention::FrameTight)],
        _ => return None,
    })
}

/// Sets the dial to the time and the trippers to the ordered hours, and tightens their screws.
fn timer_set(evidence: &Evidence<'_>) -> Option<Vec<EventKind>> {
    let order = evidence.setup.work_order.run.as_ref()?;
    let station = &evidence.setup.station;
    let hours_s = station.start.hours() * 3600.0 + evidence.leaving()?.tick().seconds();
    let days = (hours_s / 86_400.0).floor();
    let weekday = |days: i64| station.date.later(days).weekday();
    let dial = Action::SetDial {
        weekday: weekday(days as i64),
        hours: (hours_s - 86_400.0 * days) / 3600.0,
    };
    let tripper = |trip: Trip, at: RunMoment| {
        [
            Action::SetTripper { trip, weekday: weekday(at.day.into()), hours: at.at.hours() },
            Action::FastenTripper { trip },
        ]
    };
    let trippers = tripper(Trip::On, order.on).into_iter().chain(tripper(Trip::Off, order.off));
    Some(std::iter::once(dial).chain(trippers).map(EventKind::Act).collect())
}

/// Turns of the trim screw that bring the pen from where it was to the set point, by the trainee's
/// line.
fn turns_to_set_point(evidence: &Evidence<'_>, signed: &EndedSession) -> Option<f64> {
    let leaving = evidence.leaving()?.facts();
    let air = AirConditions::as_read(leaving.pressure_mmhg, leaving.temperature_c).ok()?;
    let curve = own_curve(evidence)?.in_air(air);
    let flow = |chart: f64| curve.flow_std_m3_min(chart, air).ok();
    let stood = evidence.reading(Field::StartChart)?.seen;
    let off = flow(evidence.book.number(Field::SetPoint)?)? - flow(stood)?;
    let controller = &signed.setup.rig.flow_controller;
    let span = controller.highest_std_m3_min - controller.lowest_std_m3_min;
    Some((off / span * controller.trim_turns).clamp(-5.0, 5.0))
}

/// The difference of both readings of the elapsed-time meter as written, min; nothing if it is dead.
fn meter_difference(evidence: &Evidence<'_>) -> Option<f64> {
    if evidence.setup.faults.iter().any(|(fault, _)| fault.kind() == FaultKind::MeterDead) {
        return None;
    }
    let number = |field| evidence.book.number(field);
    Some(number(Field::MeterAfter)? - number(Field::MeterBefore)?)
}

/// What the calculations of the run start from.
struct Numbers {
    parts: Vec<RunPart>,
    pressure_mmhg: f64,
    temperature_c: f64,
}

impl Numbers {
    /// As written.
    fn of(evidence: &Evidence<'_>) -> Option<Self> {
        let number = |field| evidence.book.number(field);
        Some(Self {
            parts: volume::own_parts(evidence),
            pressure_mmhg: number(Field::RunPressure)?,
            temperature_c: number(Field::RunTemperature)?,
        })
    }

    /// Scales the parts so that they last this many minutes together.
    fn runs_for(&mut self, minutes: f64) {
        let written: f64 = self.parts.iter().map(|part| part.minutes).sum();
        for part in &mut self.parts {
            part.minutes *= minutes / written;
        }
    }

    /// Scales the parts so that their mean is this chart reading.
    fn reads(&mut self, chart: f64) {
        let minutes: f64 = self.parts.iter().map(|part| part.minutes).sum();
        let weighed: f64 = self.parts.iter().map(|part| part.chart * part.minutes).sum();
        for part in &mut self.parts {
            part.chart *= chart * minutes / weighed;
        }
    }

    /// The volume that follows, standard m3.
    fn volume(&self, evidence: &Evidence<'_>) -> Option<f64> {
        let air = AirConditions::as_read(self.pressure_mmhg, self.temperature_c).ok()?;
        let run = run_volume(own_curve(evidence)?.in_air(air), &self.parts, air).ok()?;
        Some(run.volume_std_m3 * flow_check::of_run(evidence))
    }
}

/// The volume by the trainee's line from the trace of each hour in the air of that hour, for the
/// minutes that the trainee wrote.
fn by_hours(evidence: &Evidence<'_>, signed: &EndedSession) -> Option<f64> {
    let curve = own_curve(evidence)?;
    let minutes: f64 = volume::own_parts(evidence).iter().map(|part| part.minutes).sum();
    let sample = signed.rig.sample.as_ref()?;
    let flows: Option<Vec<f64>> = sample
        .log()
        .iter()
        .filter(|line| line.pen > DRAWS)
        .map(|line| {
            let celsius = line.temperature_k - ZERO_CELSIUS_K;
            let air = AirConditions::as_read(line.pressure_pa / PA_PER_MMHG, celsius).ok()?;
            curve.in_air(air).flow_std_m3_min(line.pen, air).ok()
        })
        .collect();
    let flows = flows?;
    let mean = flows.iter().sum::<f64>() / flows.len() as f64;
    let air = AirConditions::as_read(760.0, 25.0).ok()?;
    let run = RunVolume::from_flow(mean, minutes, air).ok()?;
    Some(run.volume_std_m3 * flow_check::of_run(evidence))
}

/// Whether the session has a sample: a run was made.
pub(super) fn has_sample(evidence: &Evidence<'_>) -> bool {
    volume::truth(evidence).is_some() && evidence.end_tick > Tick(0)
}
