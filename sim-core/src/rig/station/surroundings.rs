//! Weather and mains at the station: the surroundings of the instruments, second by second.

use super::noise_override::NoiseOverride;

use super::run_weather::{DustEvent, LeavingAir, PowerCut, RunWeather};
use crate::digest::digest_fields;
use crate::noise::{GaussMarkov, Stream};
use crate::rig::power::timer::WeekTime;
use crate::time::{Date, TimeOfDay};

/// Weather and mains over the session.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeatherPlan {
    /// Station pressure at the start, Pa.
    pub pressure_pa: f64,
    /// Its change, Pa per hour.
    pub pressure_pa_h: f64,
    /// Air temperature at the start, K.
    pub temperature_k: f64,
    /// Its change, K per hour.
    pub temperature_k_h: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Standard deviation of gusts on the open leg, Pa.
    pub gust_sd_pa: f64,
    /// Mean mains voltage, V.
    pub mains_v: f64,
    /// Standard deviation of the mains voltage, V.
    pub mains_sd_v: f64,
    /// By how much a thermometer in the sun reads too high, K; zero under clouds.
    pub sun_k: f64,
    /// Minutes after the start at which thunder is first heard, if it is.
    pub thunder_min: Option<f64>,
}

digest_fields!(WeatherPlan {
    pressure_pa,
    pressure_pa_h,
    temperature_k,
    temperature_k_h,
    humidity,
    gust_sd_pa,
    mains_v,
    mains_sd_v,
    sun_k,
    thunder_min
});

/// The surroundings at one second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Station pressure, Pa.
    pub pressure_pa: f64,
    /// Air temperature, K.
    pub temperature_k: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Mains voltage, V.
    pub mains_v: f64,
    /// Pressure of a gust on the open leg, Pa.
    pub gust_pa: f64,
    /// By how much a gust presses more on the sampler's inlet than on its exhaust, Pa; zero while
    /// somebody is at the station.
    pub inlet_gust_pa: f64,
    /// Day of the week and hour.
    pub week: WeekTime,
    /// Dust in the air, kg/m3; zero while somebody is at the station, which changes no flow.
    pub dust_kg_m3: f64,
    /// What eddies add to the flow that the controller's probe senses, as a fraction of it.
    pub probe: f64,
}

impl Surroundings {
    /// The same with a pressure and a temperature that occur.
    fn within_limits(mut self) -> Self {
        self.pressure_pa = self.pressure_pa.clamp(PRESSURES_PA[0], PRESSURES_PA[1]);
        self.temperature_k = self.temperature_k.clamp(TEMPERATURES_K[0], TEMPERATURES_K[1]);
        self
    }
}

digest_fields!(Surroundings {
    pressure_pa,
    temperature_k,
    humidity,
    mains_v,
    gust_pa,
    inlet_gust_pa,
    week,
    dust_kg_m3,
    probe
});

/// The station: slow variations of each quantity about the weather plan, each from its own stream.
///
/// Correlation times are CHOSEN: gusts 4 s, mains 20 s, pressure 600 s, temperature 300 s, the
/// controller's probe 90 s.
#[derive(Debug, Clone)]
pub struct Station {
    plan: WeatherPlan,
    /// Day of the week, 0 to 6, and hour at which the session began.
    began: WeekTime,
    /// Seconds since the session began.
    seconds: u64,
    gust: GaussMarkov,
    mains: GaussMarkov,
    pressure: GaussMarkov,
    temperature: GaussMarkov,
    /// What eddies in the throat add to the flow that the controller's probe senses, a fraction.
    probe: GaussMarkov,
    gust_fault: NoiseOverride,
    mains_fault: NoiseOverride,
    felt_gust_sd_pa: f64,
    /// By how much the mains voltage is below the plan, V.
    lowered_v: f64,
    /// Rate at which a passing front changes the temperature, K/h, and the change so far, K.
    front_k_h: f64,
    front_k: f64,
    left: Option<Leaving>,
}

digest_fields!(Station {
    plan,
    began,
    seconds,
    gust,
    mains,
    pressure,
    temperature,
    probe,
    gust_fault,
    mains_fault,
    felt_gust_sd_pa,
    lowered_v,
    front_k_h,
    front_k,
    left
});

