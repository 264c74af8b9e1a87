//! The flow checked against the calibrator as a standard, on the sampler as it runs.
//!
//! Where only a check is ordered, everything hangs and runs when this phase begins. After a
//! calibration a filter has first to come under the calibrator, and the blower onto its controller.

use super::load::{self, Ready};
use super::mind::{Mind, Phase, Progress, stands_still};
use super::mount::TIGHT_QUARTERS;
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Checking, Legs, Outcomes, Practice, Scene, check_run, reckon};
use crate::calibration::{Conditions, Curve};
use crate::field_book::{Field, PointNumber};
use crate::rig::parts::{Part, Place};
use crate::scenario::setup::{CheckedLine, FlowCheck as Order};
use crate::session::action::{Action, Response, Sight};

/// Time between two readings, s.
const BETWEEN_S: f64 = 15.0;
/// Time for which a thermometer is waited for, s, and how often.
const COLUMN_S: f64 = 15.0;
const MOST_WAITS: u8 = 20;

/// The check.
#[derive(Debug)]
pub(super) struct FlowCheck {
    of: CheckedLine,
    stage: Stage,
    up_in: f64,
    chart: f64,
    read: Vec<(f64, f64)>,
}

#[derive(Debug)]
enum Stage {
    /// Power may be on.
    Begin,
    /// A fresh filter is in the hand.
    InHand,
    /// Filter, plate and calibrator are on the holder.
    Mounted,
    /// The blower runs; the thermometer is in focus.
    Temperature(u8),
    /// The barometer is in focus.
    Pressure,
    /// The pen is brought to its set point.
    Trim(u8, Tapping),
    /// The pen is in focus.
    Pen(Tapping),
    /// The left leg is in focus.
    Left,
    /// The right leg is in focus.
    Right,
    /// Nothing is left to do.
    Over,
}

impl FlowCheck {
    /// The check of that line.
    pub fn new(of: CheckedLine) -> Self {
        Self { of, stage: Stage::Begin, up_in: 0.0, chart: 0.0, read: Vec::new() }
    }

    /// What is ordered, where this check is.
    fn order(&self, scene: &Scene<'_>, mind: &Mind) -> Option<Order> {
        let order = scene.papers.work_order.flow_check.filter(|check| check.line == self.of)?;
        let has_a_line = self.of == CheckedLine::Last || mind.line.is_some();
        (mind.refusal.is_none() && has_a_line).then_some(order)
    }
}

impl Phase for FlowCheck {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        let Some(order) = self.order(scene, mind) else { return Progress::Finished };
        let stage = std::mem::replace(&mut self.stage, Stage::Over);
        self.stage = match stage {
            Stage::Begin if self.of == CheckedLine::Last => {
                if mind.habits.warm_up == Practice::Kept {
                    mind.waits(Mind::left_of(WARM_UP_S, mind.started, scene));
                }
                mind.looks_to_read(Sight::Pen);
                Stage::Pen(Tapping::default())
            }
            Stage::Begin => begin(scene, mind),
            Stage::InHand => match load::in_hand(scene, mind) {
                Ready::Put => {
                    mount(mind);
                    Stage::Mounted
                }
                Ready::Another => Stage::Begin,
            },
            Stage::Mounted => {
                load::power(scene, mind);
                mind.waits(if mind.habits.warm_up == Practice::Kept { WARM_UP_S } else { 30.0 });
                mind.looks(Sight::Thermometer);
                Stage::Temperature(0)
            }
            Stage::Temperature(waited) => temperature(waited, scene, mind),
            Stage::Pressure => {
                let pressure = mind.reads_dial(scene.view.barometer.pointer_mmhg);
                mind.pressure_mmhg = pressure;
                mind.writes(Field::CheckPressure, format!("{pressure:.1}"));
                mind.looks_to_read(Sight::Pen);
                Stage::Trim(0, Tapping::default())
            }
            Stage::Trim(turned, mut tapping) => {
                if !tapping.rests(scene, mind) {
                    Stage::Trim(turned, tapping)
                } else if load::turns_screw(turned, scene, mind).is_none() {
                    Stage::Trim(turned + 1, Tapping::default())
                } else {
                    Stage::Pen(Tapping::default())
                }
            }
            Stage::Pen(mut tapping) => {
                if !tapping.rests(scene, mind) {
                    Stage::Pen(tapping)
                } else {
                    self.chart = mind.reads_chart(scene.view.recorder.pen.unwrap_or_default());
                    mind.looks_to_read(Sight::LeftLeg);
                    Stage::Left
                }
            }
            Stage::Left => {
                self.up_in = mind.reads_in(scene.view.manometer.left.meniscus_in);
                mind.looks_to_read(Sight::RightLeg);
                Stage::Right
            }
            Stage::Right => self.right(order, scene, mind),
            Stage::Over => {
                self.stage = Stage::Over;
                return Progress::Finished;
            }
        };
        Progress::More
    }
}

