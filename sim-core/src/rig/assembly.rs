//! The assembled rig: every instrument's state, and one step of all of them together.

use super::RigParameters;
use super::barometer::Barometer;
use super::blower::Blower;
use super::calibrator::Calibrator;
use super::chart::ChartPaper;
use super::filter::{Filter, Sheet};
use super::flow_controller::FlowController;
use super::flow_path::{self, FlowSolution, Inlet, Machine};
use super::manometer::{Manometer, ManometerInputs};
use super::mounting::Mounting;
use super::parts::{Nut, Part, Place, TimerSwitch};
use super::power::{Feed, Power};
use super::recorder::{Recorder, RecorderInputs};
use super::sample::Sample;
use super::station::Surroundings;
use super::thermometer::Thermometer;
use super::timer::{Timer, WeekTime};
use super::tube::Tube;
use crate::air::{AirState, Ambient, water};
use crate::digest::{Digest, Digestible};
use crate::rig::parts::Hiss;
use crate::rig::parts::{BarometerReference, Exposure, OnOff};
use crate::time::TICK_SECONDS;
use crate::units::ZERO_CELSIUS_K;

/// A leak smaller than this is not heard, mm2 (CHOSEN).
const HEARD_MM2: f64 = 1.5;

/// The rig: the truth of a session.
#[derive(Debug, Clone)]
pub struct Rig {
    /// What the instruments are made like. Faults change it at their onset.
    pub parameters: RigParameters,
    /// Lid, nuts, gaskets, and where the parts are.
    pub mounting: Mounting,
    /// Cords and plugs.
    pub power: Power,
    /// The timer.
    pub timer: Timer,
    /// The flow controller.
    pub flow_controller: FlowController,
    /// The blower.
    pub blower: Blower,
    /// The calibrator.
    pub calibrator: Calibrator,
    /// The filter.
    pub filter: Filter,
    /// The filter of the run in its envelope, once another was taken for the next run.
    pub kept_filter: Option<Filter>,
    /// The fresh sheet that is next in the folder.
    pub next_sheet: Sheet,
    /// Whether the frame will push the filter aside when it is next laid on it.
    pub frame_shifts: bool,
    /// The tube.
    pub tube: Tube,
    /// The manometer.
    pub manometer: Manometer,
    /// The recorder.
    pub recorder: Recorder,
    /// The chart on it.
    pub paper: ChartPaper,
    /// The chart of the run, once it was taken off.
    pub kept_chart: Option<ChartPaper>,
    /// What an unattended run drew, from its beginning on.
    pub sample: Option<Sample>,
    /// The barometer.
    pub barometer: Barometer,
    /// The thermometer.
    pub thermometer: Thermometer,
    counters: Counters,
    flow: FlowSolution,
    around: Surroundings,
    ambient: Ambient,
    water: Water,
    /// Whether something at the inlet or the supply was changed since the last step.
    disturbed: bool,
    blown_through: bool,
}

/// How long things have lasted.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Counters {
    /// Since the blower got power, s; zero without.
    pub running_s: f64,
    /// All the time that the blower has had power, s.
    pub ran_s: f64,
    /// Since the flow was last changed by hand or by power, s.
    pub steady_s: f64,
    /// Since the openings were covered with the blower on, s.
    pub blocked_s: f64,
    /// The longest that has been, s.
    pub longest_blocked_s: f64,
    /// Taps since the flow was last changed.
    pub taps: u32,
}

/// The manometer's water at the present temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Water {
    density_kg_m3: f64,
    viscosity_m2_s: f64,
}

impl Water {
    fn at(temperature_k: f64) -> Self {
        Self {
            density_kg_m3: water::density_kg_m3(temperature_k),
            viscosity_m2_s: water::kinematic_viscosity_m2_s(temperature_k),
        }
    }
}

