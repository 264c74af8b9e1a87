//! Weather and mains at the station: what the instruments stand in, second by second.

use crate::digest::{Digest, Digestible};
use crate::noise::{Stream, Wander};
use crate::rig::run_weather::{DustEvent, Left, PowerCut, RunWeather};
use crate::rig::timer::WeekTime;
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
    /// Mean line voltage, V.
    pub mains_v: f64,
    /// Standard deviation of the line voltage, V.
    pub mains_sd_v: f64,
    /// Excess of a thermometer in the sun, K; zero under clouds.
    pub sun_k: f64,
    /// Minutes after the start at which thunder is first heard, if it is.
    pub thunder_min: Option<f64>,
}

/// The surroundings at one second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Station pressure, Pa.
    pub pressure_pa: f64,
    /// Air temperature, K.
    pub temperature_k: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Line voltage, V.
    pub mains_v: f64,
    /// Pressure of a gust on the open leg, Pa.
    pub gust_pa: f64,
    /// Day of the week and hour.
    pub week: WeekTime,
    /// Dust in the air, kg/m3; none while somebody is there, which changes no flow.
    pub dust_kg_m3: f64,
}

/// Slow wandering of each quantity round the weather plan, one named stream each.
///
/// Correlation times are CHOSEN: gusts 4 s, mains 20 s, pressure 600 s, temperature 300 s.
#[derive(Debug, Clone)]
pub struct Station {
    plan: WeatherPlan,
    /// Day of the week, 0 to 6, and hour at which the session began.
    began: WeekTime,
    /// Seconds stepped so far.
    seconds: u64,
    gust: Wander,
    mains: Wander,
    pressure: Wander,
    temperature: Wander,
    left: Option<Leaving>,
}

/// The weather from the moment at which the site was left.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Leaving {
    /// Seconds of the station at that moment.
    seconds: u64,
    air: Left,
    weather: RunWeather,
    cut: Option<PowerCut>,
    dust: Option<DustEvent>,
}

impl Leaving {
    /// Whether there is power so many hours after.
    fn has_power(&self, hours: f64) -> bool {
        !self.cut.is_some_and(|cut| (cut.from_h..cut.to_h).contains(&hours))
    }

    /// Dust so many hours after, kg/m3.
    fn dust_kg_m3(&self, hours: f64) -> f64 {
        let event = self.dust.filter(|event| (event.from_h..event.to_h).contains(&hours));
        self.weather.dust_kg_m3 * event.map_or(1.0, |event| event.factor)
    }
}

/// Standard deviation of the short-term wandering of pressure, Pa (CHOSEN).
const PRESSURE_SD_PA: f64 = 8.0;

/// Standard deviation of the short-term wandering of temperature, K (CHOSEN).
const TEMPERATURE_SD_K: f64 = 0.1;

impl Station {
    /// The station under a weather plan on a day, from a time of day on, with the session's seed.
    pub fn new(plan: WeatherPlan, date: Date, start: TimeOfDay, seed: u64) -> Self {
        let wander = |name, sd, tau_s| Wander::new(Stream::new(seed, name), sd, tau_s);
        let weekday = date.weekday();
        Self {
            plan,
            began: WeekTime { weekday, hours: start.hours() },
            seconds: 0,
            gust: wander("station gust", plan.gust_sd_pa, 4.0),
            mains: wander("station mains", plan.mains_sd_v, 20.0),
            pressure: wander("station pressure", PRESSURE_SD_PA, 600.0),
            temperature: wander("station temperature", TEMPERATURE_SD_K, 300.0),
            left: None,
        }
    }

    /// Steps to the next second.
    pub fn step(&mut self) {
        self.seconds += 1;
        self.gust.step();
        self.mains.step();
        self.pressure.step();
        self.temperature.step();
    }

    /// Leaves the weather to itself: from now on it goes by the hour.
    pub fn leave(&mut self, weather: RunWeather) {
        let now = self.surroundings();
        let air = Left {
            hour: now.week.hours,
            pressure_pa: now.pressure_pa - self.pressure.value(),
            temperature_k: now.temperature_k - self.temperature.value(),
            humidity: now.humidity,
        };
        self.left = Some(Leaving { seconds: self.seconds, air, weather, cut: None, dust: None });
    }

    /// Cuts the power for some minutes from now on; only where nobody is there.
    pub fn cut_power(&mut self, minutes: f64) {
        let hours = self.hours_left();
        if let (Some(left), Some(from_h)) = (&mut self.left, hours) {
            left.cut = Some(PowerCut { from_h, to_h: from_h + minutes / 60.0 });
        }
    }

    /// Raises the dust for some hours from now on; only where nobody is there.
    pub fn raise_dust(&mut self, factor: f64, for_h: f64) {
        let hours = self.hours_left();
        if let (Some(left), Some(from_h)) = (&mut self.left, hours) {
            left.dust = Some(DustEvent { from_h, to_h: from_h + for_h, factor });
        }
    }

    /// Hours since the site was left, if it was.
    pub fn hours_left(&self) -> Option<f64> {
        self.left.map(|left| (self.seconds - left.seconds) as f64 / 3600.0)
    }

