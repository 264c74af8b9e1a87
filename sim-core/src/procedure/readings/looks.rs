//! The looks at the instruments, and what each of them showed.
//!
//! A view begins with a look and lasts until the next look, or until the flow is changed: so long a
//! perfect reader could read the instrument. What is written later was read then.

use crate::procedure::instrument::Instrument;
use crate::session::action::{Action, Sight};
use crate::session::ground_truth::{EventRecord, GroundTruth};

/// How far a value may be from what was visible and still be a reading of it, divisions: nobody reads
/// a scale more finely than to half a division.
const FITS_DIVISIONS: f64 = 0.5;
/// How far a value may be from what was visible and still count as read there, divisions: so far a
/// value is as it was seen, and no other look has a better claim to it.
const NEAR_DIVISIONS: f64 = 1.0;
/// Steadiness that may be lost in rounding, s. More than that is lost only when the flow changes.
const SAME_FLOW_S: f64 = 0.5;

/// A look at something, and how long it could be seen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// Index of its moment.
    pub index: usize,
    /// Index of the last moment before whose effect the view still lasted.
    pub until: usize,
    /// The number of the flow at which it was taken.
    pub flow: usize,
    at: Sight,
    eye_mm: f64,
}

/// What was visible at one moment of a view.
#[derive(Debug, Clone, Copy)]
pub(super) struct Glimpse {
    /// Index of the moment, just before whose effect it was visible.
    pub index: usize,
    /// What a perfect reader saw.
    pub seen: f64,
    /// Whether a value can be a reading of something that stood still during this look.
    pub fits: bool,
    /// Whether a value is so near to it that it counts as read there.
    pub near: bool,
}

/// Every look of a session, and the number of the flow at each moment.
#[derive(Debug)]
pub(super) struct Looks<'a> {
    events: &'a [EventRecord],
    looks: Vec<Look>,
    flows: Vec<usize>,
}

impl<'a> Looks<'a> {
    /// The looks of a session.
    pub fn of(events: &'a [EventRecord]) -> Self {
        let flows = flows(events);
        let mut looks: Vec<Look> = Vec::new();
        let mut open = false;
        for (index, moment) in events.iter().enumerate() {
            let flow = flows.get(index).copied().unwrap_or_default();
            if let Some(look) = looks.last_mut().filter(|_| open) {
                open = look.flow == flow && !ends_view(moment);
                if look.flow == flow {
                    look.until = index;
                }
            }
            if let Action::Look { at, .. } = moment.action {
                let eye_mm = moment.after.eye_mm;
                looks.push(Look { index, until: index, flow, at, eye_mm });
                open = true;
            }
        }
        Self { events, looks, flows }
    }

    /// The looks at an instrument before a moment, the newest first.
    pub fn before(&self, instrument: Instrument, index: usize) -> impl Iterator<Item = &Look> {
        let count = self.looks.partition_point(|look| look.index < index);
        let looks = self.looks.get(..count).unwrap_or_default();
        looks.iter().rev().filter(move |look| instrument.sights().contains(&look.at))
    }

    /// The number of the flow just before a moment.
    pub fn flow(&self, index: usize) -> usize {
        self.flows.get(index).copied().unwrap_or_default()
    }

    /// What was true just before a moment.
    pub fn facts(&self, index: usize) -> Option<&'a GroundTruth> {
        self.events.get(index).map(|moment| &moment.before)
    }

    /// What a look showed until a moment: the last that a value is near to, or else the nearest to it;
    /// without a value, the last.
    pub fn glimpse(
        &self,
        look: &Look,
        instrument: Instrument,
        value: Option<f64>,
        until: usize,
    ) -> Option<Glimpse> {
        let division = instrument.division();
        let mut nearest: Option<(f64, Glimpse)> = None;
        let mut fits = false;
        for index in (look.index..=look.until.min(until)).rev() {
            let facts = self.facts(index)?;
            let seen = instrument.seen(facts);
            let Some(value) = value else {
                return Some(Glimpse { index, seen, fits: false, near: false });
            };
            // From above or below, the same meniscus is seen against another place of the scale.
            let shifted = seen + instrument.parallax(look.eye_mm);
            let moves = instrument.moves(facts);
            let off = (seen - value).abs().min((shifted - value).abs()) - moves - 1e-9;
            fits |= off <= FITS_DIVISIONS * division && moves <= FITS_DIVISIONS * division;
            let glimpse = Glimpse { index, seen, fits, near: off <= NEAR_DIVISIONS * division };
            let better = |(least, best): &(f64, Glimpse)| !best.near && off < *least;
            if nearest.as_ref().is_none_or(better) {
                nearest = Some((off, glimpse));
            }
        }
        nearest.map(|(_, glimpse)| Glimpse { fits, ..glimpse })
    }
}

/// Whether a moment ends the view that lasted until then: the eye turns elsewhere, the flow is changed
/// by hand, or nobody is there any more.
fn ends_view(moment: &EventRecord) -> bool {
    let turned_away = matches!(
        moment.action,
        Action::Look { .. } | Action::LeaveSite | Action::LeaveRoof | Action::Sign
    );
    turned_away || changes_flow(moment)
}

/// Whether the flow was changed by hand at a moment.
fn changes_flow(moment: &EventRecord) -> bool {
    moment.after.steady_s + SAME_FLOW_S < moment.before.steady_s
}

/// The number of the flow just before each moment: it grows whenever the flow is changed by hand, or
/// because power comes or goes.
fn flows(events: &[EventRecord]) -> Vec<usize> {
    let mut flow = 0;
    let mut steady_s = 0.0;
    let mut flows = Vec::with_capacity(events.len());
    for moment in events {
        flow += usize::from(moment.before.steady_s + SAME_FLOW_S < steady_s);
        flows.push(flow);
        flow += usize::from(changes_flow(moment));
        steady_s = moment.after.steady_s;
    }
    flows
}
