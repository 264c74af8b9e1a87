//! Where each entry was read: the search for the look to which it belongs.

use std::collections::BTreeMap;

use super::entries::Entry;
use super::looks::{Glimpse, Look, Looks};
use super::taken::{Reading, SumRead};
use crate::field_book::Field;
use crate::procedure::instrument::Instrument;
use crate::rig::manometer::electronic::ManometerKind;
use crate::session::action::Action;
use crate::session::ground_truth::EventRecord;

/// What speaks for a flow as the one at which a group was read.
#[derive(Debug, Clone, Copy, Default)]
struct Votes {
    /// How many of its values fit a look at this flow at something that stood still.
    fits: usize,
    /// How many of its values are near to what a look at this flow showed.
    near: usize,
    /// How many of them were written while it stood.
    standing: usize,
    /// For how many of them the instrument was looked at.
    looked: usize,
}

/// Finds the look to which each entry belongs.
pub(super) struct Reader<'a> {
    looks: Looks<'a>,
    /// Index of the moment at which the site was left for a run.
    left: Option<usize>,
    manometer: ManometerKind,
}

impl<'a> Reader<'a> {
    /// The reader of a session.
    pub fn of(events: &'a [EventRecord], manometer: ManometerKind) -> Self {
        let left = events.iter().position(|moment| moment.action == Action::LeaveSite);
        Self { looks: Looks::of(events), left, manometer }
    }

    /// The flow at which a group was read: where most of its values fit what was visible, or else
    /// where most of them were written. `None` for what does not depend on the flow.
    pub fn flow_of(&self, group: &[Entry]) -> Option<usize> {
        if let [entry] = group
            && !in_a_row(entry.field)
        {
            return self.flow_of_one(entry);
        }
        let readable = group
            .iter()
            .filter(|entry| Instrument::with(self.manometer, entry.field).is_some())
            .count();
        let flows = self.votes(group);
        let newest = |of: &dyn Fn(&Votes) -> bool| {
            flows.iter().rev().find(|(_, votes)| of(votes)).map(|(flow, _)| *flow)
        };
        // Written while all of it could be seen, and mostly near to that: it was read then, even if
        // one of the values was misread and happens to fit another flow.
        let seen_there = |votes: &Votes| votes.standing > 0 && votes.looked == readable;
        let read_there = |votes: &Votes| seen_there(votes) && 2 * votes.near > readable;
        if let Some(flow) = newest(&read_there) {
            return Some(flow);
        }
        // Otherwise only a flow that all of it fits has a better claim than the one at which all of it
        // could be seen: one value alone may fit by chance.
        if let Some(stood) = newest(&seen_there) {
            let fits_all = newest(&|votes| readable > 1 && votes.fits == readable);
            return Some(fits_all.unwrap_or(stood));
        }
        let likely = flows.iter().filter(|(_, votes)| votes.standing > 0 || votes.fits > 0);
        likely
            .max_by_key(|(flow, votes)| (votes.fits, votes.standing, **flow))
            .map(|(flow, _)| *flow)
    }

    /// What speaks for each flow.
    fn votes(&self, group: &[Entry]) -> BTreeMap<usize, Votes> {
        let mut flows: BTreeMap<usize, Votes> = BTreeMap::new();
        for entry in group {
            flows.entry(self.looks.flow(entry.index)).or_default().standing += 1;
            let mut here: BTreeMap<usize, (bool, bool)> = BTreeMap::new();
            for (look, glimpse) in self.looks_for(entry) {
                let (fits, near) = here.entry(look.flow).or_default();
                *fits |= glimpse.fits;
                *near |= glimpse.near;
            }
            for (flow, (fits, near)) in here {
                let votes = flows.entry(flow).or_default();
                votes.looked += 1;
                votes.fits += usize::from(fits);
                votes.near += usize::from(near);
            }
        }
        flows
    }

    /// The flow at which the pen was read for the start or the end of a run: that of the last look at
    /// it with the blower on, because a pen at its zero is no reading.
    fn flow_of_one(&self, entry: &Entry) -> Option<usize> {
        if Instrument::with(self.manometer, entry.field) != Some(Instrument::Pen) {
            return None;
        }
        let powered = |look: &Look| self.looks.facts(look.index).is_some_and(|f| f.powered);
        let looks = || self.looks_for(entry).map(|(look, _)| look);
        let look = looks().find(|look| powered(look)).or_else(|| looks().next());
        Some(look.map_or_else(|| self.looks.flow(entry.index), |look| look.flow))
    }