/// The weather from the moment at which the operator left the site.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Leaving {
    /// The station's seconds at that moment.
    seconds: u64,
    air: LeavingAir,
    weather: RunWeather,
    cut: Option<PowerCut>,
    dust: Option<DustEvent>,
    /// Whether the station is still unattended.
    alone: bool,
}

digest_fields!(Leaving { seconds, air, weather, cut, dust, alone });

impl Leaving {
    /// Whether there is power this many hours later.
    fn has_power(&self, hours: f64) -> bool {
        !self.cut.is_some_and(|cut| (cut.from_h..cut.to_h).contains(&hours))
    }

    /// Dust this many hours later, kg/m3.
    fn dust_kg_m3(&self, hours: f64) -> f64 {
        let event = self.dust.filter(|event| (event.from_h..event.to_h).contains(&hours));
        self.weather.dust_kg_m3 * event.map_or(1.0, |event| event.factor)
    }
}

/// Change of pressure per change of temperature as a front passes, Pa/K: 0.4 mmHg per K (CHOSEN).
const FRONT_PA_K: f64 = -53.3;

/// Fraction of a gust's pressure by which it presses more on the sampler's inlet than on its
/// exhaust (CHOSEN: the inlet catches the wind under its eaves; the exhaust opens below the motor
/// in the lee of the stand).
///
/// It applies while nobody is at the station. A controller that holds the flow compensates nearly
/// all of it: usual gusts change the volume of a day by 0.000002 % and the pen by 0.00002
/// divisions, the strongest gusts of the fault by 0.0001 % and 0.005 divisions; if the mains
/// voltage is too low to hold the flow, the strongest gusts cost 0.006 % (computed, tests of the
/// session).
const INLET_GUST_SHARE: f64 = 0.5;

/// Standard deviation of the short-term variations of pressure, Pa (CHOSEN).
const PRESSURE_SD_PA: f64 = 8.0;

/// Standard deviation of the short-term variations of temperature, K (CHOSEN).
const TEMPERATURE_SD_K: f64 = 0.1;

/// Standard deviation of what eddies in the throat add to the flow that the probe senses, as a
/// fraction of it (CHOSEN: a held flow then wanders by some thousandths, as charts of runs show;
/// common practice, no source).
const PROBE_SD: f64 = 0.003;

/// A steady change of the weather fades out over this time, h (CHOSEN: half a day's swing).
const CHANGE_FADES_H: f64 = 8.0;

/// The most that a front changes the temperature, K (CHOSEN).
const MOST_FRONT_K: f64 = 15.0;

/// Limits of the weather: records of pressure and temperature at stations where people work, with a
/// margin (MEMORY).
const PRESSURES_PA: [f64; 2] = [45_000.0, 109_000.0];
const TEMPERATURES_K: [f64; 2] = [223.15, 333.15];

/// Hours for which a steady change has acted: h / sqrt(1 + (h / 8)^2).
fn changed_hours(hours: f64) -> f64 {
    let share = hours / CHANGE_FADES_H;
    hours / (1.0 + share * share).sqrt()
}

impl Station {
    /// A station with this weather plan, date, time of day and seed of the session.
    pub fn new(plan: WeatherPlan, date: Date, start: TimeOfDay, seed: u64) -> Self {
        let wander = |name, sd, tau_s| GaussMarkov::new(Stream::new(seed, name), sd, tau_s);
        let weekday = date.weekday();
        Self {
            plan,
            began: WeekTime { weekday, hours: start.hours() },
            seconds: 0,
            gust: wander("station gust", plan.gust_sd_pa, 4.0),
            mains: wander("station mains", plan.mains_sd_v, 20.0),
            pressure: wander("station pressure", PRESSURE_SD_PA, 600.0),
            temperature: wander("station temperature", TEMPERATURE_SD_K, 300.0),
            probe: wander("station probe", PROBE_SD, 90.0),
            gust_fault: NoiseOverride::default(),
            mains_fault: NoiseOverride::default(),
            felt_gust_sd_pa: plan.gust_sd_pa,
            lowered_v: 0.0,
            front_k_h: 0.0,
            front_k: 0.0,
            left: None,
        }
    }

    /// Silences everything that is drawn at random, except gusts.
    #[cfg(test)]
    pub(crate) fn silence(&mut self) {
        for wander in [&mut self.mains, &mut self.pressure, &mut self.temperature, &mut self.probe]
        {
            *wander = GaussMarkov::new(Stream::new(0, "silent"), 0.0, 1.0);
        }
    }

