//! The careful session, step by step.

use super::bench::{certificate, on_arrival, setup};
use super::{FLOWS, PLATE, STANDARD, TestSession, chart_of, delta_h_of, point};
use crate::field_book::{Field, FieldBook};
use crate::procedure::Ending;
use crate::rig::parts::{BlowerPlug, Gasket, Leg, Nut, PartPlace, RigPart};
use crate::scenario::setup::Setup;
use crate::session::action::{Action, Decision, Exposure, OnOff, Sight};
use crate::session::ground_truth::{EventRecord, GroundTruth};
use crate::time::Tick;

/// A worker who does one thing after another.
pub struct Worker {
    pub facts: GroundTruth,
    pub tick: u64,
    pub events: Vec<EventRecord>,
}

impl Worker {
    /// Does an action, 2 s after the last one, with its effect on the truth.
    pub fn does(&mut self, action: Action, effect: impl FnOnce(&mut GroundTruth)) {
        self.waits(2.0);
        let before = self.facts.clone();
        effect(&mut self.facts);
        let after = self.facts.clone();
        self.events.push(EventRecord { tick: Tick(self.tick), action, before, after });
    }

    /// Lets time pass.
    pub fn waits(&mut self, seconds: f64) {
        self.tick += (seconds * 20.0) as u64;
        self.facts.steady_s += seconds;
        if self.facts.powered {
            self.facts.running_s += seconds;
        }
    }

    pub fn looks(&mut self, at: Sight) {
        self.does(Action::Look { at, eye_mm: 0.0 }, |facts| facts.eye_mm = 0.0);
    }

    pub fn writes(&mut self, field: Field, text: impl Into<String>) {
        self.does(Action::Write { field, text: text.into() }, |_| ());
    }

    pub fn decides(&mut self, decision: Decision) {
        self.does(Action::Decide { decision, reason: String::new() }, |_| ());
    }

    fn carries(&mut self, part: RigPart, to: PartPlace) {
        self.does(Action::Take { part }, |facts| facts.places[part as usize] = PartPlace::Hand);
        self.does(Action::Put { place: to }, |facts| facts.places[part as usize] = to);
    }

    fn turns_nut(&mut self, nut: u8, quarter_turns: i8) {
        let nut = Nut::try_from(nut).unwrap();
        self.does(Action::TurnNut { nut, quarter_turns }, |facts| {
            let turns = &mut facts.nut_turns[nut.index()];
            *turns = turns.saturating_add_signed(quarter_turns);
        });
    }

    fn turns_valves(&mut self, quarter_turns: i8) {
        for leg in [Leg::Left, Leg::Right] {
            self.does(Action::TurnValve { leg, quarter_turns }, |facts| {
                let valve = &mut facts.valve_quarters[leg as usize];
                *valve = valve.saturating_add_signed(quarter_turns);
            });
        }
    }

    /// The flow takes a new value.
    pub fn flows(&mut self, flow: f64, action: Action) {
        self.does(action, |facts| {
            let half = if flow > 0.0 { delta_h_of(flow) / 2.0 } else { 0.0 };
            let pen = if flow > 0.0 { chart_of(flow) } else { 0.0 };
            facts.powered = flow > 0.0;
            facts.speed_ratio = if flow > 0.0 { 1.0 } else { 0.0 };
            facts.running_s = if flow > 0.0 { facts.running_s } else { 0.0 };
            facts.flow_std_m3_min = flow;
            facts.calibrator_flow_std_m3_min = flow;
            facts.orifice_inh2o = 2.0 * half;
            facts.menisci_in = [half, -half];
            facts.undisturbed_menisci_in = [half, -half];
            (facts.pen, facts.pen_at_rest, facts.undisturbed_pen) = (pen, pen, pen);
            facts.steady_s = 0.0;
            facts.taps = 0;
        });
    }
}

/// A session without a slip.
pub fn careful() -> TestSession {
    careful_with(|worker| takes_points(worker, FLOWS))
}

/// The same session with points taken in another way.
pub fn careful_with(points: impl FnOnce(&mut Worker)) -> TestSession {
    let setup = setup();
    let mut worker = Worker { facts: on_arrival(), tick: 0, events: Vec::new() };
    arrives(&mut worker);
    strips(&mut worker);
    hangs_manometer(&mut worker);
    warms_up(&mut worker);
    points(&mut worker);
    restores(&mut worker);
    let mut worker = sums(worker, &setup);
    worker.does(Action::Sign, |_| ());
    TestSession { setup, events: worker.events, end: worker.facts, ended: Ending::Signed }
}