    /// The looks from which an entry may come, the newest first, and what it can be a reading of.
    fn looks_for(&self, entry: &Entry) -> impl Iterator<Item = (&Look, Glimpse)> {
        let Entry { field, index, value } = *entry;
        let after_run = matches!(field, Field::MeterAfter | Field::EndChart);
        let before_run = matches!(
            field,
            Field::MeterBefore
                | Field::StartChart
                | Field::SecondFilterChart
                | Field::ThirdFilterChart
        );
        let from = self.left.filter(|left| after_run && *left < index).unwrap_or(0);
        let until = self.left.filter(|left| before_run && *left < index).unwrap_or(index);
        let instrument = Instrument::with(self.manometer, field);
        let looks = instrument.into_iter().flat_map(move |instrument| {
            let looks = self.looks.before(instrument, until).map(move |look| (instrument, look));
            looks.take_while(move |(_, look)| look.index >= from)
        });
        looks.filter_map(move |(instrument, look)| {
            Some((look, self.looks.glimpse(look, instrument, value, index)?))
        })
    }

    /// The readings of a group. A look gives one reading: `taken` holds those that gave one.
    pub fn read(
        &self,
        group: &[Entry],
        flow: Option<usize>,
        taken: &mut Vec<(Instrument, usize)>,
    ) -> Vec<Reading> {
        let mut readings: Vec<Reading> = Vec::new();
        for entry in group {
            let Some(instrument) = Instrument::with(self.manometer, entry.field) else { continue };
            let look = self.look_of(entry, instrument, flow, taken);
            let glimpse = look
                .and_then(|look| self.looks.glimpse(look, instrument, entry.value, entry.index));
            if let Some(look) = look.filter(|_| in_a_row(entry.field)) {
                taken.push((instrument, look.index));
            }
            let stood = flow.is_none_or(|flow| self.looks.flow(entry.index) == flow);
            let others = readings.iter().map(|reading| reading.read).max();
            let unseen = others.filter(|_| !stood).unwrap_or(entry.index);
            let read = glimpse.map_or(unseen, |glimpse| glimpse.index);
            let seen = glimpse.map(|glimpse| glimpse.seen);
            let seen = seen.or_else(|| self.looks.facts(read).map(|f| instrument.seen(f)));
            readings.push(Reading {
                field: entry.field,
                instrument,
                value: entry.value,
                written: entry.index,
                look: look.map(|look| look.index),
                read,
                seen: seen.unwrap_or_default(),
                last: look.map_or(read, |look| look.until.min(entry.index)),
            });
        }
        readings
    }

    /// The look to which an entry belongs: the newest at this flow that it is near to, or else the newest.
    fn look_of(
        &self,
        entry: &Entry,
        instrument: Instrument,
        flow: Option<usize>,
        taken: &[(Instrument, usize)],
    ) -> Option<&Look> {
        // Another reading may come from the same look only while the eye is still there.
        let gone = |look: &Look| {
            in_a_row(entry.field)
                && entry.index > look.until
                && taken.contains(&(instrument, look.index))
        };
        let at = |flow: Option<usize>| {
            self.looks_for(entry)
                .filter(move |(look, _)| flow.is_none_or(|flow| look.flow == flow) && !gone(look))
        };
        let near = at(flow).find(|(_, glimpse)| glimpse.near);
        let newest = near.or_else(|| at(flow).next());
        // What was not measured again still belongs to the flow at which it was written.
        let own = Some(self.looks.flow(entry.index)).filter(|_| flow.is_some());
        let found = newest.or_else(|| at(own).find(|(_, glimpse)| own.is_some() && glimpse.fits));
        found.map(|(look, _)| look)
    }

    /// The sum of a point: read when one of its legs was last looked at.
    pub fn sum(&self, entry: &Entry, flow: Option<usize>) -> Option<SumRead> {
        let Field::DeltaH(number) = entry.field else { return None };
        let flow = flow.unwrap_or_else(|| self.looks.flow(entry.index));
        let looks = [Instrument::LegUp, Instrument::LegDown]
            .into_iter()
            .flat_map(|leg| self.looks.before(leg, entry.index).find(|look| look.flow == flow));
        let until = looks.map(|look| look.until.min(entry.index)).max();
        Some(SumRead { number, written: entry.index, read: until.unwrap_or(entry.index) })
    }
}

/// Whether a field is one of a row of readings with the same instruments, each of which needs a look
/// of its own.
const fn in_a_row(field: Field) -> bool {
    matches!(
        field,
        Field::Up(_)
            | Field::Down(_)
            | Field::DeltaH(_)
            | Field::Chart(_)
            | Field::CheckUp(_)
            | Field::CheckDown(_)
            | Field::CheckChart(_)
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
    )
}