impl Rig {
    /// The rig as the trainee finds it: the sampler plugged in and off, cold, a filter clamped.
    pub fn new(parameters: &RigParameters, around: &Surroundings) -> Self {
        let ambient = ambient_of(around);
        let controller = &parameters.flow_controller;
        let turns = FlowController::turns_for(controller, parameters.found_set_point_std_m3_min);
        let mut timer = Timer::new(0.0);
        timer.switch = TimerSwitch::Auto;
        Self {
            mounting: Mounting::as_found(parameters.mounting),
            power: Power::default(),
            timer,
            flow_controller: FlowController::new(turns),
            blower: Blower::at_rest(around.temperature_k),
            calibrator: Calibrator::default(),
            filter: Filter::default(),
            kept_filter: None,
            next_sheet: Sheet::fresh(1),
            frame_shifts: false,
            tube: Tube::default(),
            manometer: Manometer::new(parameters.manometer, around.pressure_pa),
            recorder: Recorder::new(parameters.recorder),
            paper: ChartPaper::new(around.week.hours),
            kept_chart: None,
            sample: None,
            barometer: Barometer::new(parameters.elevation_m, BarometerReference::Station),
            thermometer: Thermometer::new(around.temperature_k - ZERO_CELSIUS_K, Exposure::Shade),
            counters: Counters::default(),
            flow: FlowSolution::still(&ambient),
            around: *around,
            ambient,
            water: Water::at(around.temperature_k),
            disturbed: true,
            blown_through: false,
            parameters: parameters.clone(),
        }
    }

    /// Lets `ticks` pass (1 to 20) in steady surroundings.
    pub fn step(&mut self, ticks: u64, around: &Surroundings) {
        let dt_s = ticks as f64 * TICK_SECONDS;
        self.meet(around);
        self.creep(dt_s);
        if self.disturbed {
            self.flow = self.solve();
            self.disturbed = false;
        }
        let before = self.flow.flow_std_m3_min();
        let volts = self.motor_volts(dt_s);
        self.blower.step(&self.parameters.blower, dt_s, volts, &self.flow, around.temperature_k);
        self.flow = self.solve();
        self.load_filter(dt_s, around.dust_kg_m3);
        self.step_gauges(dt_s);
        self.count(dt_s);
        self.sampled(dt_s, before);
    }

    /// Lets what is faulty go on by itself: a knob that slips, a sensor that drifts.
    pub(super) fn creep(&mut self, dt_s: f64) {
        let controller = &mut self.parameters.flow_controller;
        controller.ambient_sensor_error_k += controller.sensor_drift_k_h * dt_s / 3600.0;
        if self.parameters.calibrator.slips_per_min.abs() > 0.0
            && self.is_powered()
            && self.mounting.calibrator_mounted()
        {
            self.calibrator.slip(&self.parameters.calibrator, dt_s);
        }
    }

    /// Takes over new surroundings.
    pub(super) fn meet(&mut self, around: &Surroundings) {
        if self.around == *around {
            return;
        }
        if (self.around.temperature_k - around.temperature_k).abs() > 0.0 {
            self.water = Water::at(around.temperature_k);
        }
        self.around = *around;
        self.ambient = ambient_of(around);
    }

    /// Voltage at the motor, by whichever way it is fed.
    fn motor_volts(&mut self, dt_s: f64) -> f64 {
        let feed = self.feed();
        let mains = if self.timer_has_mains() { OnOff::On } else { OnOff::Off };
        self.timer.step(dt_s, self.around.week, mains);
        match feed {
            Feed::Line => self.around.mains_v,
            Feed::Controlled => self.flow_controller.step(
                &self.parameters.flow_controller,
                dt_s,
                self.flow.mass_flow_kg_s,
                self.around.mains_v,
            ),
            Feed::Dead => {
                self.flow_controller.power_off();
                0.0
            }
        }
    }

    /// What flows at the present speed.
    fn solve(&self) -> FlowSolution {
        let machine = Machine { blower: &self.parameters.blower, path: &self.parameters.flow_path };
        let speed = self.blower.speed_rad_s;
        flow_path::solve(machine, &self.ambient, &self.inlet(), speed, Some(&self.flow))
    }

    /// What stands at the inlet now.
    pub fn inlet(&self) -> Inlet {
        let calibrator = self
            .mounting
            .calibrator_mounted()
            .then(|| self.calibrator.passage(&self.parameters.calibrator));
        let filter = self.mounting.filter_fitted().then(|| {
            self.filter.resistance_pa_s_m3(&self.parameters.filter, self.ambient.temperature_k)
        });
        // Holes in a filter let air pass beside it only where the filter stands alone.
        let beside = if calibrator.is_none() && filter.is_some() {
            self.filter.sheet.leak_mm2()
        } else {
            0.0
        };
        let leak_cda_m2 = (self.mounting.leak_mm2() + beside) * 1e-6;
        let gust_pa = self.around.inlet_gust_pa;
        Inlet { calibrator, filter_pa_s_m3: filter, leak_cda_m2, gust_pa }
    }