fn arrives(worker: &mut Worker) {
    for sight in [Sight::WorkOrder, Sight::Sky, Sight::RoofEdge, Sight::Calibrator] {
        worker.looks(sight);
    }
    worker.looks(Sight::Certificate(0));
    worker.writes(Field::CalibratorSerial, PLATE);
    worker.writes(Field::CertificateSerial, PLATE);
    worker.writes(Field::CertificateDate, certificate().date.to_string());
    worker.writes(Field::CertificateSlope, STANDARD.slope.to_string());
    worker.writes(Field::CertificateIntercept, STANDARD.intercept.to_string());
    worker.does(Action::PlaceThermometer { at: Exposure::Shade }, |_| ());
    worker.looks(Sight::Thermometer);
    worker.writes(Field::Temperature, "21");
    worker.looks(Sight::Barometer);
    worker.writes(Field::Pressure, "747");
}

fn strips(worker: &mut Worker) {
    worker.does(Action::UnplugSampler, |facts| facts.sampler_cord_in = false);
    worker.does(Action::OpenLid, |facts| facts.lid_open = true);
    for nut in [1, 3, 2, 4] {
        worker.turns_nut(nut, -8);
    }
    worker.carries(RigPart::Frame, PartPlace::Ground);
    worker.carries(RigPart::Filter, PartPlace::Case);
    worker.carries(RigPart::Adapter, PartPlace::Holder);
    for nut in [1, 3, 2, 4] {
        worker.turns_nut(nut, 8);
    }
    worker.does(Action::FitGasket { gasket: Gasket::Calibrator }, |_| ());
    worker.carries(RigPart::Calibrator, PartPlace::Adapter);
}

fn hangs_manometer(worker: &mut Worker) {
    worker.carries(RigPart::Manometer, PartPlace::Hook);
    worker.turns_valves(4);
    worker.does(Action::BlowThrough, |facts| facts.blown_through = true);
    worker.looks(Sight::LeftLeg);
    worker.looks(Sight::RightLeg);
    worker.does(Action::SlideScale { by_in: 0.0 }, |_| ());
    worker.does(Action::ConnectTube, |facts| facts.tube_on_tap = true);
}

fn warms_up(worker: &mut Worker) {
    worker.does(Action::PlugBlower { into: BlowerPlug::LineOutlet }, |facts| {
        facts.blower_plug = BlowerPlug::LineOutlet;
    });
    worker.does(Action::UncapPen, |facts| facts.capped = false);
    worker.does(Action::LowerPen, |facts| facts.on_paper = true);
    worker.flows(1.7, Action::SwitchLine { to: OnOff::On });
    worker.turns_valves(-4);
    worker.does(Action::BlockOpenings, |facts| facts.blocked = true);
    worker.does(Action::Listen, |_| ());
    worker.does(Action::FreeOpenings, |facts| {
        facts.blocked = false;
        facts.longest_blocked_s = 10.0;
        facts.steady_s = 0.0;
    });
    worker.turns_valves(4);
    worker.does(Action::Wait { seconds: 310.0 }, |_| ());
    worker.waits(310.0);
}

/// Takes points at these flows, one after another.
pub fn takes_points(worker: &mut Worker, flows: [f64; 7]) {
    for (number, flow) in (1..).zip(flows) {
        takes_point(worker, number, flow);
    }
}

/// Takes a point: looks, and then writes what was seen.
pub fn takes_point(worker: &mut Worker, number: u8, flow: f64) {
    looks_at_point(worker, flow);
    writes_point(worker, number, flow);
    worker.does(Action::MarkChart { label: number.to_string() }, |_| ());
}

/// Sets a flow, lets it settle, taps, and looks at legs and pen.
pub fn looks_at_point(worker: &mut Worker, flow: f64) {
    worker.flows(flow, Action::TurnKnob { opening: flow / 1.7 });
    worker.waits(125.0);
    worker.does(Action::Tap, |facts| facts.taps += 1);
    worker.does(Action::Tap, |facts| facts.taps += 1);
    worker.looks(Sight::LeftLeg);
    worker.looks(Sight::RightLeg);
    worker.looks(Sight::Pen);
}