    /// Whether power comes or goes within so many seconds from now.
    pub fn power_changes_within(&self, seconds: u64) -> bool {
        let (Some(left), Some(now)) = (&self.left, self.hours_left()) else { return false };
        let then = now + seconds as f64 / 3600.0;
        left.cut.is_some_and(|cut| {
            [cut.from_h, cut.to_h].iter().any(|edge| (now..=then).contains(edge))
        })
    }

    /// The mean of the surroundings over the next seconds (1 or more), stepping through them: what a
    /// coarse step stands in. Day and hour are those of its end.
    pub fn stepped_mean(&mut self, seconds: u64) -> Surroundings {
        let share = 1.0 / seconds.max(1) as f64;
        let first = self.surroundings();
        let mut mean = Surroundings {
            pressure_pa: 0.0,
            temperature_k: 0.0,
            mains_v: 0.0,
            gust_pa: 0.0,
            dust_kg_m3: 0.0,
            ..first
        };
        for _ in 0..seconds.max(1) {
            self.step();
            let now = self.surroundings();
            mean.pressure_pa += share * now.pressure_pa;
            mean.temperature_k += share * now.temperature_k;
            mean.mains_v += share * now.mains_v;
            mean.gust_pa += share * now.gust_pa;
            mean.dust_kg_m3 += share * now.dust_kg_m3;
            mean.week = now.week;
        }
        mean
    }

    /// The surroundings in the present second.
    pub fn surroundings(&self) -> Surroundings {
        if let Some(left) = &self.left {
            return self.surroundings_after(left);
        }
        let hours = self.seconds as f64 / 3600.0;
        let plan = &self.plan;
        Surroundings {
            pressure_pa: plan.pressure_pa + plan.pressure_pa_h * hours + self.pressure.value(),
            temperature_k: plan.temperature_k
                + plan.temperature_k_h * hours
                + self.temperature.value(),
            humidity: plan.humidity,
            mains_v: (plan.mains_v + self.mains.value()).max(0.0),
            gust_pa: self.gust.value(),
            week: self.week(),
            dust_kg_m3: 0.0,
        }
    }

    /// The surroundings after the site was left.
    fn surroundings_after(&self, left: &Leaving) -> Surroundings {
        let hours = (self.seconds - left.seconds) as f64 / 3600.0;
        let air = left.weather.air(&left.air, hours);
        let mains_v = (self.plan.mains_v + self.mains.value()).max(0.0);
        Surroundings {
            pressure_pa: air.pressure_pa + self.pressure.value(),
            temperature_k: air.temperature_k + self.temperature.value(),
            humidity: air.humidity,
            mains_v: if left.has_power(hours) { mains_v } else { 0.0 },
            gust_pa: self.gust.value(),
            week: self.week(),
            dust_kg_m3: left.dust_kg_m3(hours),
        }
    }

    /// Day of the week and hour now.
    fn week(&self) -> WeekTime {
        let hours = self.began.hours + self.seconds as f64 / 3600.0;
        let days = (hours / 24.0).floor();
        let weekday = (u64::from(self.began.weekday) + days as u64) % 7;
        WeekTime { weekday: weekday as u8, hours: hours - 24.0 * days }
    }

    /// The plan behind it.
    pub const fn plan(&self) -> &WeatherPlan {
        &self.plan
    }

    /// Replaces the wandering of one quantity when a fault begins: gusts, Pa.
    pub fn set_gusts(&mut self, seed: u64, sd_pa: f64) {
        self.gust = Wander::new(Stream::new(seed, "station gust fault"), sd_pa, 4.0);
        // The plan is what the skin feels of the wind.
        self.plan.gust_sd_pa = sd_pa;
    }

    /// Replaces the wandering of the mains when a fault begins, V.
    pub fn set_mains_wander(&mut self, seed: u64, sd_v: f64) {
        self.mains = Wander::new(Stream::new(seed, "station mains fault"), sd_v, 20.0);
    }

    /// Lowers the line voltage, V.
    pub fn lower_mains(&mut self, by_v: f64) {
        self.plan.mains_v -= by_v;
    }

    /// Seconds since thunder was first heard.
    pub fn thunder_since_s(&self) -> Option<f64> {
        let first_s = self.plan.thunder_min? * 60.0;
        let now_s = self.seconds as f64;
        (now_s >= first_s).then_some(now_s - first_s)
    }
}

impl Digestible for Station {
    fn digest(&self, digest: &mut Digest) {
        digest.whole(self.seconds);
        digest.number(self.plan.mains_v);
        digest.number(self.plan.gust_sd_pa);
        self.gust.digest(digest);
        self.mains.digest(digest);
        self.pressure.digest(digest);
        self.temperature.digest(digest);
        if let Some(left) = &self.left {
            digest.whole(left.seconds);
            for value in [left.air.hour, left.air.pressure_pa, left.air.temperature_k] {
                digest.number(value);
            }
            if let Some(cut) = left.cut {
                digest.number(cut.from_h);
                digest.number(cut.to_h);
            }
            if let Some(dust) = left.dust {
                digest.number(dust.from_h);
                digest.number(dust.to_h);
                digest.number(dust.factor);
            }
        }
    }
}