    /// Steps to the next second.
    pub fn step(&mut self) {
        self.seconds += 1;
        self.gust.step();
        self.mains.step();
        self.pressure.step();
        self.temperature.step();
        self.gust_fault.step();
        self.mains_fault.step();
        self.probe.step();
        self.front(1);
    }

    /// Lets a front pass on for so many seconds.
    fn front(&mut self, seconds: u64) {
        let passed = self.front_k + self.front_k_h * seconds as f64 / 3600.0;
        self.front_k = passed.clamp(-MOST_FRONT_K, MOST_FRONT_K);
    }

    /// Begins the weather of an unattended run, which is planned by the hour.
    pub fn leave(&mut self, weather: RunWeather) {
        let now = self.surroundings();
        let air = LeavingAir {
            hour: now.week.hours,
            pressure_pa: now.pressure_pa - self.pressure.value(),
            temperature_k: now.temperature_k - self.temperature.value(),
            humidity: now.humidity,
        };
        let (seconds, alone) = (self.seconds, true);
        self.left = Some(Leaving { seconds, air, weather, cut: None, dust: None, alone });
    }

    /// Notes that somebody is at the station again: gusts no longer act on the flow, as before the
    /// run.
    pub const fn come_back(&mut self) {
        if let Some(left) = &mut self.left {
            left.alone = false;
        }
    }

    /// Cuts the power for this many minutes from now, if the station is unattended.
    pub fn cut_power(&mut self, minutes: f64) {
        let hours = self.hours_left();
        if let (Some(left), Some(from_h)) = (&mut self.left, hours) {
            left.cut = Some(PowerCut { from_h, to_h: from_h + minutes / 60.0 });
        }
    }

    /// Raises the dust for this many hours from now, if the station is unattended.
    pub fn raise_dust(&mut self, factor: f64, for_h: f64) {
        let hours = self.hours_left();
        if let (Some(left), Some(from_h)) = (&mut self.left, hours) {
            left.dust = Some(DustEvent { from_h, to_h: from_h + for_h, factor });
        }
    }

    /// Hours since the operator left the site; `None` before that.
    pub fn hours_left(&self) -> Option<f64> {
        self.left.map(|left| (self.seconds - left.seconds) as f64 / 3600.0)
    }

    /// Whether power comes or goes within this many seconds from now.
    pub fn power_changes_within(&self, seconds: u64) -> bool {
        let (Some(left), Some(now)) = (&self.left, self.hours_left()) else { return false };
        let then = now + seconds as f64 / 3600.0;
        left.cut.is_some_and(|cut| {
            [cut.from_h, cut.to_h].iter().any(|edge| (now..=then).contains(edge))
        })
    }

    /// Steps through the next seconds (1 or more) and returns the mean surroundings, which a coarse
    /// step uses: the means of what varies, and the weather of the middle. Day and hour are those of
    /// its end.
    pub fn stepped_mean(&mut self, seconds: u64) -> Surroundings {
        let seconds = seconds.max(1);
        let half = seconds / 2;
        self.seconds += half;
        self.front(half);
        let middle = self.surroundings();
        let [pressure, temperature, probe] =
            [&mut self.pressure, &mut self.temperature, &mut self.probe].map(|wander| {
                let before = wander.value();
                wander.advance(seconds) - before
            });
        let (usual_gust, usual_mains) = (self.gust.advance(seconds), self.mains.advance(seconds));
        let gust_pa = self.gust_fault.advance(seconds, usual_gust);
        let mains = self.mains_fault.advance(seconds, usual_mains);
        self.seconds += seconds - half;
        self.front(seconds - half);
        let has_power = middle.mains_v > 0.0;
        Surroundings {
            pressure_pa: middle.pressure_pa + pressure,
            temperature_k: middle.temperature_k + temperature,
            probe: middle.probe + probe,
            gust_pa,
            inlet_gust_pa: self.inlet_gust_pa(gust_pa),
            mains_v: if has_power { self.mains_with(mains) } else { 0.0 },
            week: self.week(),
            ..middle
        }
    }

