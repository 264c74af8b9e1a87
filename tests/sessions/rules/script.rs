//! A careful session as a script of deeds, which can be changed in one place and had again on a real
//! bench, from the first tick to the judgement of its journal.

use std::sync::LazyLock;

use sim_core::field_book::{Decision, Field, PointNumber};
use sim_core::operator::{by_name, rehearse};
use sim_core::procedure::{ProcedureFinding, findings};
use sim_core::scenario::setup::Certificate;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use sim_core::session::journal::NullSink;
use sim_core::session::{ActError, Session, replay};
use sim_core::time::{TICKS_PER_SECOND, Tick};

use super::clerk::Clerk;
use crate::sessions::cost::common::{as_designed, scenario};
use crate::sessions::recorded::Paper;

/// Seed of every session here: the bench leaves it little to decide.
const SEED: u64 = 1;

/// What is done next.
#[derive(Debug, Clone, PartialEq)]
pub enum Deed {
    /// This, whatever there is to be seen.
    Does(Action),
    /// What is seen is written, to half a division, off by so much.
    Reads(Field, f64),
    /// What the book gives is written; this where it gives nothing.
    WorksOut(Field, String),
}

impl Deed {
    /// The field that is written, if one is.
    pub const fn field(&self) -> Option<Field> {
        match self {
            Self::Reads(field, _)
            | Self::WorksOut(field, _)
            | Self::Does(Action::Write { field, .. }) => Some(*field),
            Self::Does(Action::Decide { decision, .. }) => Some(decision.field()),
            Self::Does(_) => None,
        }
    }

    /// The deed behind an action of a careful person.
    fn behind(action: &Action) -> Self {
        match action {
            Action::Write { field, text } => match field {
                Field::Up(_) | Field::Down(_) | Field::Chart(_) => Self::Reads(*field, 0.0),
                Field::Temperature | Field::Pressure => Self::Reads(*field, 0.0),
                Field::DeltaH(_)
                | Field::PointFlow(_)
                | Field::ChartTerm(_)
                | Field::Slope
                | Field::Intercept
                | Field::Correlation
                | Field::TargetFlow
                | Field::SetPoint
                | Field::Volume
                | Field::Concentration => Self::WorksOut(*field, text.clone()),
                _ => Self::Does(action.clone()),
            },
            _ => Self::Does(action.clone()),
        }
    }
}

/// A deed and the ticks that pass before it.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    pub ticks: u64,
    pub deed: Deed,
}

/// A session to be had.
#[derive(Debug, Clone)]
pub struct Script {
    /// The scenario's text.
    pub text: String,
    /// What is done.
    pub steps: Vec<Step>,
}

/// What comes of a script.
pub struct Played {
    /// What was found.
    pub findings: Vec<ProcedureFinding>,
    /// What could not be done.
    pub refused: Vec<String>,
}

impl Script {
    /// What the careful operator does on the bench of the rules.
    pub fn careful() -> Self {
        static CAREFUL: LazyLock<Script> = LazyLock::new(|| {
            let mut script = Script::rehearsed(&as_designed(include_str!("bench.ron")));
            // Not a word on the last line, of which the careful one has one to say.
            script.says(Field::Remarks, "Nothing was found wrong.");
            script
        });
        CAREFUL.clone()
    }

    /// What the careful operator does with a calibrator that has fixed plates.
    pub fn careful_plates() -> Self {
        static PLATES: LazyLock<Script> = LazyLock::new(|| {
            let text = as_designed(include_str!("bench.ron")).replace("points: 7", "points: 5");
            Script::rehearsed(&with(&text, "calibrator_kind: FixedPlates"))
        });
        PLATES.clone()
    }

    /// What the careful operator does with an electronic manometer.
    pub fn careful_display() -> Self {
        static DISPLAY: LazyLock<Script> = LazyLock::new(|| {
            // A zero so small that its error is no slip of reading.
            let text = as_designed(include_str!("bench.ron"))
                .replace("offset_in: Fixed(1.5e-1)", "offset_in: Fixed(8e-2)");
            Script::rehearsed(&with(&text, "manometer_kind: Electronic"))
        });
        DISPLAY.clone()
    }

