//! The unattended rig: steps of up to a minute, within which everything fast has settled.
//!
//! Rotor, controller and flow settle within seconds; filter, weather and temperatures change over
//! minutes and hours. So a coarse step puts rotor and controller at their steady state and advances
//! only the slow quantities. When power comes or goes, steps of one tick are needed; the caller
//! that drives the rig takes care of that ([`crate::session`]).

use crate::rig::Rig;
use crate::rig::flow::blower::WindingLoad;
use crate::rig::flow::flow_path::Machine;
use crate::rig::flow::flow_solution::FlowSolution;
use crate::rig::flow::operating_point::{
    FlowGuess, OperatingConditions, OperatingPoint, steady_held, steady_near,
};
use crate::rig::flow::sample::{AirSample, HourLine, SampleStep};
use crate::rig::power::Feed;
use crate::rig::station::Surroundings;
use crate::units::ZERO_CELSIUS_K;

impl Rig {
    /// Advances the rig by `dt_s` (up to 60 s) in the mean surroundings of that time.
    pub fn step_coarse(&mut self, dt_s: f64, around: &Surroundings) {
        self.set_surroundings(around);
        self.drift(dt_s);
        let before = self.flow().flow_std_m3_min();
        self.step_timer(dt_s);
        match self.feed() {
            Feed::Dead => self.rests(dt_s, around),
            Feed::Line => self.settles(dt_s, around, Feed::Line),
            Feed::Controlled => self.settles(dt_s, around, Feed::Controlled),
        }
        self.recorder.step(dt_s, self.recorder_inputs());
        self.chart.advance(dt_s, &self.recorder);
        let air_c = around.temperature_k - ZERO_CELSIUS_K;
        self.thermometer.step(dt_s, air_c, self.parameters.sun_k);
        self.count(dt_s);
        self.sampled(dt_s, before);
    }

    /// A step without power: the rotor has run down.
    fn rests(&mut self, dt_s: f64, around: &Surroundings) {
        self.flow_controller.power_off();
        let still = FlowSolution::still(self.ambient());
        let load = WindingLoad { flow: &still, made_w: 0.0 };
        self.blower.warm(&self.parameters.blower, dt_s, 0.0, load, around.temperature_k);
        self.blower.rest(0.0, 0.0);
        self.set_flow(still);
    }

    /// A step with power: rotor, controller and flow have settled together, with filter and winding
    /// as they are at the end of the step.
    pub(super) fn settles(&mut self, dt_s: f64, around: &Surroundings, feed: Feed) {
        self.load_filter(dt_s, around.dust_kg_m3);
        let (flow, volts) = (*self.flow(), around.mains_v);
        let load = WindingLoad { flow: &flow, made_w: self.blower.made_w(&self.parameters.blower) };
        self.blower.warm(&self.parameters.blower, dt_s, volts, load, around.temperature_k);
        let conditions = OperatingConditions {
            ambient: *self.ambient(),
            inlet: self.inlet(),
            volts: around.mains_v,
            warmth: self.blower.warmth,
            probe: around.probe,
        };
        let point = {
            let machine =
                Machine { blower: &self.parameters.blower, path: &self.parameters.flow_path };
            let near = FlowGuess { flow: self.flow() };
            match feed {
                Feed::Controlled => steady_held(
                    machine,
                    &conditions,
                    &self.parameters.flow_controller,
                    &self.flow_controller,
                    near,
                ),
                Feed::Line | Feed::Dead => steady_near(machine, &conditions, near),
            }
        };
        if feed == Feed::Controlled {
            let sensed = self
                .parameters
                .flow_controller
                .sensed_std_m3_min(point.flow.mass_flow_kg_s * (1.0 + around.probe));
            self.flow_controller.rest(sensed, point.volts);
        }
        let OperatingPoint { flow, current_a, .. } = point;
        self.blower.rest(flow.speed_rad_s, current_a);
        self.set_flow(flow);
    }

    /// Loads the filter with the dust in the air of a step.
    pub(super) fn load_filter(&mut self, dt_s: f64, dust_kg_m3: f64) {
        if dust_kg_m3 > 0.0 && self.mounting.filter_fitted() {
            let through = self.flow().flow_m3_min() * self.filtered_share() / 60.0;
            let parameters = &self.parameters.filter;
            if self.added.cover() {
                self.added.load(parameters, dt_s, through, dust_kg_m3);
            } else {
                self.filter.load(parameters, dt_s, through, dust_kg_m3);
            }
        }
    }

    /// Fraction of the flow that passes through the filter, not beside it.
    fn filtered_share(&self) -> f64 {
        let flow = self.flow();
        if !self.mounting.filter_fitted() {
            return 0.0;
        }
        if flow.mass_flow_kg_s <= 0.0 {
            return 1.0;
        }
        (1.0 - flow.leak_mass_flow_kg_s / flow.mass_flow_kg_s).clamp(0.0, 1.0)
    }

    /// Adds the air of a step to the sample, if a run is under way. `before` is the flow at its
    /// start.
    pub(super) fn sampled(&mut self, dt_s: f64, before: f64) {
        if !self.sample.as_ref().is_some_and(AirSample::is_open) {
            return;
        }
        if self.is_powered() {
            self.recorder.vibrate(dt_s);
        }
        let around = self.around();
        let flow = self.flow().flow_std_m3_min();
        let gone_s = self.sample.as_ref().map_or(0.0, |sample| sample.gone_s);
        let seen = SampleStep {
            dt_s,
            flow_std_m3_min: [before, flow],
            filtered: self.filtered_share(),
            powered: self.is_powered(),
            pen: [self.recorder.pen(), self.recorder.pen_at_rest(self.recorder_inputs())],
            line: HourLine {
                hours: (gone_s + dt_s) / 3600.0,
                hour_of_day: around.week.hours,
                pressure_pa: around.pressure_pa,
                temperature_k: around.temperature_k,
                flow_std_m3_min: flow,
                volts: self.flow_controller.integral_v,
                line_v: around.mains_v,
                pen: self.recorder.pen(),
                deposit_kg_m2: self.filter.deposit_kg_m2,
            },
        };
        if let Some(sample) = &mut self.sample {
            sample.take(&seen);
        }
    }

    /// Ends the sample of a run.
    pub fn close_sample(&mut self) {
        if let Some(sample) = &mut self.sample {
            sample.close();
        }
    }

    /// Begins the sample of a run.
    pub fn begin_sample(&mut self) {
        self.sample = Some(AirSample::default());
    }
}
