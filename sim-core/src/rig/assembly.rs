//! The assembled rig: every instrument's state, and one step of all of them together. The questions
//! that can be asked of it are in `asked`.

use crate::digest::digest_fields;

mod asked;
mod coarse_step;

use crate::air::{AirState, Ambient, water};
use crate::rig::RigParameters;
use crate::rig::flow::added_filters::AddedFilters;
use crate::rig::flow::blower::Blower;
use crate::rig::flow::calibrator::Calibrator;
use crate::rig::flow::filter::{Filter, FilterSheet};
use crate::rig::flow::flow_path::{self, Inlet, Machine, Rotor};
use crate::rig::flow::flow_solution::FlowSolution;
use crate::rig::flow::mounting::Mounting;
use crate::rig::flow::sample::AirSample;
use crate::rig::flow::shelter::Shelter;
use crate::rig::manometer::electronic::ElectronicManometer;
use crate::rig::manometer::tube::{Freezes, Tube};
use crate::rig::manometer::{ColdExposure, Manometer, ManometerInputs};
use crate::rig::parts::{
    AirOpening, BarometerReference, Exposure, GaugeFluid, OnOff, PartPlace, RigPart, Stopper,
    TimerSwitch,
};
use crate::rig::power::flow_controller::FlowController;
use crate::rig::power::protection::GroundFault;
use crate::rig::power::timer::Timer;
use crate::rig::power::{BlowerSupply, Feed};
use crate::rig::recorder::FlowRecorder;
use crate::rig::recorder::chart::ChartPaper;
use crate::rig::station::Surroundings;
use crate::rig::station::barometer::Barometer;
use crate::rig::station::thermometer::Thermometer;
use crate::time::TICK_SECONDS;
use crate::units::ZERO_CELSIUS_K;

/// The rig: the truth of a session.
#[derive(Debug, Clone)]
pub struct Rig {
    /// The parameters of the instruments. A fault changes them at its onset.
    pub parameters: RigParameters,
    /// Lid, nuts and gaskets, and the places of the parts.
    pub mounting: Mounting,
    /// Cords and plugs.
    pub power: BlowerSupply,
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
    /// Clean filters on top of it, laid on to test the controller.
    pub added: AddedFilters,
    /// The filter of the run in its envelope, once another one was taken for the next run.
    pub kept_filter: Option<Filter>,
    /// The next fresh filter in the folder.
    pub next_sheet: FilterSheet,
    /// Whether the hold-down frame will push the filter aside when it is next laid on it.
    pub frame_shifts: bool,
    /// The tubing.
    pub tube: Tube,
    /// The manometer.
    pub manometer: Manometer,
    /// The electronic manometer, which takes its place if the parameters say so.
    pub electronic: ElectronicManometer,
    /// The recorder.
    pub recorder: FlowRecorder,
    /// The chart on it.
    pub chart: ChartPaper,
    /// The chart of the run, once it was taken off.
    pub kept_chart: Option<ChartPaper>,
    /// The air that an unattended run has sampled so far.
    pub sample: Option<AirSample>,
    /// The barometer.
    pub barometer: Barometer,
    /// The thermometer.
    pub thermometer: Thermometer,
    /// The openings of the shelter, and what lies in them.
    pub shelter: Shelter,
    /// The ground-fault protection of the outlet.
    pub ground_fault: GroundFault,
    counters: Counters,
    flow: FlowSolution,
    around: Surroundings,
    ambient: Ambient,
    water: Water,
    /// Whether something was changed at the inlet or the supply since the last step.
    disturbed: bool,
    blown_through: bool,
}

digest_fields!(Rig { parameters, mounting, power, timer, flow_controller, blower, calibrator, filter, added, kept_filter, next_sheet, frame_shifts, tube, manometer, electronic, recorder, chart, kept_chart, sample, barometer, thermometer, shelter, ground_fault, counters, flow, around, water, disturbed, blown_through } without { ambient });