    /// What the careful operator does where only the flow is checked.
    pub fn careful_check() -> Self {
        static CHECK: LazyLock<Script> = LazyLock::new(|| {
            Script::rehearsed(&as_designed(&scenario("28_between_two_calibrations")))
        });
        CHECK.clone()
    }

    /// What the careful operator does where the sampler is calibrated at its controlled flow alone.
    pub fn careful_controlled() -> Self {
        static CONTROLLED: LazyLock<Script> =
            LazyLock::new(|| Script::rehearsed(&as_designed(&scenario("41_one_flow_only"))));
        CONTROLLED.clone()
    }

    /// What the careful operator does where the chart of the sampler shows a jump.
    pub fn careful_history() -> Self {
        static HISTORY: LazyLock<Script> =
            LazyLock::new(|| Script::rehearsed(&as_designed(&scenario("37_the_ferry_landing"))));
        HISTORY.clone()
    }

    /// What the careful operator does where a run is ordered, its volume by the line.
    pub fn careful_run() -> Self {
        static RUN: LazyLock<Script> = LazyLock::new(|| {
            let text = scenario("27_from_set_point_to_volume")
                .replace("target_flow_std_m3_min: 1.20", "target_flow_std_m3_min: 1.42")
                .replace("    flow_check: (readings: 8, within_pct: 7, flow_of_run: Check),\n", "");
            Script::rehearsed(&as_designed(&text))
        });
        RUN.clone()
    }

    /// What the careful operator does where a run is ordered, and the controller is to be tested with
    /// added filters.
    pub fn careful_added() -> Self {
        static ADDED: LazyLock<Script> = LazyLock::new(|| {
            let filters = "        filters: [";
            let added = "        added_filters: (sheets: 1, within_pct: 3),\n        filters: [";
            let text = Script::careful_run().text.replace(filters, added);
            // A flow that is held with two filters.
            let flow = "target_flow_std_m3_min: 1.";
            Script::rehearsed(&text.replace(&format!("{flow}42"), &format!("{flow}16")))
        });
        ADDED.clone()
    }

    /// What the careful operator does where a run is ordered, and the sampler is to be armed for the
    /// next one.
    pub fn careful_next() -> Self {
        static NEXT: LazyLock<Script> = LazyLock::new(|| {
            let next = "next: (on: (day: 3, at: \"00:00\"), off: (day: 4, at: \"00:00\")),";
            let filters = "        filters: [";
            let text = Script::careful_run().text;
            Script::rehearsed(&text.replace(filters, &format!("        {next}\n{filters}")))
        });
        NEXT.clone()
    }

    /// What the careful operator does on this bench with a fault on it.
    pub fn rehearsed_with(&self, fault: &str) -> Self {
        let mut script = self.clone();
        script.with_fault(fault);
        Self::rehearsed(&script.text)
    }

    /// What the careful operator does on another bench.
    pub fn rehearsed(text: &str) -> Self {
        let mut session = Session::begin(text, SEED, Box::new(NullSink)).unwrap();
        rehearse(&mut session, by_name("careful", SEED).unwrap().as_mut()).unwrap();
        let signed = session.open().unwrap();
        let mut steps = Vec::new();
        let mut before = Tick(0);
        for moment in &signed.events {
            // Waiting is no deed: the steps have their times.
            if !matches!(moment.action, Action::Wait { .. }) {
                let ticks = moment.tick.0 - before.0;
                steps.push(Step { ticks, deed: Deed::behind(&moment.action) });
                before = moment.tick;
            }
        }
        let mut script = Self { text: text.to_owned(), steps };
        script.works_out_anew();
        script
    }

