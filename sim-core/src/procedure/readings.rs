//! The one record of the readings of a session: the points, the flow checks, the conditions and the
//! run.
//!
//! A reading belongs to the look at which it was taken, not to the stroke of the pen: it is judged by
//! what was visible and true then, whenever it was written. Values may be written in any order, and
//! after the flow was changed again. A value that is written again is a correction if it fits what the
//! old one was read from, and a new reading if it fits a newer look. What was struck out is no reading.
//!
//! The readings of a point belong together: they are looked for at the flow at which most of them fit,
//! so that a slip of the pen is not taken for a reading at another flow.

use std::collections::BTreeMap;

use super::instrument::Instrument;
use super::looks::{Look, Looks};
use crate::field_book::{Field, FieldBook, PointNumber};
use crate::session::action::Action;
use crate::session::ground_truth::EventRecord;

/// A value in the field book, and how it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Its field.
    pub field: Field,
    /// The instrument that was read.
    pub instrument: Instrument,
    /// What was written, if it is a number.
    pub value: Option<f64>,
    /// Index of the moment at which it was written.
    pub written: usize,
    /// Index of the look to which it belongs; none if the instrument was not looked at.
    pub look: Option<usize>,
    /// Index of the moment just before whose effect it was read. Without a look, it is the moment at
    /// which it was written, or one at which the same point was read.
    pub read: usize,
    /// What a perfect reader saw then.
    pub seen: f64,
}

impl Reading {
    /// How far the written value is from what was visible, divisions.
    pub fn off(&self) -> Option<f64> {
        let off = self.instrument.as_compared(self.value?) - self.seen;
        Some(off.abs() / self.instrument.division())
    }
}

/// The sum of both legs of a point at which no leg was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct SumRead {
    /// The point.
    pub number: PointNumber,
    /// Index of the moment at which it was written.
    pub written: usize,
    /// Index of the moment at which the legs were last looked at for it.
    pub read: usize,
}

/// Every reading that stands in the field book.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ReadingRecord {
    /// The conditions, the points, the checks and the run, in this order.
    readings: Vec<Reading>,
    /// The sums that stand for the legs of their points.
    sums: Vec<SumRead>,
}

impl ReadingRecord {
    /// The readings of a session.
    pub fn of(moments: &[EventRecord], book: &FieldBook) -> Self {
        let reader = Reader { looks: Looks::of(moments), left: left(moments) };
        let entries = entries(moments, book);
        let mut record = Self::default();
        let mut taken = Vec::new();
        for fields in groups() {
            let is_sum = |field: Field| matches!(field, Field::DeltaH(_));
            let mut group: Vec<Entry> = Vec::new();
            for &field in fields.iter().filter(|field| !is_sum(**field)) {
                group.extend(entries.iter().find(|entry| entry.field == field));
            }
            let flow = reader.flow_of(&group);
            record.readings.extend(reader.read(&group, flow, &mut taken));
            let sum = fields.iter().find(|field| is_sum(**field));
            let sum = sum.and_then(|sum| entries.iter().find(|entry| entry.field == *sum));
            let leg = |entry: &Entry| matches!(entry.field, Field::Up(_) | Field::Down(_));
            if let Some(sum) = sum.filter(|_| !group.iter().any(leg)) {
                record.sums.extend(reader.sum(sum, flow.filter(|_| !group.is_empty())));
            }
        }
        record
    }

    /// All of them.
    pub fn all(&self) -> &[Reading] {
        &self.readings
    }

    /// The reading in a field.
    pub fn in_field(&self, field: Field) -> Option<&Reading> {
        self.readings.iter().find(|reading| reading.field == field)
    }

    /// The sum of a point at which no leg was written.
    pub(crate) fn sum(&self, number: PointNumber) -> Option<&SumRead> {
        self.sums.iter().find(|sum| sum.number == number)
    }
}

/// The entry that stands in a field.
#[derive(Debug, Clone, Copy)]
struct Entry {
    field: Field,
    index: usize,
    value: Option<f64>,
}

/// The fields whose readings belong together, in the order of the record: conditions and readings of
/// the run stand alone.
fn groups() -> Vec<Vec<Field>> {
    let conditions =
        [Field::Temperature, Field::Pressure, Field::CheckTemperature, Field::CheckPressure];
    let run = [Field::MeterBefore, Field::StartChart, Field::EndChart, Field::MeterAfter];
    let points = PointNumber::all()
        .map(|n| vec![Field::Up(n), Field::Down(n), Field::Chart(n), Field::DeltaH(n)]);
    let checks = PointNumber::all()
        .map(|n| vec![Field::CheckUp(n), Field::CheckDown(n), Field::CheckChart(n)]);
    let alone = |field| vec![field];
    conditions.map(alone).into_iter().chain(points).chain(checks).chain(run.map(alone)).collect()
}

/// The entries that stand in the fields of readings.
fn entries(moments: &[EventRecord], book: &FieldBook) -> Vec<Entry> {
    let mut indices: BTreeMap<Field, usize> = BTreeMap::new();
    for (index, moment) in moments.iter().enumerate() {
        match &moment.action {
            Action::Write { field, text } if !text.trim().is_empty() => {
                indices.insert(*field, index);
            }
            Action::Write { field, .. } => {
                indices.remove(field);
            }
            Action::Strike { what } => {
                for field in what.fields() {
                    indices.remove(&field);
                }
            }
            _ => {}
        }
    }
    let is_read = |field| Instrument::of(field).is_some() || matches!(field, Field::DeltaH(_));
    let standing = indices.into_iter().filter(|&(field, _)| is_read(field));
    standing.map(|(field, index)| Entry { field, index, value: book.number(field) }).collect()
}