/// Writes what legs and pen show at a flow.
pub fn writes_point(worker: &mut Worker, number: u8, flow: f64) {
    let half = (delta_h_of(flow) / 2.0 * 50.0).round() / 50.0;
    worker.writes(Field::Up(point(number)), format!("{half:.2}"));
    worker.writes(Field::Down(point(number)), format!("{half:.2}"));
    worker.writes(Field::DeltaH(point(number)), format!("{:.2}", 2.0 * half));
    let chart = chart_of(flow);
    worker.writes(Field::Chart(point(number)), format!("{chart:.1}"));
}

fn restores(worker: &mut Worker) {
    worker.flows(0.0, Action::SwitchLine { to: OnOff::Off });
    worker.does(Action::PlugBlower { into: BlowerPlug::Controller }, |facts| {
        facts.blower_plug = BlowerPlug::Controller;
    });
    worker.does(Action::LiftPen, |facts| facts.on_paper = false);
    worker.does(Action::CapPen, |facts| facts.capped = true);
    worker.does(Action::DisconnectTube, |facts| facts.tube_on_tap = false);
    worker.turns_valves(-4);
    worker.carries(RigPart::Manometer, PartPlace::Case);
    worker.carries(RigPart::Calibrator, PartPlace::Case);
    for nut in [1, 3, 2, 4] {
        worker.turns_nut(nut, -8);
    }
    worker.carries(RigPart::Adapter, PartPlace::Case);
    worker.carries(RigPart::Filter, PartPlace::Holder);
    worker.carries(RigPart::Frame, PartPlace::Holder);
    for nut in [1, 3, 2, 4] {
        worker.turns_nut(nut, 8);
    }
    worker.does(Action::CloseLid, |facts| facts.lid_open = false);
    worker.does(Action::PlugSampler, |facts| facts.sampler_cord_in = true);
}

/// The calculations from what is written in the field book, as on a pocket calculator.
pub fn sums(mut worker: Worker, setup: &Setup) -> Worker {
    let mut book = FieldBook::default();
    for moment in &worker.events {
        if let Action::Write { field, text } = &moment.action {
            book.write(moment.tick, *field, text);
        }
    }
    let number = |field| book.number(field).unwrap_or(f64::NAN);
    let kelvin = number(Field::Temperature) + 273.0;
    let factor = (number(Field::Pressure) / 760.0 * 298.0 / kelvin).sqrt();
    let (m, b) = (number(Field::CertificateSlope), number(Field::CertificateIntercept));
    let mut pairs: Vec<(f64, f64)> = Vec::new();
    for number_of in book.points() {
        let flow = (number(Field::DeltaH(number_of)).sqrt() * factor - b) / m;
        let term = number(Field::Chart(number_of)) * factor;
        worker.writes(Field::PointFlow(number_of), format!("{flow:.3}"));
        worker.writes(Field::ChartTerm(number_of), format!("{term:.1}"));
        pairs.push((flow, term));
    }
    let count = pairs.len() as f64;
    let (x, y) = (
        pairs.iter().map(|pair| pair.0).sum::<f64>() / count,
        pairs.iter().map(|pair| pair.1).sum::<f64>() / count,
    );
    let sum =
        |of: fn(f64, f64) -> f64| pairs.iter().map(|pair| of(pair.0 - x, pair.1 - y)).sum::<f64>();
    let (xx, xy, yy) = (sum(|dx, _| dx * dx), sum(|dx, dy| dx * dy), sum(|_, dy| dy * dy));
    let slope = xy / xx;
    let intercept = y - slope * x;
    worker.writes(Field::Expression, "square root");
    worker.writes(Field::Slope, format!("{slope:.2}"));
    worker.writes(Field::Intercept, format!("{intercept:.2}"));
    worker.writes(Field::Correlation, format!("{:.4}", xy / (xx * yy).sqrt()));
    worker.decides(Decision::CalibrationAccepted { line_moved: false });
    let order = &setup.work_order;
    let run = (order.run_pressure_mmhg / 760.0 * 298.0 / (order.run_temperature_c + 273.0)).sqrt();
    let set_point = (slope * order.target_flow_std_m3_min + intercept) / run;
    worker.writes(Field::TargetFlow, order.target_flow_std_m3_min.to_string());
    worker.writes(Field::SetPoint, format!("{set_point:.1}"));
    worker
}