/// Times and counts since certain events.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Counters {
    /// Time since the blower was powered, s; zero without power.
    pub running_s: f64,
    /// Total time for which the blower has had power, s.
    pub ran_s: f64,
    /// Time since the flow was last changed by hand or by switching, s.
    pub steady_s: f64,
    /// Time since the openings were covered with the blower on, s.
    pub blocked_s: f64,
    /// The longest such time, s.
    pub longest_blocked_s: f64,
    /// Taps since the flow was last changed.
    pub taps: u32,
}

digest_fields!(Counters { running_s, ran_s, steady_s, blocked_s, longest_blocked_s, taps });

/// By how much the air may have changed until the manometer's water has followed it, K (CHOSEN; it
/// changes the density by 1e-5 and the viscosity by 0.1 %).
const WATER_LAGS_K: f64 = 0.05;

/// The manometer's water.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Water {
    temperature_k: f64,
    density_kg_m3: f64,
    viscosity_m2_s: f64,
}

digest_fields!(Water { temperature_k, density_kg_m3, viscosity_m2_s });

impl Water {
    fn at(temperature_k: f64) -> Self {
        Self {
            temperature_k,
            density_kg_m3: water::density_kg_m3(temperature_k),
            viscosity_m2_s: water::kinematic_viscosity_m2_s(temperature_k),
        }
    }
}

