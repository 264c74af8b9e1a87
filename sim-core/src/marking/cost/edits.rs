//! What is changed when a session is replayed, and the steps that follow from it.

use std::collections::{BTreeMap, BTreeSet};

use super::context::CostContext;
use crate::field_book::{Field, PointNumber};
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::flow::plates::Plate;
use crate::session::action::Action;
use crate::session::counterfactual::{BenchChange, EventKind, EventOrigin, PlannedEvent};
use crate::time::{TICKS_PER_SECOND, Tick};

/// Time that an added point is given to settle at its flow, s.
const ADDED_SETTLES_S: u64 = 120;
/// Taps that bring a pen to rest: a neglected one needs three, and these leave a thousandth.
pub(super) const TAPS: usize = 6;

/// Everything that is changed. [`Edits::join`] joins the changes of several slips.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Edits {
    /// Changes of the bench before the first tick.
    pub bench: BenchChange,
    /// Ticks that pass after the moment with this index, so that all later ones shift.
    pub pauses: BTreeMap<usize, u64>,
    /// What is done just before the moment with this index.
    pub before: BTreeMap<usize, Vec<EventKind>>,
    /// What is done just after the moment with this index.
    pub after: BTreeMap<usize, Vec<EventKind>>,
    /// Moments that are left out.
    pub dropped: BTreeSet<usize>,
    /// Changes of what was written.
    pub values: Values,
}

/// What is changed about the values written.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Values {
    /// The pair comes from the current certificate of this calibrator.
    pub right_certificate: bool,
    /// The pair is the one for standard conditions.
    pub standard_pair: bool,
    /// The pair is copied as the original prints it.
    pub as_printed: bool,
    /// Temperature and pressure are read, if they were not.
    pub conditions: bool,
    /// Fields that get what a perfect reader sees.
    pub as_seen: BTreeSet<Field>,
    /// Points whose legs are read at eye level.
    pub level: BTreeSet<PointNumber>,
    /// Points at which both legs are read and added.
    pub both_legs: BTreeSet<PointNumber>,
    /// Openings at which points are added.
    pub openings: Vec<f64>,
}

impl Edits {
    /// Adds the changes of another slip. A change that both need is made once.
    pub fn join(&mut self, other: &Self) {
        for fault in &other.bench.without {
            if !self.bench.without.contains(fault) {
                self.bench.without.push(*fault);
            }
        }
        self.bench.held_tight |= other.bench.held_tight;
        self.bench.filter_out |= other.bench.filter_out;
        self.bench.fluid_kept |= other.bench.fluid_kept;
        for (&place, &ticks) in &other.pauses {
            let pause = self.pauses.entry(place).or_default();
            *pause = ticks.max(*pause);
        }
        join_events(&mut self.before, &other.before);
        join_events(&mut self.after, &other.after);
        self.dropped.extend(&other.dropped);
        let (mine, others) = (&mut self.values, &other.values);
        mine.right_certificate |= others.right_certificate;
        mine.standard_pair |= others.standard_pair;
        mine.as_printed |= others.as_printed;
        mine.conditions |= others.conditions;
        mine.as_seen.extend(&others.as_seen);
        mine.level.extend(&others.level);
        mine.both_legs.extend(&others.both_legs);
        if mine.openings.is_empty() {
            mine.openings.clone_from(&others.openings);
        }
    }

    /// Does something after the moment with this index.
    pub fn does_after(&mut self, place: usize, events: impl IntoIterator<Item = EventKind>) {
        self.after.entry(place).or_default().extend(events);
    }

    /// Does something before the moment with this index.
    pub fn does_before(&mut self, place: usize, events: impl IntoIterator<Item = EventKind>) {
        self.before.entry(place).or_default().extend(events);
    }

    /// The steps of the replayed session, up to its last reading and the added points.
    pub fn steps(&self, context: &CostContext<'_>) -> Vec<PlannedEvent> {
        let Some(last) = context.last_index() else { return Vec::new() };
        let mut steps = Vec::new();
        let mut shift = 0;
        let mut end = Tick(0);
        for at in context.evidence.indexed_events().take(last + 1) {
            let tick = at.tick().later(shift);
            let between = |kind: &EventKind| PlannedEvent {
                tick,
                kind: kind.clone(),
                origin: EventOrigin::Between,
            };
            steps.extend(self.before.get(&at.index).into_iter().flatten().map(between));
            if !self.dropped.contains(&at.index) {
                let kind = EventKind::Act(at.event.action.clone());
                steps.push(PlannedEvent { tick, kind, origin: EventOrigin::Original(at.index) });
            }
            steps.extend(self.after.get(&at.index).into_iter().flatten().map(between));
            shift += self.pauses.get(&at.index).copied().unwrap_or(0);
            end = at.tick().later(shift);
        }
        for (number, &opening) in self.values.openings.iter().enumerate() {
            let set = opened_to(opening, context).into_iter().map(EventKind::Act);
            steps.extend(set.map(|kind| PlannedEvent {
                tick: end,
                kind,
                origin: EventOrigin::Between,
            }));
            end = end.later(ADDED_SETTLES_S * TICKS_PER_SECOND);
            let events = std::iter::repeat_n(EventKind::Act(Action::Tap), TAPS);
            steps.extend(events.map(|kind| PlannedEvent {
                tick: end,
                kind,
                origin: EventOrigin::Between,
            }));
            let look = EventKind::Act(Action::Wait { seconds: 0.0 });
            steps.push(PlannedEvent { tick: end, kind: look, origin: EventOrigin::Added(number) });
        }
        steps
    }
}

/// What sets the calibrator to an opening: a turn of its knob, or the plate that is nearest to it.
fn opened_to(opening: f64, context: &CostContext<'_>) -> Vec<Action> {
    match context.evidence.setup.rig.calibrator.kind {
        CalibratorKind::VariableOpening => vec![Action::TurnKnob { opening }],
        CalibratorKind::FixedPlates => {
            vec![Action::TakeOutPlate, Action::PutInPlate { plate: Plate::nearest(opening) }]
        }
    }
}

/// Adds deeds to those at the same index, without duplicates.
fn join_events(
    mine: &mut BTreeMap<usize, Vec<EventKind>>,
    others: &BTreeMap<usize, Vec<EventKind>>,
) {
    for (&place, events) in others {
        let here = mine.entry(place).or_default();
        let new: Vec<EventKind> =
            events.iter().filter(|kind| !here.contains(kind)).cloned().collect();
        here.extend(new);
    }
}
