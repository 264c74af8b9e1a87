//! The flow check against the calibrator as a standard, with the sampler as it runs.
//!
//! If only a check is ordered, everything is set up and running when this phase begins, and so it is
//! where the sampler is calibrated at its controlled flow alone. After a calibration, a filter must first be put under the calibrator and the blower onto its controller.

use super::load::{self, Ready};
use super::memory::{Memory, OperatorPhase, PhaseProgress, Suspicion};
use super::mount::TIGHT_QUARTERS;
use super::running::stands_still;
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::trim_by_standard::TrimByStandard;
use super::warm::WARM_UP_S;
use super::{
    Checking, Legs, Observation, Outcomes, Practice, arithmetic, averages, check_run, history,
    plate,
};
use crate::calibration::{AirConditions, Curve};
use crate::field_book::{Field, PointNumber};
use crate::rig::flow::plates::Plate;
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::setup::{CheckedLine, FlowCheckOrder as Order};
use crate::session::action::{Action, Decision, Response, Sight};

/// Time between two readings, s.
const BETWEEN_S: f64 = 15.0;
/// How long the operator waits for the thermometer each time, s, and how often.
const COLUMN_S: f64 = 15.0;
const MOST_WAITS: u8 = 20;

/// The flow check.
#[derive(Debug)]
pub(super) struct FlowCheckPhase {
    of: CheckedLine,
    stage: Stage,
    up_in: f64,
    chart: f64,
    read: Vec<(f64, f64)>,
}

#[derive(Debug)]
enum Stage {
    /// Power may still be on.
    Begin,
    /// The controller is being trimmed by the standard.
    Standard(TrimByStandard),
    /// A fresh filter is in the hand.
    InHand,
    /// Filter, plate and calibrator are on the holder.
    Mounted,
    /// The blower runs; the thermometer is in focus.
    Temperature(u8),
    /// The barometer is in focus.
    Pressure,
    /// The pen is being brought to its set point.
    Trim(u8, Tapping),
    /// The pen is in focus.
    Pen(Tapping),
    /// The left leg is in focus.
    Left,
    /// The right leg is in focus.
    Right,
    /// The check is finished.
    Over,
}

impl FlowCheckPhase {
    /// A check of this line; that of the last one is also a check without any.
    pub fn new(of: CheckedLine) -> Self {
        Self { of, stage: Stage::Begin, up_in: 0.0, chart: 0.0, read: Vec::new() }
    }

    /// The order for this check, if there is one.
    fn order(&self, observed: &Observation<'_>, memory: &Memory) -> Option<Order> {
        let of_own = self.of == CheckedLine::Own;
        let ordered = observed.papers.work_order.flow_check;
        let order = ordered.filter(|check| check.is_whole_job() != of_own)?;
        let has_a_line = !of_own || memory.line.is_some();
        (memory.refusal.is_none() && has_a_line).then_some(order)
    }
}

impl OperatorPhase for FlowCheckPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let Some(order) = self.order(observed, memory) else { return PhaseProgress::Finished };
        let stage = std::mem::replace(&mut self.stage, Stage::Over);
        self.stage = match stage {
            Stage::Begin if self.of == CheckedLine::Last => {
                if memory.habits.warm_up == Practice::Kept {
                    memory.waits(Memory::left_of(WARM_UP_S, memory.started, observed));
                }
                let trims = order.line == CheckedLine::ControlledFlow
                    && memory.habits.trimming == Practice::Kept;
                if trims { Stage::Standard(TrimByStandard::default()) } else { to_the_pen(memory) }
            }
            Stage::Standard(mut trim) => match trim.go_on(observed, memory) {
                PhaseProgress::More => Stage::Standard(trim),
                PhaseProgress::Finished => to_the_pen(memory),
            },
            Stage::Begin => begin(observed, memory),
            Stage::InHand => match load::in_hand(observed, memory) {
                Ready::Put => {
                    mount(observed, memory);
                    Stage::Mounted
                }
                Ready::Another => Stage::Begin,
            },
            Stage::Mounted => {
                load::power(observed, memory);
                memory.waits(if memory.habits.warm_up == Practice::Kept {
                    WARM_UP_S
                } else {
                    30.0
                });
                memory.looks(Sight::Thermometer);
                Stage::Temperature(0)
            }
            Stage::Temperature(waited) => temperature(waited, observed, memory),
            Stage::Pressure => {
                let pressure = memory.reads_dial(observed.view.barometer.pointer_mmhg);
                memory.pressure_mmhg = pressure;
                memory.writes(Field::CheckPressure, format!("{pressure:.1}"));
                memory.looks_to_read(Sight::Pen);
                Stage::Trim(0, Tapping::default())
            }
            Stage::Trim(turned, mut tapping) => {
                if !tapping.rests(observed, memory) {
                    Stage::Trim(turned, tapping)
                } else if load::turns_screw(turned, observed, memory).is_none() {
                    Stage::Trim(turned + 1, Tapping::default())
                } else {
                    Stage::Pen(Tapping::default())
                }
            }
            Stage::Pen(mut tapping) => {
                if !tapping.rests(observed, memory) {
                    Stage::Pen(tapping)
                } else {
                    self.chart = memory.reads_chart(observed.view.recorder.pen.unwrap_or_default());
                    memory.looks_to_read(Sight::LeftLeg);
                    Stage::Left
                }
            }
            Stage::Left => {
                self.up_in = memory.reads_in(observed.view.manometer.left.meniscus_in);
                memory.looks_to_read(Sight::RightLeg);
                Stage::Right
            }
            Stage::Right => self.right(order, observed, memory),
            Stage::Over => {
                self.stage = Stage::Over;
                return PhaseProgress::Finished;
            }
        };
        PhaseProgress::More
    }
}

