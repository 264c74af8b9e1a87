//! A session replayed with something changed, to find out what a slip cost. No journal is written
//! and no time limit applies; the result is what was done again, and what was true at each action.

use super::action::Action;
use super::active_session::Session;
use super::ended_session::EndedSession;
use super::error::ActError;
use super::ground_truth::EventRecord;
use super::journal::Writer;
use crate::fault::Fault;
use crate::rig::Rig;
use crate::rig::flow::filter::Filter;
use crate::rig::flow::mounting::HARD_QUARTERS;
use crate::rig::parts::{PartPlace, RigPart, Seat};
use crate::time::Tick;

/// What is changed about the bench before the first tick.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct BenchChange {
    /// Faults that are removed.
    pub without: Vec<Fault>,
    /// Whether nuts, washers and gaskets seal whatever is done to them.
    pub held_tight: bool,
    /// Whether the filter is taken off the holder.
    pub filter_out: bool,
    /// Whether the manometer's fluid stays in its legs, whatever stands on it.
    pub fluid_kept: bool,
}

/// Something done in a session that is replayed with a change.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PlannedEvent {
    /// When; a step whose tick has passed is done at once.
    pub tick: Tick,
    /// What.
    pub kind: EventKind,
    /// Where it comes from.
    pub origin: EventOrigin,
}

/// What a step does.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum EventKind {
    /// An action.
    Act(Action),
    /// A correction that only somebody who sees the truth can make.
    Intervene(Intervention),
}

/// A perfect correction, made with knowledge of the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Intervention {
    /// Brings the manometer plumb.
    Plumb,
    /// Slides the manometer's scale to its zero.
    Zero,
    /// Lays a fresh filter on the holder, and the hold-down frame on it.
    FilterFitted,
    /// Makes the filter on the holder sound and dry.
    FilterSound,
    /// Centres the filter on the holder.
    FilterCentred,
    /// Tightens the four nuts.
    FrameTight,
}

/// Where a step comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum EventOrigin {
    /// The moment with this number in the original session.
    Original(usize),
    /// A reading that was added, by number.
    Added(usize),
    /// A step that only prepares another one.
    Between,
}

/// A session that was replayed with a change.
#[derive(Debug)]
pub(crate) struct Counterfactual {
    /// What was done, with what was true at the time.
    pub events: Vec<(EventOrigin, EventRecord)>,
    /// How many actions of the original session could not be done.
    pub refused: usize,
    /// The rig after the last step.
    pub rig: Rig,
}

/// Replays a session on the same bench, with the change and with other steps. The same arguments
/// give the same bits.
pub(crate) fn counterfactual(
    signed: &EndedSession,
    change: &BenchChange,
    steps: &[PlannedEvent],
) -> Counterfactual {
    let mut setup = signed.setup.clone();
    setup.terms.time_limit_min = None;
    setup.faults.retain(|(fault, _)| !change.without.contains(fault));
    let silent = Writer::unrecorded();
    let mut session = Session::on_bench(setup, signed.source.clone(), silent);
    session.state.rig.mounting.held_tight = change.held_tight;
    if change.fluid_kept {
        session.state.rig.manometer.keep_fluid();
    }
    if change.filter_out {
        session.state.rig.mounting.set_place(RigPart::Filter, PartPlace::Case);
    }
    let (mut origins, mut refused) = (Vec::new(), 0);
    for step in steps {
        if session.advance(step.tick.0.saturating_sub(session.now.0)).is_err() {
            break;
        }
        match &step.kind {
            EventKind::Intervene(intervention) => session.intervene(*intervention),
            EventKind::Act(action) => match session.act(action.clone()) {
                Ok(()) => origins.push(step.origin),
                Err(ActError::Refused(_) | ActError::Ended | ActError::Sink(_)) => {
                    refused += usize::from(matches!(step.origin, EventOrigin::Original(_)));
                }
            },
        }
    }
    let events = origins.into_iter().zip(session.events).collect();
    Counterfactual { events, refused, rig: session.state.rig }
}

impl Session {
    /// Makes a correction at the current tick.
    fn intervene(&mut self, intervention: Intervention) {
        self.state = self.state.at(self.now);
        let rig = &mut self.state.rig;
        match intervention {
            Intervention::Plumb => rig.manometer.swing(-rig.manometer.tilt_deg()),
            Intervention::Zero if rig.is_electronic() => rig.electronic.zero_truly(),
            Intervention::Zero => {
                let [left, right] = rig.manometer.zero_in();
                rig.manometer.slide_scale(0.5 * (left + right));
            }
            Intervention::FilterFitted => {
                let lies = rig.mounting.place(RigPart::Filter) == PartPlace::Holder;
                if !lies || rig.filter.sheet.number == 0 {
                    rig.filter = Filter { deposit_kg_m2: 0.0, sheet: rig.next_sheet };
                }
                rig.mounting.set_place(RigPart::Filter, PartPlace::Holder);
                rig.mounting.set_place(RigPart::Frame, PartPlace::Holder);
            }
            Intervention::FilterSound => {
                (rig.filter.sheet.holes_mm2, rig.filter.sheet.wetness) = (0.0, 1.0);
            }
            Intervention::FilterCentred => rig.filter.sheet.seat = Seat::Centred,
            Intervention::FrameTight => rig.mounting.nuts = [HARD_QUARTERS; 4],
        }
        if !matches!(intervention, Intervention::Plumb | Intervention::Zero) {
            rig.flow_was_disturbed();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::journal::NullSink;
    use super::*;
    use crate::operator::{by_name, rehearse};

    const SCENARIO: &str = include_str!("../../../scenarios/03_a_new_blower.ron");

    #[test]
    fn unchanged_it_is_the_same_to_the_last_bit() {
        let mut session = Session::begin(SCENARIO, 5, Box::new(NullSink)).unwrap();
        rehearse(&mut session, by_name("hurried", 5).unwrap().as_mut()).unwrap();
        let signed = session.open().unwrap();
        let steps: Vec<PlannedEvent> = signed
            .events
            .iter()
            .enumerate()
            .map(|(index, moment)| PlannedEvent {
                tick: moment.tick,
                kind: EventKind::Act(moment.action.clone()),
                origin: EventOrigin::Original(index),
            })
            .collect();
        let same = counterfactual(&signed, &BenchChange::default(), &steps);
        assert_eq!(same.refused, 0);
        assert_eq!(same.events.len(), signed.events.len());
        for ((of, moment), (index, original)) in
            same.events.iter().zip(signed.events.iter().enumerate())
        {
            assert_eq!((*of, moment), (EventOrigin::Original(index), original));
        }
    }
}