impl FlowCheck {
    /// Reads the leg that fell, writes the reading, and goes on to the next or to the sums.
    fn right(&mut self, order: Order, scene: &Scene<'_>, mind: &mut Mind) -> Stage {
        let down_in = -mind.reads_in(scene.view.manometer.right.meniscus_in);
        // Who reads one leg writes its number for the other, or nothing for it.
        let down_in = match mind.habits.legs {
            Legs::Both => down_in,
            Legs::Left => 0.0,
            Legs::LeftDoubled => self.up_in,
        };
        if let Some(number) = PointNumber::all().nth(self.read.len()) {
            mind.writes(Field::CheckChart(number), format!("{:.1}", self.chart));
            mind.writes(Field::CheckUp(number), format!("{:.2}", self.up_in));
            mind.writes(Field::CheckDown(number), format!("{down_in:.2}"));
        }
        self.read.push((self.up_in + down_in, self.chart));
        if self.read.len() < usize::from(order.readings.min(PointNumber::MAX)) {
            if mind.habits.settling == Practice::Kept {
                mind.waits(BETWEEN_S);
            }
            mind.looks_to_read(Sight::Pen);
            return Stage::Pen(Tapping::default());
        }
        self.sums(order, scene, mind);
        mind.stops_blower(scene);
        Stage::Over
    }

    /// Both flows, their difference, and what follows.
    fn sums(&self, order: Order, scene: &Scene<'_>, mind: &mut Mind) {
        let line = match self.of {
            CheckedLine::Own => mind
                .line
                .map(|line| [line.slope, line.intercept].map(|number| reckon::rounded(number, 3))),
            CheckedLine::Last => {
                scene.papers.work_order.last_line.as_ref().map(|l| [l.slope, l.intercept])
            }
        };
        let curve =
            line.and_then(|[slope, intercept]| Curve::new(slope, intercept, mind.expression).ok());
        let (Some(curve), Some(standard), Some(air)) = (curve, mind.standard, mind.air()) else {
            return;
        };
        let mean = |of: &dyn Fn(&(f64, f64)) -> f64| {
            self.read.iter().map(of).sum::<f64>() / self.read.len().max(1) as f64
        };
        let flow = reckon::rounded(mean(&|read| reckon::flow(read.0, air, standard)), 3);
        let told = |read: &(f64, f64)| curve.flow_std_m3_min(read.1, air).unwrap_or_default();
        let by_line = reckon::rounded(mean(&told), 3);
        mind.writes(Field::CheckFlow, format!("{flow:.3}"));
        mind.writes(Field::CheckLineFlow, format!("{by_line:.3}"));
        // A standard that shows no flow leaves nothing to hold the line against.
        let difference = (flow > 0.0).then(|| 100.0 * (by_line / flow - 1.0));
        if let Some(difference) = difference {
            mind.writes(Field::CheckDifference, format!("{difference:+.1}"));
        }
        mind.checked = Some((flow, air));
        let passes = difference.is_some_and(|difference| difference.abs() <= order.within_pct)
            || mind.habits.outcomes == Outcomes::AlwaysPassed;
        let outcome = match (passes, order.last_good) {
            (true, _) => "passed".to_owned(),
            (false, Some(date)) => {
                format!("failed: to be calibrated anew; samples since {date} are not valid")
            }
            (false, None) => "failed: to be calibrated anew".to_owned(),
        };
        mind.writes(Field::CheckOutcome, outcome);
        if !passes {
            let place = check_run::further_from_its_screw(flow, by_line, scene);
            mind.reports(
                place,
                Response::Rejected,
                "the line tells another flow than the standard",
            );
        }
    }
}