impl FlowCheckPhase {
    /// Reads the leg that fell, writes the reading, and continues with the next one or the
    /// calculations.
    fn right(&mut self, order: Order, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
        let down_in = -memory.reads_in(observed.view.manometer.right.meniscus_in);
        // An operator who reads one leg writes the same number for the other leg, or zero.
        let down_in = match memory.habits.legs {
            Legs::Both => down_in,
            Legs::Left => 0.0,
            Legs::LeftDoubled => self.up_in,
        };
        if let Some(number) = PointNumber::all().nth(self.read.len()) {
            memory.writes(Field::CheckChart(number), format!("{:.1}", self.chart));
            memory.writes(Field::CheckUp(number), format!("{:.2}", self.up_in));
            memory.writes(Field::CheckDown(number), format!("{down_in:.2}"));
        }
        let delta_h_in = (self.up_in + down_in) * memory.density;
        self.read.push((delta_h_in, self.chart));
        memory.thinks(format!(
            "Reading {} of {} of the flow check: {:.2} in at {:.1} divisions.",
            self.read.len(),
            order.readings,
            delta_h_in,
            self.chart
        ));
        if self.read.len() < usize::from(order.readings.min(PointNumber::MAX)) {
            if memory.habits.settling == Practice::Kept {
                memory.waits(BETWEEN_S);
            }
            memory.looks_to_read(Sight::Pen);
            return Stage::Pen(Tapping::default());
        }
        self.sums(order, observed, memory);
        memory.stops_blower(observed);
        Stage::Over
    }

    /// The line that is checked, as it is used in this air.
    fn curve(
        &self,
        air: AirConditions,
        observed: &Observation<'_>,
        memory: &Memory,
    ) -> Option<Curve> {
        let [slope, intercept] = match self.of {
            CheckedLine::Own => memory.line.map(|line| {
                [line.slope, line.intercept].map(|number| arithmetic::rounded(number, 3))
            }),
            CheckedLine::Last | CheckedLine::ControlledFlow => {
                observed.papers.work_order.last_line.as_ref().map(|l| [l.slope, l.intercept])
            }
        }?;
        let curve = Curve::new(slope, intercept, memory.expression).ok()?;
        Some(averages::used_in(curve, air, memory))
    }

    /// Both flows, their percent difference, and the outcome.
    fn sums(&self, order: Order, observed: &Observation<'_>, memory: &mut Memory) {
        let (Some(standard), Some(air)) = (memory.standard, memory.air()) else { return };
        let mean = |of: &dyn Fn(&(f64, f64)) -> f64| {
            self.read.iter().map(of).sum::<f64>() / self.read.len().max(1) as f64
        };
        let flow = arithmetic::rounded(mean(&|read| arithmetic::flow(read.0, air, standard)), 3);
        let by_line = if order.line == CheckedLine::ControlledFlow {
            observed.papers.work_order.target_flow_std_m3_min
        } else {
            let Some(curve) = self.curve(air, observed, memory) else { return };
            let told = |read: &(f64, f64)| curve.flow_std_m3_min(read.1, air).unwrap_or_default();
            arithmetic::rounded(mean(&told), 3)
        };
        memory.writes(Field::CheckFlow, format!("{flow:.3}"));
        if order.sums().contains(&Field::CheckLineFlow) {
            memory.writes(Field::CheckLineFlow, format!("{by_line:.3}"));
        }
        // A standard that shows no flow leaves nothing to hold the line against.
        let difference = (flow > 0.0).then(|| 100.0 * (by_line / flow - 1.0));
        if let Some(difference) = difference {
            memory.writes(Field::CheckDifference, format!("{difference:+.1}"));
        }
        memory.thinks(difference.map_or_else(
            || "The standard shows no flow: there is nothing to hold the line against.".to_owned(),
            |difference| {
                let other = match order.line {
                    CheckedLine::ControlledFlow => "the order asks for",
                    CheckedLine::Own | CheckedLine::Last => "the line",
                };
                format!(
                    "The standard gives {flow:.3} m3/min, {other} {by_line:.3} m3/min: {difference:+.1} % (at most {:.1} %).",
                    order.within_pct
                )
            },
        ));
        memory.checked = Some((flow, air));
        let passes = difference.is_some_and(|difference| difference.abs() <= order.within_pct)
            || memory.habits.outcomes == Outcomes::AlwaysPassed;
        let outcome = if passes {
            Decision::CheckPassed
        } else {
            Decision::CheckFailed { calibrate_again: true, not_valid_since: order.last_good }
        };
        memory.decides(outcome, "");
        history::keeps_chart(difference, observed, memory);
        if !passes {
            let place = check_run::further_from_its_screw(flow, by_line, observed);
            memory.reports(
                Suspicion::unknown(place),
                Response::Rejected,
                "the line tells another flow than the standard",
            );
        }
    }
}