    /// Recalculates every result from the readings in this script, and replaces the old results.
    fn works_out_anew(&mut self) {
        let (had, _) = self.had();
        for step in &mut self.steps {
            if let Deed::WorksOut(field, given) = &mut step.deed
                && let Some(value) = had.book.text(*field)
            {
                value.clone_into(given);
            }
        }
    }

    /// Has the session, and judges what its journal gives when it is replayed.
    pub fn play(&self) -> Played {
        let (signed, refused) = self.had();
        Played { findings: findings(&signed.evidence()), refused }
    }

    /// Has the session, and gives what its journal gives when it is replayed, and what was refused.
    pub fn had(&self) -> (EndedSession, Vec<String>) {
        let paper = Paper::default();
        let mut session = Session::begin(&self.text, SEED, Box::new(paper.clone())).unwrap();
        let mut refused = Vec::new();
        for step in &self.steps {
            session.advance(step.ticks).unwrap();
            let action = action(&step.deed, &session);
            match session.act(action.clone()) {
                Ok(()) => {}
                Err(ActError::Ended) => break,
                Err(error) => refused.push(format!("{action:?}: {error}")),
            }
        }
        let digest = session.digest();
        let again = replay::replay(&paper.text(), Box::new(NullSink)).unwrap().session;
        assert_eq!(again.digest(), digest, "the journal gives another session");
        (again.open().unwrap(), refused)
    }

    /// The papers in the box.
    pub fn certificates(&self) -> Vec<Certificate> {
        let session = Session::begin(&self.text, SEED, Box::new(NullSink)).unwrap();
        session.papers().certificates.to_vec()
    }

    /// Changes the scenario.
    pub fn on(&mut self, from: &str, to: &str) {
        assert!(self.text.contains(from), "`{from}` is not in the scenario");
        self.text = self.text.replace(from, to);
    }

    /// Puts faults on the bench.
    pub fn with_fault(&mut self, fault: &str) {
        self.on("    terms: (", &format!("    faults: [(fault: {fault})],\n    terms: ("));
    }

    /// Place of the first deed from a place on that is wanted.
    #[track_caller]
    pub fn from(&self, place: usize, wanted: impl Fn(&Deed) -> bool) -> usize {
        let found = self.steps.iter().skip(place).position(|step| wanted(&step.deed));
        place + found.expect("the careful one does this")
    }

    /// Place of the last deed before a place that is wanted.
    #[track_caller]
    pub fn back(&self, place: usize, wanted: impl Fn(&Deed) -> bool) -> usize {
        let before = &self.steps[..place];
        before.iter().rposition(|step| wanted(&step.deed)).expect("the careful one did this")
    }

    /// Place of the first deed that is wanted.
    #[track_caller]
    pub fn first(&self, wanted: impl Fn(&Deed) -> bool) -> usize {
        self.from(0, wanted)
    }

    /// Place of the last deed that is wanted.
    #[track_caller]
    pub fn last(&self, wanted: impl Fn(&Deed) -> bool) -> usize {
        self.back(self.steps.len(), wanted)
    }

    /// Place at which a field is written.
    #[track_caller]
    pub fn written(&self, field: Field) -> usize {
        self.first(|deed| deed.field() == Some(field))
    }

    /// Leaves out the deed at a place; its time passes all the same.
    pub fn drop_at(&mut self, place: usize) -> Deed {
        let step = self.steps.remove(place);
        if let Some(next) = self.steps.get_mut(place) {
            next.ticks += step.ticks;
        }
        step.deed
    }

    /// Leaves out every deed that is unwanted.
    pub fn without(&mut self, unwanted: impl Fn(&Deed) -> bool) {
        let mut place = 0;
        let mut any = false;
        while place < self.steps.len() {
            if unwanted(&self.steps[place].deed) {
                self.drop_at(place);
                any = true;
            } else {
                place += 1;
            }
        }
        assert!(any, "nothing was left out");
    }