/// Takes calibrator and plate off and a fresh filter into the hand.
fn begin(scene: &Scene<'_>, mind: &mut Mind) -> Stage {
    if mind.stops_blower(scene) || !stands_still(scene) {
        mind.waits(5.0);
        return Stage::Begin;
    }
    let mounting = &scene.view.mounting;
    if mounting.place(Part::Calibrator) == Place::Adapter {
        mind.does(Action::DisconnectTube);
        mind.moves(Part::Calibrator, Place::Ground);
    }
    if mounting.place(Part::Adapter) == Place::Holder {
        take_nuts_off(scene, mind);
        mind.moves(Part::Adapter, Place::Ground);
    }
    if mind.habits.checking == Checking::AsCalibrated {
        mount(mind);
        return Stage::Mounted;
    }
    if scene.view.run.as_ref().is_none_or(|run| run.fresh_filters == 0) {
        // Where no folder is at hand the filter that was found serves.
        mind.moves(Part::Filter, Place::Holder);
        mount(mind);
        return Stage::Mounted;
    }
    load::takes_fresh_filter(mind);
    Stage::InHand
}

/// Plate, nuts, calibrator and tube.
fn mount(mind: &mut Mind) {
    mind.moves(Part::Adapter, Place::Holder);
    let half = (TIGHT_QUARTERS / 2) as i8;
    mind.turns_nuts(half);
    mind.turns_nuts(half);
    mind.moves(Part::Calibrator, Place::Adapter);
    mind.does(Action::TurnKnob { opening: 1.0 });
    mind.does(Action::ConnectTube);
}

/// Reads the thermometer once its column rests.
fn temperature(waited: u8, scene: &Scene<'_>, mind: &mut Mind) -> Stage {
    if scene.view.thermometer.moving && waited < MOST_WAITS {
        mind.waits(COLUMN_S);
        return Stage::Temperature(waited + 1);
    }
    mind.temperature_c = mind.reads_dial(scene.view.thermometer.column_c);
    mind.writes(Field::CheckTemperature, format!("{:.1}", mind.temperature_c));
    mind.looks(Sight::Barometer);
    Stage::Pressure
}

/// The flow that the pen means by the check: what the standard told, times the change of the line's
/// flow since. Only where the order takes the flow of the run from the check.
pub(super) fn ratio(curve: Curve, start_chart: Option<f64>, mind: &Mind) -> Option<f64> {
    let (flow, air): (f64, Conditions) = mind.checked?;
    let start = curve.flow_std_m3_min(start_chart?, air).ok()?;
    (start > 0.0).then(|| flow / start)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calibration::TransferStandard;
    use crate::operator::{Habits, Step};
    use crate::session::Session;
    use crate::session::journal::NoInk;

    const SCENARIO: &str = include_str!("../../../scenarios/28_between_two_calibrations.ron");

    #[test]
    fn a_standard_that_shows_no_flow_gives_no_difference() {
        let session = Session::begin(SCENARIO, 1, Box::new(NoInk)).unwrap();
        let view = session.view();
        let scene = Scene { view: &view, book: session.book(), papers: session.papers() };
        let order = scene.papers.work_order.flow_check.unwrap();
        let mut mind = Mind::new(Habits::default(), 1);
        mind.standard = Some(TransferStandard::new(1.5, 0.02).unwrap());
        let mut check = FlowCheck::new(order.line);
        check.read = vec![(0.0, 40.0)];
        check.sums(order, &scene, &mut mind);
        let mut written = Vec::new();
        while let Some(step) = mind.pop() {
            if let Step::Do(Action::Write { field, text }) = step {
                written.push((field, text));
            }
        }
        assert_eq!(written[0], (Field::CheckFlow, "0.000".to_owned()));
        assert!(written.iter().all(|(field, _)| *field != Field::CheckDifference), "{written:?}");
        let (field, outcome) = written.last().unwrap();
        assert!(*field == Field::CheckOutcome && outcome.starts_with("failed"), "{written:?}");
    }
}