/// Index of the moment at which the site was left for a run.
fn left(moments: &[EventRecord]) -> Option<usize> {
    moments.iter().position(|moment| moment.action == Action::LeaveSite)
}

/// What speaks for a flow as the one at which a group was read.
#[derive(Debug, Clone, Copy, Default)]
struct Votes {
    /// How many of its values fit a look at this flow.
    fits: usize,
    /// How many of them were written while it stood.
    standing: usize,
    /// Whether one of the instruments was looked at.
    looked: bool,
}

/// Finds the look to which each entry belongs.
struct Reader<'a> {
    looks: Looks<'a>,
    left: Option<usize>,
}

impl Reader<'_> {
    /// The flow at which a group was read: where most of its values fit what was visible, or else
    /// where most of them were written. `None` for what does not depend on the flow.
    fn flow_of(&self, group: &[Entry]) -> Option<usize> {
        if let [entry] = group
            && !in_a_row(entry.field)
        {
            return self.flow_of_one(entry);
        }
        let mut flows: BTreeMap<usize, Votes> = BTreeMap::new();
        for entry in group {
            flows.entry(self.looks.flow(entry.index)).or_default().standing += 1;
            let mut fitted = Vec::new();
            for (look, fits) in self.looks_for(entry) {
                let votes = flows.entry(look.flow).or_default();
                votes.looked = true;
                if fits && !fitted.contains(&look.flow) {
                    votes.fits += 1;
                    fitted.push(look.flow);
                }
            }
        }
        // One value alone may fit another flow by chance.
        let looked_where_written = flows.values().any(|votes| votes.standing > 0 && votes.looked);
        let likely = |votes: &Votes| {
            votes.standing > 0
                || votes.fits > 1
                || votes.fits > 0 && (votes.fits == group.len() || !looked_where_written)
        };
        let likely = flows.into_iter().filter(|(_, votes)| likely(votes));
        likely.max_by_key(|(flow, votes)| (votes.fits, votes.standing, *flow)).map(|(flow, _)| flow)
    }

    /// The flow at which the pen was read for the start or the end of a run: that of the last look at
    /// it with the blower on, because a pen at its zero is no reading.
    fn flow_of_one(&self, entry: &Entry) -> Option<usize> {
        if Instrument::of(entry.field) != Some(Instrument::Pen) {
            return None;
        }
        let powered = |look: &Look| self.looks.facts(look.index).is_some_and(|f| f.powered);
        let looks = || self.looks_for(entry).map(|(look, _)| look);
        let look = looks().find(|look| powered(look)).or_else(|| looks().next());
        Some(look.map_or_else(|| self.looks.flow(entry.index), |look| look.flow))
    }

    /// The looks from which an entry may come, the newest first, and whether it fits them.
    fn looks_for(&self, entry: &Entry) -> impl Iterator<Item = (&Look, bool)> {
        let Entry { field, index, value } = *entry;
        let after_run = matches!(field, Field::MeterAfter | Field::EndChart);
        let before_run = matches!(field, Field::MeterBefore | Field::StartChart);
        let from = self.left.filter(|left| after_run && *left < index).unwrap_or(0);
        let until = self.left.filter(|left| before_run && *left < index).unwrap_or(index);
        let instrument = Instrument::of(field);
        let looks = instrument.into_iter().flat_map(move |instrument| {
            let looks = self.looks.before(instrument, until).map(move |look| (instrument, look));
            looks.take_while(move |(_, look)| look.index >= from)
        });
        looks.map(move |(instrument, look)| {
            let glimpse = self.looks.glimpse(look, instrument, value, index);
            (look, glimpse.is_some_and(|glimpse| glimpse.fits))
        })
    }

    /// The readings of a group. A look gives one reading: `taken` holds those that gave one.
    fn read(
        &self,
        group: &[Entry],
        flow: Option<usize>,
        taken: &mut Vec<(Instrument, usize)>,
    ) -> Vec<Reading> {
        let mut readings: Vec<Reading> = Vec::new();
        for entry in group {
            let Some(instrument) = Instrument::of(entry.field) else { continue };
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
            });
        }
        readings
    }

    /// The look to which an entry belongs: the newest at this flow that it fits, or else the newest.
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
        let fitting = at(flow).find(|(_, fits)| *fits);
        let newest = fitting.or_else(|| at(flow).next());
        // What was not measured again still belongs to the flow at which it was written.
        let own = Some(self.looks.flow(entry.index)).filter(|_| flow.is_some());
        let found = newest.or_else(|| at(own).find(|(_, fits)| own.is_some() && *fits));
        found.map(|(look, _)| look)
    }

    /// The sum of a point: read when one of its legs was last looked at.
    fn sum(&self, entry: &Entry, flow: Option<usize>) -> Option<SumRead> {
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
            | Field::Chart(_)
            | Field::CheckUp(_)
            | Field::CheckDown(_)
            | Field::CheckChart(_)
    )
}