    /// Does more before the deed at a place, at its time.
    pub fn insert(&mut self, place: usize, actions: impl IntoIterator<Item = Action>) {
        let ticks = std::mem::take(&mut self.steps[place].ticks);
        let more = actions.into_iter().map(|action| Step { ticks: 0, deed: Deed::Does(action) });
        self.steps.splice(place..place, more);
        self.steps[place].ticks += ticks;
    }

    /// Lets time pass before the deed at a place.
    pub fn wait(&mut self, place: usize, seconds: u64) {
        self.steps[place].ticks += seconds * TICKS_PER_SECOND;
    }

    /// Does the deed at a place sooner.
    #[track_caller]
    pub fn hurry(&mut self, place: usize, seconds: u64) {
        let ticks = &mut self.steps[place].ticks;
        *ticks = ticks.checked_sub(seconds * TICKS_PER_SECOND).expect("there is time to be saved");
    }

    /// Writes this into a field.
    #[track_caller]
    pub fn says(&mut self, field: Field, text: &str) {
        let place = self.written(field);
        self.steps[place].deed = Deed::Does(Action::Write { field, text: text.to_owned() });
    }

    /// Decides otherwise.
    #[track_caller]
    pub fn decides(&mut self, decision: Decision, reason: &str) {
        let place = self.written(decision.field());
        let reason = reason.to_owned();
        self.steps[place].deed = Deed::Does(Action::Decide { decision, reason });
    }

    /// What stands in a field in the end.
    pub fn text_of(&self, field: Field) -> String {
        let mut session = Session::begin(&self.text, SEED, Box::new(NullSink)).unwrap();
        for step in &self.steps {
            session.advance(step.ticks).unwrap();
            let action = action(&step.deed, &session);
            let _refused = session.act(action);
        }
        session.book().text(field).unwrap().to_owned()
    }

    /// The number that stands in a field in the end.
    pub fn number_of(&self, field: Field) -> f64 {
        self.text_of(field).parse().unwrap()
    }

    /// Reads a field off by so much.
    #[track_caller]
    pub fn misreads(&mut self, field: Field, by: f64) {
        let place = self.written(field);
        self.steps[place].deed = Deed::Reads(field, by);
    }
}

/// The number of a point.
pub fn point(number: u8) -> PointNumber {
    PointNumber::try_from(number).unwrap()
}

/// The action that a deed comes to.
fn action(deed: &Deed, session: &Session) -> Action {
    match deed {
        Deed::Does(action) => action.clone(),
        Deed::Reads(field, by) => {
            let view = session.view();
            let (seen, decimals) = match field {
                Field::Up(_) => (view.manometer.left.meniscus_in, 2),
                Field::Down(_) => (-view.manometer.right.meniscus_in, 2),
                Field::Chart(_) => (view.recorder.pen.unwrap_or_default(), 1),
                Field::Temperature => (view.thermometer.column_c, 1),
                _ => (view.barometer.pointer_mmhg, 1),
            };
            let step = if decimals == 2 { 0.05 } else { 0.5 };
            let read = (seen / step).round() * step + by;
            Action::Write { field: *field, text: format!("{read:.decimals$}") }
        }
        Deed::WorksOut(field, given) => {
            let clerk = Clerk {
                book: session.book(),
                order: session.papers().work_order,
                scale: session.view().recorder.scale,
            };
            let text = match field {
                Field::Concentration => concentration(session),
                field => clerk.works_out(*field),
            };
            let text = text.unwrap_or_else(|| given.clone());
            Action::Write { field: *field, text }
        }
    }
}

/// The concentration from the laboratory's masses and the volume in the book, micrograms for each m3.
fn concentration(session: &Session) -> Option<String> {
    let masses = session.view().run?.masses?;
    let volume = session.book().number(Field::Volume)?;
    Some(format!("{:.1}", (masses.after_g - masses.before_g) * 1e6 / volume))
}

/// A bench as designed, with one kind of instrument in place of the usual one.
fn with(text: &str, kind: &str) -> String {
    text.replacen("    instruments: (", &format!("    instruments: ({kind}, "), 1)
}
