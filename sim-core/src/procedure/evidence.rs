//! What a rule may look at: the bench as drawn, the actions with their truth, and the field book.

use std::cell::OnceCell;

use super::known_signs::KnownSigns;
use super::readings::{Reading, ReadingRecord};
use super::true_response::TrueResponse;
use crate::calibration::{AirConditions, Basis, Curve, Expression};
use crate::field_book::{Decision, Field, FieldBook, PointNumber};
use crate::rig::flow::mounting::SNUG_QUARTERS;
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::setup::{Certificate, SeasonAverages, Setup};
use crate::session::LessonBegan;
use crate::session::action::{Action, FaultPlace, FaultReport, Sight};
use crate::session::ground_truth::{EventRecord, GroundTruth};
use crate::time::{Date, Tick};

pub use crate::session::ending::Ending;

/// A whole session with its truth, after its end.
#[derive(Debug, Clone)]
pub struct Evidence<'a> {
    /// The bench as drawn from the scenario.
    pub setup: &'a Setup,
    /// One record for each action, in order.
    pub events: &'a [EventRecord],
    /// The trainee's record.
    pub book: &'a FieldBook,
    /// What was true at the end.
    pub end: &'a GroundTruth,
    /// When it ended.
    pub end_tick: Tick,
    /// How it ended.
    pub ended: Ending,
    /// The true flow for each chart reading of this rig.
    pub true_response: TrueResponse,
    /// Where the lesson began, if this is one.
    pub lesson: Option<LessonBegan>,
    /// When each fault first showed.
    pub signs: KnownSigns<'a>,
    /// The readings, found when they are first needed, because many rules need them.
    pub taken: OnceCell<ReadingRecord>,
}

/// An event and its index in the session.
#[derive(Debug, Clone, Copy)]
pub struct At<'a> {
    /// Index in the session.
    pub index: usize,
    /// The event.
    pub event: &'a EventRecord,
}

impl<'a> At<'a> {
    /// When.
    pub const fn tick(&self) -> Tick {
        self.event.tick
    }

    /// What was true just before its effect.
    pub const fn facts(&self) -> &'a GroundTruth {
        &self.event.before
    }
}

/// A point as taken: the moments at which its instruments were read, whenever that was written.
#[derive(Debug, Clone, Copy)]
pub struct PointTaken<'a> {
    /// Its number.
    pub number: PointNumber,
    /// The leg that went up.
    pub up: Option<At<'a>>,
    /// The leg that went down.
    pub down: Option<At<'a>>,
    /// The pen.
    pub chart: Option<At<'a>>,
    /// The sum of both legs, if no leg was written; the reading of an electronic manometer.
    pub sum: Option<At<'a>>,
    /// The first of its readings.
    pub first: At<'a>,
    /// The last of its readings.
    pub last: At<'a>,
    /// Index of the moment at which the last of them was written.
    pub written: usize,
}

impl<'a> PointTaken<'a> {
    /// The moments at which a leg was read.
    pub fn legs(&self) -> impl Iterator<Item = At<'a>> + use<'a> {
        self.up.into_iter().chain(self.down)
    }

    /// The tick since which the flow had been steady when the point was read.
    pub fn flow_since(&self) -> Tick {
        let steady = (self.first.facts().steady_s / crate::time::TICK_SECONDS).max(0.0) as u64;
        Tick(self.first.tick().0.saturating_sub(steady))
    }
}

/// What the trainee decided about the calibration.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TraineeDecision {
    /// Accepted.
    Accepted,
    /// Refused.
    Refused,
    /// Not made.
    Missing,
}

impl<'a> Evidence<'a> {
    /// The expression of the corrected chart reading that the order asks for on this day: with the
    /// averages of the season built in where the air of the calibration is near enough to them.
    ///
    /// The air is the one in the field book, or else the true one when the work began.
    pub fn expression(&self) -> Expression {
        let plain = self.setup.expression();
        let Some(averages) = self.setup.work_order.averages else { return plain };
        let began = self.events.first().map_or(self.end, |event| &event.before);
        let number = |field, truth| self.book.number(field).unwrap_or(truth);
        let on = AirConditions::as_read(
            number(Field::Pressure, began.pressure_mmhg),
            number(Field::Temperature, began.temperature_c),
        );
        on.map_or(plain, |on| averages.built_into(plain, on))
    }

