//! What an unattended run actually sampled: a trainee's volume is compared with it.

use std::sync::Arc;

use crate::digest::digest_fields;

/// Flow below which a sampler counts as stopped, standard m3/min.
const STANDS_STD_M3_MIN: f64 = 0.05;
/// Time between two lines of the log, s.
const LOG_EVERY_S: f64 = 3600.0;
/// The most lines that are stored: ten days.
const MOST_LINES: usize = 240;

/// The state of the run at a whole number of hours after the operator left the site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourLine {
    /// Hours since the operator left the site.
    pub hours: f64,
    /// Hour of the day, 0 to 24.
    pub hour_of_day: f64,
    /// Station pressure, Pa.
    pub pressure_pa: f64,
    /// Air temperature, K.
    pub temperature_k: f64,
    /// True flow, standard m3/min.
    pub flow_std_m3_min: f64,
    /// Voltage at the motor, V.
    pub volts: f64,
    /// Mains voltage, V.
    pub line_v: f64,
    /// The pen, chart divisions.
    pub pen: f64,
    /// Dust on the filter, kg/m2.
    pub deposit_kg_m2: f64,
}

digest_fields!(HourLine {
    hours,
    hour_of_day,
    pressure_pa,
    temperature_k,
    flow_std_m3_min,
    volts,
    line_v,
    pen,
    deposit_kg_m2
});

/// One step of the run, with the state at its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::rig) struct SampleStep {
    /// Length of the step, s.
    pub dt_s: f64,
    /// True flow at its start and end, standard m3/min.
    pub flow_std_m3_min: [f64; 2],
    /// Fraction of the flow that passes through the filter, not beside it, at the end.
    pub filtered: f64,
    /// Whether the blower has power.
    pub powered: bool,
    /// The pen, and where it would rest without friction, chart divisions.
    pub pen: [f64; 2],
    /// The line for the log.
    pub line: HourLine,
}

/// The totals of a run, all counted from the moment at which the operator left the site.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AirSample {
    /// Time since the operator left the site, s.
    pub gone_s: f64,
    /// Volume sampled, standard m3: the integral of the true flow over time, by the trapezoidal
    /// rule.
    pub volume_std_m3: f64,
    /// The part of it that passed through the filter, standard m3.
    pub filtered_std_m3: f64,
    /// Time for which the blower had power, s.
    pub powered_s: f64,
    /// Lowest flow after the first minute of power, standard m3/min; zero before.
    pub lowest_std_m3_min: f64,
    /// Highest flow, standard m3/min.
    pub highest_std_m3_min: f64,
    /// How often the blower started.
    pub starts: u32,
    /// Time since the last start, s.
    since_start_s: f64,
    pressure_pa_s: f64,
    temperature_k_s: f64,
    pen_s: f64,
    rest_s: f64,
    kept_s: f64,
    closed: bool,
    log: Arc<Vec<HourLine>>,
}

digest_fields!(AirSample {
    gone_s,
    volume_std_m3,
    filtered_std_m3,
    powered_s,
    lowest_std_m3_min,
    highest_std_m3_min,
    starts,
    since_start_s,
    pressure_pa_s,
    temperature_k_s,
    pen_s,
    rest_s,
    kept_s,
    closed,
    log
});

impl AirSample {
    /// Adds a step.
    pub(in crate::rig) fn take(&mut self, seen: &SampleStep) {
        if self.closed {
            return;
        }
        let dt_s = seen.dt_s;
        let [before, after] = seen.flow_std_m3_min;
        let drawn = 0.5 * (before + after) * dt_s / 60.0;
        self.gone_s += dt_s;
        self.volume_std_m3 += drawn;
        self.filtered_std_m3 += drawn * seen.filtered;
        if seen.powered {
            self.run(seen, after);
        } else {
            self.since_start_s = 0.0;
        }
        self.kept_s += dt_s;
        if self.kept_s >= LOG_EVERY_S - 1e-6 {
            self.kept_s -= LOG_EVERY_S;
            if self.log.len() < MOST_LINES {
                Arc::make_mut(&mut self.log).push(seen.line);
            }
        }
    }

    fn run(&mut self, seen: &SampleStep, flow: f64) {
        let dt_s = seen.dt_s;
        if self.since_start_s <= 0.0 {
            self.starts += 1;
        }
        self.since_start_s += dt_s;
        self.powered_s += dt_s;
        self.pressure_pa_s += seen.line.pressure_pa * dt_s;
        self.temperature_k_s += seen.line.temperature_k * dt_s;
        self.pen_s += seen.pen[0] * dt_s;
        self.rest_s += seen.pen[1] * dt_s;
        if self.since_start_s > 60.0 && flow > STANDS_STD_M3_MIN {
            let lowest = if self.lowest_std_m3_min > 0.0 { self.lowest_std_m3_min } else { flow };
            self.lowest_std_m3_min = lowest.min(flow);
            self.highest_std_m3_min = self.highest_std_m3_min.max(flow);
        }
    }

    /// Whether the run still counts.
    pub(in crate::rig) const fn is_open(&self) -> bool {
        !self.closed
    }

    /// Ends the run: air that is drawn later no longer counts.
    pub(in crate::rig) const fn close(&mut self) {
        self.closed = true;
    }

    /// Mean station pressure while it ran, Pa.
    pub fn mean_pressure_pa(&self) -> Option<f64> {
        self.mean(self.pressure_pa_s)
    }

    /// Mean air temperature while it ran, K.
    pub fn mean_temperature_k(&self) -> Option<f64> {
        self.mean(self.temperature_k_s)
    }

    /// Mean of the pen while it ran, chart divisions: a perfect reading of the trace.
    pub fn mean_pen(&self) -> Option<f64> {
        self.mean(self.pen_s)
    }

    /// The same mean for a pen without friction, chart divisions.
    pub fn mean_pen_at_rest(&self) -> Option<f64> {
        self.mean(self.rest_s)
    }

    /// Mean flow while it had power, standard m3/min.
    pub fn mean_flow_std_m3_min(&self) -> Option<f64> {
        self.mean(60.0 * self.volume_std_m3)
    }

    fn mean(&self, sum: f64) -> Option<f64> {
        (self.powered_s > 0.0).then(|| sum / self.powered_s)
    }

    /// The state of the run hour by hour.
    pub fn log(&self) -> &[HourLine] {
        &self.log
    }
}
