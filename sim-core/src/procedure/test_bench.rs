//! A careful session made by hand for tests, and ways to spoil it in one place.
//!
//! The rig here is only a straight line: everything that the rules look at is made perfect, so that
//! a test can break one thing and see one rule report it.

mod bench;
mod flow_check;
mod history;
mod run;
mod work;

use std::cell::OnceCell;

use super::evidence::{Ending, Evidence};
use crate::field_book::{Field, FieldBook, PointNumber};
use crate::marking::TrueResponse;
use crate::procedure::inspection::best_sight;
use crate::scenario::setup::{CertificatePair, Setup};
use crate::session::action::{
    Action, Decision, FaultKind, FaultPlace, FaultReport, Response, Sight, SuspectedCause,
};
use crate::session::ground_truth::{EventRecord, GroundTruth};
use crate::time::Tick;

pub use bench::certificate;
pub use flow_check::careful_check;
use flow_check::is_check;
pub use history::{careful_history, reads, repaired_on, with_past};
pub use run::{careful_added, careful_next, careful_run, writes_of_run};
use work::sums;
pub use work::{
    Worker, careful, careful_with, looks_at_point, takes_point, takes_points, writes_point,
};

/// Serial number on the plate.
pub const PLATE: &str = "OC-2207";
/// The certificate's pair at standard conditions.
pub const STANDARD: CertificatePair = CertificatePair { slope: 1.5123, intercept: -0.0241 };
/// The certificate's pair at actual conditions.
pub const ACTUAL: CertificatePair = CertificatePair { slope: 0.9472, intercept: -0.0151 };
/// Slope and intercept of the rig's true line of corrected chart readings.
const TRUE_LINE: (f64, f64) = (32.3, 1.3);
/// Station pressure, mmHg.
pub const PRESSURE: f64 = 747.0;
/// Air temperature, degrees Celsius.
pub const TEMPERATURE: f64 = 21.0;
/// The flows of the points, m3/min.
pub const FLOWS: [f64; 7] = [1.70, 1.60, 1.50, 1.40, 1.30, 1.20, 1.08];

/// A session that can be spoiled and then judged.
#[derive(Debug, Clone)]
pub struct TestSession {
    /// The bench.
    pub setup: Setup,
    /// The time line.
    pub events: Vec<EventRecord>,
    /// What was true at the end.
    pub end: GroundTruth,
    /// How it ended.
    pub ended: Ending,
}