    /// Slope and intercept of the last line, in the form that the order asks for on this day.
    pub fn last_line(&self) -> Option<(f64, f64)> {
        let order = &self.setup.work_order;
        let last = order.last_line.as_ref()?;
        let as_printed = (last.slope, last.intercept);
        let Some(built_in) = order.averages.and_then(SeasonAverages::air) else {
            return Some(as_printed);
        };
        if self.expression() != self.setup.expression() {
            return Some(as_printed);
        }
        let basis = Basis::Averages(built_in);
        let printed = Expression { basis, ..self.setup.expression() };
        let curve = Curve::new(last.slope, last.intercept, printed).ok()?.without_averages();
        Some((curve.slope(), curve.intercept()))
    }

    /// Every event with its index.
    pub fn indexed_events(
        &self,
    ) -> impl DoubleEndedIterator<Item = At<'a>> + ExactSizeIterator<Item = At<'a>> + use<'a> {
        self.events.iter().enumerate().map(|(index, event)| At { index, event })
    }

    /// Every moment at which something was written into a field, since it was last struck out.
    pub fn writes(&self, wanted: Field) -> impl Iterator<Item = At<'a>> + use<'a> {
        let struck = self.indexed_events().rev().find(|at| strikes(&at.event.action, wanted));
        let from = struck.map_or(0, |at| at.index);
        self.indexed_events().skip(from).filter(move |at| match &at.event.action {
            Action::Write { field, text } => *field == wanted && !text.trim().is_empty(),
            Action::Decide { decision, .. } => decision.field() == wanted,
            _ => false,
        })
    }

    /// The moment of the entry that stands in a field, if the field is not empty.
    pub fn written(&self, field: Field) -> Option<At<'a>> {
        self.book.text(field)?;
        self.writes(field).last()
    }

    /// The record of the readings.
    pub fn readings(&self) -> &ReadingRecord {
        self.taken.get_or_init(|| ReadingRecord::of(self.events, self.book))
    }

    /// The reading in a field.
    pub fn reading(&self, field: Field) -> Option<&Reading> {
        self.readings().in_field(field)
    }

    /// The moment at which the value in a field was read, whenever it was written.
    pub fn read(&self, field: Field) -> Option<At<'a>> {
        self.event_at(self.reading(field)?.read)
    }

    /// The look to which the value in a field belongs.
    pub fn look(&self, field: Field) -> Option<At<'a>> {
        self.event_at(self.reading(field)?.look?)
    }

    /// An event by its index.
    fn event_at(&self, index: usize) -> Option<At<'a>> {
        self.events.get(index).map(|event| At { index, event })
    }

    /// Whether the manometer is an electronic one.
    pub fn is_electronic(&self) -> bool {
        self.end.display.is_some()
    }

    /// The points in order of their numbers.
    pub fn points(&self) -> Vec<PointTaken<'a>> {
        PointNumber::all().filter_map(|number| self.point(number)).collect()
    }

    /// A point.
    fn point(&self, number: PointNumber) -> Option<PointTaken<'a>> {
        let fields = [Field::Up(number), Field::Down(number), Field::Chart(number)];
        let sum = self.readings().sum(number);
        let [up, down, chart] = fields.map(|field| self.read(field));
        let display = Field::DeltaH(number);
        let of_sum = sum.and_then(|sum| self.event_at(sum.read)).or_else(|| self.read(display));
        let all = || [up, down, chart, of_sum].into_iter().flatten();
        let shown = self.reading(display).map(|reading| reading.written);
        let written = fields.iter().filter_map(|field| Some(self.reading(*field)?.written));
        Some(PointTaken {
            number,
            up,
            down,
            chart,
            sum: of_sum,
            first: all().min_by_key(|at| at.index)?,
            last: all().max_by_key(|at| at.index)?,
            written: written.chain(sum.map(|sum| sum.written)).chain(shown).max()?,
        })
    }

    /// The first reading of any point, in order of time.
    pub fn first_reading(&self) -> Option<At<'a>> {
        self.points().into_iter().map(|point| point.first).min_by_key(|at| at.index)
    }

    /// The last look at one of these before a moment.
    pub fn last_look(&self, sights: &[Sight], before: usize) -> Option<At<'a>> {
        self.indexed_events().take(before).rev().find(
            |at| matches!(at.event.action, Action::Look { at: sight, .. } if sights.contains(&sight)),
        )
    }

    /// Whether something was ever looked at.
    pub fn looked_at(&self, sight: Sight) -> bool {
        self.last_look(&[sight], usize::MAX).is_some()
    }

    /// Every report with its moment.
    pub fn remarks(&self) -> impl Iterator<Item = (At<'a>, &'a FaultReport)> + use<'a> {
        self.indexed_events().filter_map(|at| match &at.event.action {
            Action::Report(remark) => Some((at, remark)),
            _ => None,
        })
    }

    /// Whether a report names this place.
    pub fn reported(&self, place: FaultPlace) -> bool {
        self.remarks().any(|(_, remark)| remark.place == place)
    }

    /// The moment of the decision that stands in a field, with its reason.
    pub fn decided(&self, wanted: Field) -> Option<(At<'a>, Decision, &'a str)> {
        self.book.decision(wanted)?;
        self.indexed_events().rev().find_map(|at| match &at.event.action {
            Action::Decide { decision, reason } if decision.field() == wanted => {
                Some((at, *decision, reason.trim()))
            }
            _ => None,
        })
    }

    /// What was decided about the calibration.
    pub fn verdict(&self) -> TraineeDecision {
        match self.book.decision(Field::Decision) {
            Some(Decision::CalibrationAccepted { .. }) => TraineeDecision::Accepted,
            Some(Decision::CalibrationRefused) => TraineeDecision::Refused,
            _ => TraineeDecision::Missing,
        }
    }

    /// Whether a run was ordered and begun.
    pub fn run_was_made(&self) -> bool {
        self.end.run.as_ref().is_some_and(|run| run.left)
    }

    /// The moment at which the site was left for the run.
    pub fn leaving(&self) -> Option<At<'a>> {
        self.indexed_events().find(|at| matches!(at.event.action, Action::LeaveSite))
    }

    /// Whether thunder was heard within the last 30 minutes when the session ended.
    pub fn ended_in_thunder(&self) -> bool {
        self.end.thunder_since_s.is_some_and(|since| since < THUNDER_WAIT_S)
    }

    /// Whether thunder drove the trainee off the roof. Then it was right to leave work undone.
    pub fn fled_from_thunder(&self) -> bool {
        self.ended == Ending::LeftRoof && self.ended_in_thunder()
    }

    /// The certificate whose serial number and date are in the field book; the original before a
    /// copy.
    pub fn certificate_named(&self) -> Option<&'a Certificate> {
        let serial = self.book.text(Field::CertificateSerial)?;
        let date = self.book.text(Field::CertificateDate)?;
        let date = Date::try_from(date.to_owned()).ok()?;
        let named = || {
            self.setup
                .certificates
                .iter()
                .filter(move |paper| same_serial(&paper.serial, serial) && paper.date == date)
        };
        named().find(|paper| !paper.is_copy()).or_else(|| named().next())
    }
}

/// Time to wait after thunder, s (30 min; United States National Weather Service, MEMORY).
pub const THUNDER_WAIT_S: f64 = 1800.0;

/// Whether an action strikes out what stands in a field.
fn strikes(action: &Action, wanted: Field) -> bool {
    matches!(action, Action::Strike { what } if what.fields().contains(&wanted))
}

/// Whether two serial numbers are the same, apart from case and spaces.
pub fn same_serial(one: &str, other: &str) -> bool {
    let tidy = |text: &str| {
        text.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect::<String>()
    };
    tidy(one) == tidy(other)
}

/// How many nuts on the holder are not hand-tight.
pub(super) fn loose_nuts(facts: &GroundTruth) -> usize {
    facts.nut_turns.iter().filter(|&&turns| turns < SNUG_QUARTERS).count()
}

/// Where a part is.
pub fn place(facts: &GroundTruth, part: RigPart) -> PartPlace {
    facts.places[part as usize]
}