/// Turns to the pen, for the first reading.
fn to_the_pen(memory: &mut Memory) -> Stage {
    memory.looks_to_read(Sight::Pen);
    Stage::Pen(Tapping::default())
}

/// Takes off the calibrator and the adapter plate, and takes a fresh filter in hand.
fn begin(observed: &Observation<'_>, memory: &mut Memory) -> Stage {
    if memory.stops_blower(observed) || !stands_still(observed) {
        memory.waits(5.0);
        return Stage::Begin;
    }
    let mounting = &observed.view.mounting;
    if mounting.place(RigPart::Calibrator) == PartPlace::Adapter {
        memory.does(Action::DisconnectTube);
        memory.moves(RigPart::Calibrator, PartPlace::Ground);
    }
    if mounting.place(RigPart::Adapter) == PartPlace::Holder {
        take_nuts_off(observed, memory);
        memory.moves(RigPart::Adapter, PartPlace::Ground);
    }
    if memory.habits.checking == Checking::AsCalibrated {
        mount(observed, memory);
        return Stage::Mounted;
    }
    if observed.view.run.as_ref().is_none_or(|run| run.fresh_filters == 0) {
        // Without a folder of fresh filters, the filter that was found is used.
        memory.moves(RigPart::Filter, PartPlace::Holder);
        mount(observed, memory);
        return Stage::Mounted;
    }
    load::takes_fresh_filter(memory);
    Stage::InHand
}

/// Mounts adapter plate, nuts, calibrator and tubing.
fn mount(observed: &Observation<'_>, memory: &mut Memory) {
    memory.moves(RigPart::Adapter, PartPlace::Holder);
    let half = (TIGHT_QUARTERS / 2) as i8;
    memory.turns_nuts(half);
    memory.turns_nuts(half);
    memory.moves(RigPart::Calibrator, PartPlace::Adapter);
    if observed.view.calibrator.plates.is_some() {
        plate::puts_in(Plate::WIDEST, observed, memory);
    } else {
        memory.does(Action::TurnKnob { opening: 1.0 });
    }
    memory.does(Action::ConnectTube);
}

/// Reads the thermometer once its column is at rest.
fn temperature(waited: u8, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
    if observed.view.thermometer.moving && waited < MOST_WAITS {
        memory.waits(COLUMN_S);
        return Stage::Temperature(waited + 1);
    }
    memory.temperature_c = memory.reads_dial(observed.view.thermometer.column_c);
    memory.thinks(format!(
        "The thermometer reads {:.1} °C for the flow check.",
        memory.temperature_c
    ));
    memory.writes(Field::CheckTemperature, format!("{:.1}", memory.temperature_c));
    memory.looks(Sight::Barometer);
    Stage::Pressure
}

/// By what factor the check corrects the flow of the line: the flow by the standard over that by
/// the line. Only if the order takes the flow of the run from the check.
pub(super) fn ratio(curve: Curve, start_chart: Option<f64>, memory: &Memory) -> Option<f64> {
    let (flow, air): (f64, AirConditions) = memory.checked?;
    let start = curve.flow_std_m3_min(start_chart?, air).ok()?;
    (start > 0.0).then(|| flow / start)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calibration::TransferStandard;
    use crate::operator::{Habits, OperatorStep};
    use crate::session::Session;
    use crate::session::journal::NullSink;

    const SCENARIO: &str = include_str!("../../../scenarios/28_between_two_calibrations.ron");

    #[test]
    fn a_standard_that_shows_no_flow_gives_no_difference() {
        let session = Session::begin(SCENARIO, 1, Box::new(NullSink)).unwrap();
        let view = session.view();
        let observed = Observation { view: &view, book: session.book(), papers: session.papers() };
        let order = observed.papers.work_order.flow_check.unwrap();
        let mut memory = Memory::new(Habits::default(), 1);
        memory.standard = Some(TransferStandard::new(1.5, 0.02).unwrap());
        let mut check = FlowCheckPhase::new(order.line);
        check.read = vec![(0.0, 40.0)];
        check.sums(order, &observed, &mut memory);
        let (mut written, mut decided) = (Vec::new(), None);
        while let Some(step) = memory.pop() {
            match step {
                OperatorStep::Do(Action::Write { field, text }) => written.push((field, text)),
                OperatorStep::Do(Action::Decide { decision, .. }) => decided = Some(decision),
                _ => {}
            }
        }
        assert_eq!(written[0], (Field::CheckFlow, "0.000".to_owned()));
        assert!(written.iter().all(|(field, _)| *field != Field::CheckDifference), "{written:?}");
        assert!(matches!(decided, Some(Decision::CheckFailed { .. })), "{decided:?}");
    }
}