impl TestSession {
    /// Lets `judge` look at the session. The field book follows from the entries in the time line.
    pub fn judged<T>(&self, judge: impl FnOnce(&Evidence<'_>) -> T) -> T {
        let mut book = FieldBook::default();
        for moment in &self.events {
            match &moment.action {
                Action::Write { field, text } => book.write(moment.tick, *field, text),
                Action::Decide { decision, reason } => book.decide(moment.tick, *decision, reason),
                Action::Strike { what } => {
                    what.fields().into_iter().for_each(|field| book.strike(moment.tick, field));
                }
                _ => {}
            }
        }
        let end_tick = self.events.last().map_or(Tick(0), |moment| moment.tick);
        let true_response = TrueResponse::new((60..=200).map(|step| {
            let flow = f64::from(step) * 0.01;
            (chart_of(flow), flow)
        }));
        judge(&Evidence {
            setup: &self.setup,
            events: &self.events,
            book: &book,
            end: &self.end,
            end_tick,
            ended: self.ended,
            true_response,
            lesson: None,
            signs: crate::procedure::known_signs::KnownSigns::of(None),
            taken: OnceCell::new(),
        })
    }

    /// Changes the truth at every moment and at the end.
    pub fn always(&mut self, change: impl Fn(&mut GroundTruth)) {
        for moment in &mut self.events {
            change(&mut moment.before);
            change(&mut moment.after);
        }
        change(&mut self.end);
    }

    /// Changes the truth at the moments whose action is selected.
    pub fn at(&mut self, wanted: impl Fn(&Action) -> bool, change: impl Fn(&mut GroundTruth)) {
        self.at_moments(|moment| wanted(&moment.action), change);
    }

    /// Changes the truth at the moments that are selected.
    fn at_moments(
        &mut self,
        wanted: impl Fn(&EventRecord) -> bool,
        change: impl Fn(&mut GroundTruth),
    ) {
        for moment in self.events.iter_mut().filter(|moment| wanted(moment)) {
            change(&mut moment.before);
            change(&mut moment.after);
        }
    }

    /// Changes the truth at the moments when a reading of a point was taken or written.
    pub fn at_readings(&mut self, change: impl Fn(&mut GroundTruth)) {
        self.at_moments(|moment| is_reading(&moment.action) || is_read(moment), change);
    }

    /// Changes the truth at all other moments.
    pub fn apart_from_readings(&mut self, change: impl Fn(&mut GroundTruth)) {
        self.at_moments(|moment| !is_reading(&moment.action) && !is_read(moment), change);
    }

    /// Changes the truth at the moments when a reading of the flow check was taken or written.
    pub fn at_check(&mut self, change: impl Fn(&mut GroundTruth)) {
        self.at_moments(|moment| is_check(&moment.action) || is_read(moment), change);
    }

    /// Moves the pen at a point, in truth and in the field book; the calculations stay as they are.
    pub fn move_pen(&mut self, number: PointNumber, by: f64) {
        let field = Field::Chart(number);
        let chart: f64 = self.text_of(field).parse().unwrap();
        self.at(
            |action| writes(action, field),
            |facts| {
                facts.pen += by;
                facts.pen_at_rest += by;
            },
        );
        self.rewrite(field, &format!("{:.1}", chart + by));
    }

    /// Writes something else into a field.
    pub fn rewrite(&mut self, wanted: Field, new: &str) {
        for moment in &mut self.events {
            if let Action::Write { field, text } = &mut moment.action
                && *field == wanted
            {
                new.clone_into(text);
            }
        }
    }

    /// Writes into a field that was left empty, at the end.
    pub fn write(&mut self, field: Field, text: &str) {
        self.act_last(Action::Write { field, text: text.to_owned() });
    }

    /// Does something just before the end.
    pub fn act_last(&mut self, action: Action) {
        let last = self.events.len() - 1;
        let mut moment = self.events[last].clone();
        moment.action = action;
        self.events.insert(last, moment);
    }

    /// Decides otherwise, or for the first time at the end.
    pub fn decide(&mut self, new: Decision, why: &str) {
        let same = |action: &Action| matches!(action, Action::Decide { decision, .. } if decision.field() == new.field());
        let action = Action::Decide { decision: new, reason: why.to_owned() };
        match self.events.iter_mut().find(|moment| same(&moment.action)) {
            Some(moment) => moment.action = action,
            None => self.act_last(action),
        }
    }

    /// The first entry in a field, if there is one.
    pub fn first_text(&self, wanted: Field) -> Option<String> {
        self.events.iter().find_map(|moment| match &moment.action {
            Action::Write { field, text } if *field == wanted => Some(text.clone()),
            _ => None,
        })
    }

    /// The same for a field that certainly has an entry.
    pub fn text_of(&self, wanted: Field) -> String {
        self.first_text(wanted).unwrap()
    }

    /// The number that was last written into a field.
    pub fn book_number(&self, wanted: Field) -> f64 {
        let mut moments = self.events.iter().rev();
        let text = moments.find_map(|moment| match &moment.action {
            Action::Write { field, text } if *field == wanted => Some(text),
            _ => None,
        });
        text.unwrap().parse().unwrap()
    }

    /// Leaves actions out.
    pub fn without(&mut self, unwanted: impl Fn(&Action) -> bool) {
        self.events.retain(|moment| !unwanted(&moment.action));
    }

    /// Inserts an action after the first one that is selected, with the truth of that moment.
    pub fn insert_after(&mut self, wanted: impl Fn(&Action) -> bool, action: Action) {
        let index = self.events.iter().position(|moment| wanted(&moment.action)).unwrap();
        let mut moment = self.events[index].clone();
        moment.before = moment.after.clone();
        moment.action = action;
        self.events.insert(index + 1, moment);
    }

    /// Looks at a place and reports something there, without a cause, at the end.
    pub fn report(&mut self, place: FaultPlace, response: Response) {
        self.report_cause(place, SuspectedCause::NotKnownYet, response);
    }

    /// Looks at the place of a fault and reports it, at the end.
    pub fn report_kind(&mut self, kind: FaultKind, response: Response) {
        self.report_cause(kind.place(), SuspectedCause::Known(kind), response);
    }

    /// Looks at a place and reports something there, at the end.
    fn report_cause(&mut self, place: FaultPlace, cause: SuspectedCause, response: Response) {
        let report = FaultReport {
            place,
            cause,
            seen: "seen on the roof".to_owned(),
            shown_by: Vec::new(),
            response,
        };
        let last = self.events.len() - 1;
        let mut moment = self.events[last].clone();
        let mut look = moment.clone();
        look.action = Action::Look { at: best_sight(place), eye_mm: 0.0 };
        moment.action = Action::Report(report);
        self.events.insert(last, moment);
        self.events.insert(last, look);
    }

    /// Refuses the calibration and writes no set point.
    pub fn refuse(&mut self) {
        self.decide(Decision::CalibrationRefused, "it cannot stand");
        self.without(|action| writes(action, Field::TargetFlow) || writes(action, Field::SetPoint));
    }

    /// Repeats the calculations after readings or papers were changed.
    pub fn redo_sums(&mut self) {
        self.without(is_sum);
        let mut sign = self.events.pop().unwrap();
        let mut worker =
            Worker { facts: sign.before.clone(), tick: sign.tick.0, events: Vec::new() };
        std::mem::swap(&mut worker.events, &mut self.events);
        let worker = sums(worker, &self.setup);
        sign.tick = Tick(worker.tick);
        self.events = worker.events;
        self.events.push(sign);
    }
}

/// Whether an action writes into a field.
pub fn writes(action: &Action, wanted: Field) -> bool {
    match action {
        Action::Write { field, .. } => *field == wanted,
        Action::Decide { decision, .. } => decision.field() == wanted,
        _ => false,
    }
}

/// Whether an action writes a reading of a point.
pub fn is_reading(action: &Action) -> bool {
    matches!(action, Action::Write { field: Field::Up(_) | Field::Down(_) | Field::Chart(_), .. })
}

/// Whether legs or pen are read at a moment: they are looked at while air is drawn through the
/// calibrator.
fn is_read(moment: &EventRecord) -> bool {
    let look = matches!(
        moment.action,
        Action::Look { at: Sight::LeftLeg | Sight::RightLeg | Sight::Manometer | Sight::Pen, .. }
    );
    let facts = &moment.before;
    look && facts.powered && facts.tube_on_tap && !facts.blocked
}

/// Whether an action writes a calculated value.
fn is_sum(action: &Action) -> bool {
    matches!(
        action,
        Action::Write {
            field: Field::PointFlow(_)
                | Field::ChartTerm(_)
                | Field::Expression
                | Field::Slope
                | Field::Intercept
                | Field::Correlation
                | Field::TargetFlow
                | Field::SetPoint,
            ..
        }
    ) || writes(action, Field::Decision)
}

/// sqrt(P/760 298/T) of the test bench.
fn factor() -> f64 {
    (PRESSURE / 760.0 * 298.0 / (TEMPERATURE + 273.15)).sqrt()
}

/// The chart reading of a fault-free recorder at a flow.
pub fn chart_of(flow: f64) -> f64 {
    (TRUE_LINE.0 * flow + TRUE_LINE.1) / factor()
}

/// The pressure across the orifice at a flow, inches of water.
pub fn delta_h_of(flow: f64) -> f64 {
    let root = (STANDARD.slope * flow + STANDARD.intercept) / factor();
    root * root
}

/// The number of a point.
pub fn point(number: u8) -> PointNumber {
    PointNumber::try_from(number).unwrap()
}