    fn step_gauges(&mut self, dt_s: f64) {
        let suction_pa = self.tube.step(dt_s, self.flow.orifice_drop_pa);
        if self.manometer.is_hung() {
            let inputs = ManometerInputs {
                suction_pa,
                gust_pa: self.around.gust_pa,
                ambient_pa: self.around.pressure_pa,
                water_density_kg_m3: self.water.density_kg_m3,
                water_viscosity_m2_s: self.water.viscosity_m2_s,
            };
            self.manometer.step(dt_s, inputs);
        }
        self.recorder.step(dt_s, self.recorder_inputs());
        self.paper.advance(dt_s, &self.recorder);
        let air_c = self.around.temperature_k - ZERO_CELSIUS_K;
        self.thermometer.step(dt_s, air_c, self.parameters.sun_k);
    }

    pub(super) fn count(&mut self, dt_s: f64) {
        let powered = self.is_powered();
        let counters = &mut self.counters;
        counters.steady_s += dt_s;
        if powered {
            counters.running_s += dt_s;
            counters.ran_s += dt_s;
        } else {
            counters.running_s = 0.0;
        }
        if powered && self.calibrator.blocked && self.mounting.calibrator_mounted() {
            counters.blocked_s += dt_s;
            counters.longest_blocked_s = counters.longest_blocked_s.max(counters.blocked_s);
        } else {
            counters.blocked_s = 0.0;
        }
    }

    /// The filter of the run: the one that is handled, until another is taken for the next run.
    pub const fn run_filter(&self) -> &Filter {
        match &self.kept_filter {
            Some(kept) => kept,
            None => &self.filter,
        }
    }

    /// Says that something at the inlet or the supply was changed by hand.
    pub fn flow_was_changed(&mut self) {
        self.disturbed = true;
        self.counters.steady_s = 0.0;
        self.counters.taps = 0;
        self.flow = self.solve();
    }

    /// Says that something was changed by itself: a fault began.
    pub const fn flow_was_disturbed(&mut self) {
        self.disturbed = true;
    }

    /// Whether steps of a single tick are needed.
    pub fn is_settling(&self) -> bool {
        self.disturbed || self.blower.is_settling() || self.feed() == Feed::Controlled
    }

    /// Which way the blower is fed.
    pub fn feed(&self) -> Feed {
        self.feed_at(self.around.week)
    }

    /// Which way the blower would be fed at another moment, the mains being as they are.
    pub fn feed_at(&self, week: WeekTime) -> Feed {
        match self.power.feed(self.timer.output(week)) {
            feed if self.around.mains_v > 0.0 => feed,
            _ => Feed::Dead,
        }
    }

    /// Whether timer and controller have mains: the sampler's cord is in, and there is power.
    pub(super) fn timer_has_mains(&self) -> bool {
        self.power.sampler_cord_in && self.around.mains_v > 0.0
    }

    /// What the rig stands in.
    pub(super) const fn around(&self) -> &Surroundings {
        &self.around
    }

    /// Takes over a flow that was found elsewhere.
    pub(super) const fn set_flow(&mut self, flow: FlowSolution) {
        self.flow = flow;
        self.disturbed = false;
    }

    /// Whether the blower has power.
    pub fn is_powered(&self) -> bool {
        self.feed() != Feed::Dead
    }

    /// Whether the controller's lamp is lit.
    pub fn controller_live(&self) -> bool {
        self.power.controller_live(self.timer.output(self.around.week))
    }

    /// Hangs the manometer on its hook.
    pub fn hang_manometer(&mut self) {
        self.manometer.hang(self.parameters.hook_tilt_deg);
        self.blown_through = false;
    }

    /// Takes the manometer off its hook.
    pub fn unhang_manometer(&mut self) {
        self.manometer.carry();
        self.blown_through = false;
    }

    /// Blows into the tube's free end.
    pub fn blow_through(&mut self) {
        use super::manometer::Blown;
        let blown = self.manometer.blow(self.tube.puff_share());
        self.blown_through |= blown == Blown::Freely;
    }

    /// Taps the recorder's case.
    pub fn tap(&mut self) {
        self.recorder.tap();
        self.counters.taps = self.counters.taps.saturating_add(1);
    }