impl Rig {
    /// The rig as the trainee finds it: the sampler plugged in, off and cold, with a filter
    /// clamped.
    pub fn new(parameters: &RigParameters, around: &Surroundings) -> Self {
        let ambient = ambient_of(around);
        let controller = &parameters.flow_controller;
        let turns = FlowController::turns_for(controller, parameters.found_set_point_std_m3_min);
        let mut timer = Timer::new(0.0);
        timer.switch = TimerSwitch::Auto;
        Self {
            mounting: Mounting::as_found(parameters.mounting),
            power: BlowerSupply::default(),
            timer,
            flow_controller: FlowController::new(turns),
            blower: Blower::at_rest(around.temperature_k),
            calibrator: Calibrator::default(),
            filter: Filter::default(),
            added: AddedFilters::default(),
            kept_filter: None,
            next_sheet: FilterSheet::fresh(1),
            frame_shifts: false,
            tube: Tube::default(),
            manometer: Manometer::new(parameters.manometer, around.pressure_pa),
            electronic: ElectronicManometer::new(parameters.electronic),
            recorder: FlowRecorder::new(parameters.recorder),
            chart: ChartPaper::new(around.week.hours),
            kept_chart: None,
            sample: None,
            barometer: Barometer::new(parameters.elevation_m, BarometerReference::Station),
            thermometer: Thermometer::new(around.temperature_k - ZERO_CELSIUS_K, Exposure::Shade),
            shelter: Shelter::default(),
            ground_fault: GroundFault::default(),
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
        self.set_surroundings(around);
        self.drift(dt_s);
        if self.disturbed {
            self.flow = self.solve();
            self.disturbed = false;
        }
        let before = self.flow.flow_std_m3_min();
        let feed = self.feed();
        self.step_timer(dt_s);
        if feed == Feed::Controlled && self.is_held() {
            self.settles(dt_s, around, feed);
        } else {
            let volts = self.motor_volts(dt_s, feed);
            let air_k = around.temperature_k;
            self.blower.step(&self.parameters.blower, dt_s, volts, &self.flow, air_k);
            self.flow = self.solve();
            self.load_filter(dt_s, around.dust_kg_m3);
        }
        self.step_gauges(dt_s);
        self.count(dt_s);
        self.sampled(dt_s, before);
    }

    /// Advances the faults that grow with time: a knob that slips, a sensor that drifts.
    pub(super) fn drift(&mut self, dt_s: f64) {
        if self.parameters.blower.motor.bedding_ohm > 0.0 {
            let volts = match self.feed() {
                Feed::Line => self.around.mains_v,
                Feed::Controlled => self.flow_controller.integral_v,
                Feed::Dead => 0.0,
            };
            self.parameters.blower.motor.bed_brushes(dt_s, volts);
        }
        let controller = &mut self.parameters.flow_controller;
        controller.ambient_sensor_error_k += controller.sensor_drift_k_h * dt_s / 3600.0;
        if self.parameters.calibrator.slips_per_min.abs() > 0.0
            && self.is_powered()
            && self.mounting.calibrator_mounted()
        {
            self.calibrator.slip(&self.parameters.calibrator, dt_s);
        }
    }

    /// Sets new surroundings.
    pub(super) fn set_surroundings(&mut self, around: &Surroundings) {
        if self.around == *around {
            return;
        }
        if (self.water.temperature_k - around.temperature_k).abs() > WATER_LAGS_K {
            self.water = Water::at(around.temperature_k);
        }
        self.around = *around;
        self.ambient = ambient_of(around);
    }

    /// Lets the timer go on, with mains or without.
    pub(super) fn step_timer(&mut self, dt_s: f64) {
        let mains = if self.timer_has_mains() { OnOff::On } else { OnOff::Off };
        self.timer.step(dt_s, self.around.week, mains);
    }

    /// Voltage at the motor, from whichever supply feeds it.
    fn motor_volts(&mut self, dt_s: f64, feed: Feed) -> f64 {
        match feed {
            Feed::Line => self.around.mains_v,
            Feed::Controlled => self.flow_controller.step(
                &self.parameters.flow_controller,
                dt_s,
                self.flow.mass_flow_kg_s * (1.0 + self.around.probe),
                self.around.mains_v,
            ),
            Feed::Dead => {
                self.flow_controller.power_off();
                0.0
            }
        }
    }

    /// The flow at the present speed.
    fn solve(&self) -> FlowSolution {
        let machine = Machine { blower: &self.parameters.blower, path: &self.parameters.flow_path };
        let Blower { speed_rad_s, warmth, .. } = &self.blower;
        let rotor = Rotor { speed_rad_s: *speed_rad_s, warmth };
        flow_path::solve(machine, &self.ambient, &self.inlet(), rotor, Some(&self.flow))
    }

    /// What is fitted at the inlet now.
    pub fn inlet(&self) -> Inlet {
        let calibrator = self
            .mounting
            .calibrator_mounted()
            .then(|| self.calibrator.passage(&self.parameters.calibrator));
        let filter = self.mounting.filter_fitted().then(|| {
            let (parameters, air_k) = (&self.parameters.filter, self.ambient.temperature_k);
            self.filter.resistance_pa_s_m3(parameters, air_k)
                + self.added.resistance_pa_s_m3(parameters, air_k)
        });
        let stopped = self.stopped_inlet_pa_s_m3();
        let filter =
            if stopped > 0.0 { Some(filter.unwrap_or_default() + stopped) } else { filter };
        // Holes in a filter let unfiltered air pass only if the filter is fitted without the
        // calibrator.
        let beside = if calibrator.is_none() && filter.is_some() {
            self.filter.sheet.leak_mm2()
        } else {
            0.0
        };
        let leak_cda_m2 = (self.mounting.leak_mm2() + beside) * 1e-6;
        let gust_pa = self.around.inlet_gust_pa;
        Inlet { calibrator, filter_pa_s_m3: filter, leak_cda_m2, gust_pa }
    }

    /// Resistance of what lies in the gap under the lid, Pa s/m3: through an open lid the air passes
    /// beside it.
    fn stopped_inlet_pa_s_m3(&self) -> f64 {
        let share = self.shelter.inlet_share();
        if share <= 0.0 || self.mounting.lid_open {
            return 0.0;
        }
        let clean = Filter::default();
        share * clean.resistance_pa_s_m3(&self.parameters.filter, self.ambient.temperature_k)
    }

    /// Takes out what lies in an opening of the shelter.
    pub fn clear_opening(&mut self, opening: AirOpening) {
        if opening == AirOpening::Exhaust {
            self.parameters.flow_path.exit_cda_m2 /= self.shelter.exhaust_open();
        }
        self.shelter.clear(opening);
        self.flow_was_changed();
    }

    /// Something settles in the exhaust grill and takes this part of the exhaust's area.
    pub fn stop_exhaust(&mut self, by: Stopper, share: f64) {
        self.shelter.stop_exhaust(by, share);
        self.parameters.flow_path.exit_cda_m2 *= self.shelter.exhaust_open();
    }

    fn step_gauges(&mut self, dt_s: f64) {
        let suction_pa = self.tube.step(dt_s, self.tap_suction_pa());
        if self.is_electronic() {
            let hung = if self.manometer_hangs() { OnOff::On } else { OnOff::Off };
            self.electronic.step(dt_s, suction_pa, self.around.gust_pa, hung);
        } else if self.manometer.is_hung() {
            let inputs = ManometerInputs {
                suction_pa,
                gust_pa: self.around.gust_pa,
                ambient_pa: self.around.pressure_pa,
                water_density_kg_m3: self.water.density_kg_m3,
                water_viscosity_m2_s: self.water.viscosity_m2_s,
            };
            self.manometer.step(dt_s, inputs);
            self.tube.take_over(self.manometer.pour_over());
        }
        self.chill(dt_s);
        self.recorder.chill(self.around.temperature_k - ZERO_CELSIUS_K);
        self.recorder.step(dt_s, self.recorder_inputs());
        self.chart.advance(dt_s, &self.recorder);
        let air_c = self.around.temperature_k - ZERO_CELSIUS_K;
        self.thermometer.step(dt_s, air_c, self.parameters.sun_k);
    }

    /// Lets water in manometer and tubing freeze or thaw.
    fn chill(&mut self, dt_s: f64) {
        let exposed = match self.mounting.place(RigPart::Manometer) {
            PartPlace::Case => ColdExposure::Case,
            _ => ColdExposure::Open,
        };
        let air_c = self.around.temperature_k - ZERO_CELSIUS_K;
        let freezes = if self.manometer.fluid().freezes() { Freezes::Yes } else { Freezes::No };
        self.manometer.stand(dt_s, air_c, exposed);
        self.tube.stand(dt_s, air_c, exposed, freezes);
    }

    /// Fills the manometer anew in the van, where it and its tubing dry and thaw.
    pub fn change_fluid(&mut self, fluid: GaugeFluid) {
        self.manometer.change_fluid(fluid);
        self.tube.dry();
        self.blown_through = false;
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
        if powered && self.ground_fault.carries(dt_s) {
            self.disturbed = true;
        }
        let counters = &mut self.counters;
        if powered && self.calibrator.blocked && self.mounting.calibrator_mounted() {
            counters.blocked_s += dt_s;
            counters.longest_blocked_s = counters.longest_blocked_s.max(counters.blocked_s);
        } else {
            counters.blocked_s = 0.0;
        }
    }

    /// Notes that something was changed by hand at the inlet or the supply.
    pub fn flow_was_changed(&mut self) {
        self.disturbed = true;
        self.counters.steady_s = 0.0;
        self.counters.taps = 0;
        self.flow = self.solve();
    }

    /// Notes that something changed without a hand: a fault began.
    pub const fn flow_was_disturbed(&mut self) {
        self.disturbed = true;
    }

    /// Sets a flow that was calculated elsewhere.
    pub(super) const fn set_flow(&mut self, flow: FlowSolution) {
        self.flow = flow;
        self.disturbed = false;
    }

    /// Hangs the manometer on its hook.
    pub fn hang_manometer(&mut self) {
        self.manometer.hang(self.parameters.hook_tilt_deg);
        self.blown_through = false;
    }

    /// Takes the manometer off its hook.
    pub fn take_down_manometer(&mut self) {
        self.manometer.carry();
        self.blown_through = false;
    }

    /// Blows into the free end of the tubing.
    pub fn blow_through(&mut self) {
        use crate::rig::manometer::BlowResponse;
        let blown = self.manometer.blow(self.tube.puff_share());
        self.blown_through |= blown == BlowResponse::Freely;
    }

    /// Taps the recorder's case.
    pub fn tap(&mut self) {
        self.recorder.tap();
        self.counters.taps = self.counters.taps.saturating_add(1);
    }
}

/// The air of the surroundings, prepared for the calculation of the flow.
fn ambient_of(around: &Surroundings) -> Ambient {
    Ambient::from(AirState {
        pressure_pa: around.pressure_pa,
        temperature_k: around.temperature_k,
        humidity: around.humidity,
    })
}