    /// The surroundings in the present second.
    pub fn surroundings(&self) -> Surroundings {
        if let Some(left) = &self.left {
            return self.surroundings_after(left);
        }
        let hours = changed_hours(self.seconds as f64 / 3600.0);
        let plan = &self.plan;
        Surroundings {
            pressure_pa: plan.pressure_pa
                + plan.pressure_pa_h * hours
                + self.pressure.value()
                + FRONT_PA_K * self.front_k,
            temperature_k: plan.temperature_k
                + plan.temperature_k_h * hours
                + self.temperature.value()
                + self.front_k,
            humidity: plan.humidity,
            mains_v: self.mains_v(),
            gust_pa: self.gust_fault.over(&self.gust),
            inlet_gust_pa: 0.0,
            week: self.week(),
            dust_kg_m3: 0.0,
            probe: self.probe.value(),
        }
        .within_limits()
    }

    /// The mains voltage in the present second, V.
    fn mains_v(&self) -> f64 {
        self.mains_with(self.mains_fault.over(&self.mains))
    }

    /// The mains voltage with a variation, V.
    const fn mains_with(&self, variation: f64) -> f64 {
        (self.plan.mains_v - self.lowered_v + variation).max(0.0)
    }

    /// By how much a gust presses more on the inlet than on the exhaust, Pa.
    fn inlet_gust_pa(&self, gust_pa: f64) -> f64 {
        if self.left.is_some_and(|left| left.alone) { INLET_GUST_SHARE * gust_pa } else { 0.0 }
    }

    /// The surroundings after the operator has left the site.
    fn surroundings_after(&self, left: &Leaving) -> Surroundings {
        let hours = (self.seconds - left.seconds) as f64 / 3600.0;
        let air = left.weather.air(&left.air, hours);
        let gust_pa = self.gust_fault.over(&self.gust);
        Surroundings {
            pressure_pa: air.pressure_pa + self.pressure.value(),
            temperature_k: air.temperature_k + self.temperature.value(),
            humidity: air.humidity,
            mains_v: if left.has_power(hours) { self.mains_v() } else { 0.0 },
            gust_pa,
            inlet_gust_pa: self.inlet_gust_pa(gust_pa),
            week: self.week(),
            dust_kg_m3: left.dust_kg_m3(hours),
            probe: self.probe.value(),
        }
        .within_limits()
    }

    /// The present day of the week and hour.
    fn week(&self) -> WeekTime {
        let hours = self.began.hours + self.seconds as f64 / 3600.0;
        let days = (hours / 24.0).floor();
        let weekday = (u64::from(self.began.weekday) + days as u64) % 7;
        WeekTime { weekday: weekday as u8, hours: hours - 24.0 * days }
    }

    /// The weather plan.
    pub const fn plan(&self) -> &WeatherPlan {
        &self.plan
    }

    /// Standard deviation of the gusts that a person feels, Pa.
    pub const fn felt_gust_sd_pa(&self) -> f64 {
        self.felt_gust_sd_pa
    }

    /// Replaces the usual gusts by gusts of this standard deviation, Pa.
    pub fn set_gusts(&mut self, seed: u64, sd_pa: f64) {
        let stream = || Stream::new(seed, "station gust fault");
        self.gust_fault.begin(|| GaussMarkov::new(stream(), sd_pa, 4.0));
        self.felt_gust_sd_pa = sd_pa;
    }

    /// Returns to the usual gusts.
    pub const fn calm_gusts(&mut self) {
        self.gust_fault.lasts = false;
        self.felt_gust_sd_pa = self.plan.gust_sd_pa;
    }

    /// Replaces the usual mains variations by variations of this standard deviation, V.
    pub fn set_mains_wander(&mut self, seed: u64, sd_v: f64) {
        let stream = || Stream::new(seed, "station mains fault");
        self.mains_fault.begin(|| GaussMarkov::new(stream(), sd_v, 20.0));
    }

    /// Returns to the usual mains variations.
    pub const fn calm_mains(&mut self) {
        self.mains_fault.lasts = false;
    }

    /// Lowers the mains voltage by this much, V; 0 means as planned.
    pub const fn lower_mains(&mut self, by_v: f64) {
        self.lowered_v = by_v;
    }

    /// Starts a front that changes the temperature at this rate, K/h; 0 ends it.
    pub const fn set_front(&mut self, k_h: f64) {
        self.front_k_h = k_h;
    }

    /// Seconds since thunder was first heard.
    pub fn thunder_since_s(&self) -> Option<f64> {
        let first_s = self.plan.thunder_min? * 60.0;
        let now_s = self.seconds as f64;
        (now_s >= first_s).then_some(now_s - first_s)
    }
}