    /// Whether breath was seen to move the water since the manometer was hung.
    pub const fn blown_through(&self) -> bool {
        self.blown_through
    }

    /// How long things have lasted.
    pub const fn counters(&self) -> &Counters {
        &self.counters
    }

    /// What flows.
    pub const fn flow(&self) -> &FlowSolution {
        &self.flow
    }

    /// Hour of the day, 0 to 24.
    pub const fn hour_of_day(&self) -> f64 {
        self.around.week.hours
    }

    /// The air around.
    pub const fn ambient(&self) -> &Ambient {
        &self.ambient
    }

    /// What drives the recorder.
    pub fn recorder_inputs(&self) -> RecorderInputs {
        RecorderInputs::from(&self.flow)
    }

    /// What the barometer's pointer shows, mmHg.
    pub fn barometer_mmhg(&self) -> f64 {
        self.barometer.pointer_mmhg(self.around.pressure_pa)
    }

    /// Air heard hissing in, from close by: the largest leak.
    pub fn hiss(&self) -> Option<Hiss> {
        if self.flow.plenum_suction_pa < 100.0 || !self.mounting.clamped() {
            return None;
        }
        let under = self.mounting.calibrator_leak_mm2();
        let edge = self.mounting.edge_leak_mm2();
        let nuts = Nut::ALL.map(|nut| (Hiss::AtNut(nut.number()), self.mounting.nut_leak_mm2(nut)));
        [(Hiss::UnderCalibrator, under), (Hiss::PlateEdge, edge)]
            .into_iter()
            .chain(nuts)
            .filter(|&(_, leak_mm2)| leak_mm2 > HEARD_MM2)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(hiss, _)| hiss)
    }

    /// Whether the manometer hangs on its hook.
    pub fn manometer_hangs(&self) -> bool {
        self.mounting.place(Part::Manometer) == Place::Hook
    }

    /// Whether every value that matters is finite.
    pub fn is_finite(&self) -> bool {
        let [left, right] = self.manometer.levels_in();
        [
            self.blower.speed_rad_s,
            self.blower.warmth.winding_k,
            self.flow.mass_flow_kg_s,
            self.flow.orifice_drop_pa,
            self.flow.exit_pressure_pa,
            left,
            right,
            self.recorder.pen(),
            self.thermometer.column_c(),
        ]
        .iter()
        .all(|value| value.is_finite())
    }
}

/// The air of the surroundings, prepared for the flow.
fn ambient_of(around: &Surroundings) -> Ambient {
    Ambient::from(AirState {
        pressure_pa: around.pressure_pa,
        temperature_k: around.temperature_k,
        humidity: around.humidity,
    })
}

impl Digestible for Rig {
    fn digest(&self, digest: &mut Digest) {
        self.mounting.digest(digest);
        self.power.digest(digest);
        self.timer.digest(digest);
        self.flow_controller.digest(digest);
        digest.number(self.parameters.flow_controller.ambient_sensor_error_k);
        self.blower.digest(digest);
        digest.number(self.calibrator.opening);
        digest.flag(self.calibrator.blocked);
        self.filter.digest(digest);
        self.tube.digest(digest);
        self.manometer.digest(digest);
        self.recorder.digest(digest);
        self.paper.digest(digest);
        self.barometer.digest(digest);
        self.thermometer.digest(digest);
        digest.number(self.flow.mass_flow_kg_s);
        digest.number(self.flow.orifice_drop_pa);
        digest.number(self.flow.exit_pressure_pa);
        let counters = &self.counters;
        digest.number(counters.running_s);
        digest.number(counters.ran_s);
        digest.number(counters.steady_s);
        digest.number(counters.longest_blocked_s);
        digest.whole(counters.taps.into());
        digest.flag(self.disturbed);
        digest.flag(self.blown_through);
        if self.next_sheet != Sheet::fresh(1) || self.frame_shifts {
            Filter { sheet: self.next_sheet, ..Filter::default() }.digest(digest);
            digest.flag(self.frame_shifts);
        }
        if let Some(kept) = &self.kept_chart {
            kept.digest(digest);
        }
        if let Some(kept) = &self.kept_filter {
            kept.digest(digest);
        }
        if let Some(sample) = &self.sample {
            sample.digest(digest);
        }
    }
}
