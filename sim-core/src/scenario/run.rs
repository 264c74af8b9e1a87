//! The unattended run, as a scenario gives it: the ordered hours, the filters in their envelopes, the
//! weather.

use serde::{Deserialize, Serialize};

use crate::rig::station::run_weather::RunWeather;
use crate::scenario::parameters::{Parameter, section};
use crate::scenario::spread::Spread;
use crate::time::{TICKS_PER_SECOND, Tick, TimeOfDay};
use crate::units::Pressure;

/// The run as written. Without it a session ends with the calibration.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunEntry {
    /// When the sampler is to switch on.
    pub on: ScheduledTime,
    /// When it is to switch off.
    pub off: ScheduledTime,
    /// When the trainee returns.
    pub back: ScheduledTime,
    /// The run after it, for which the sampler is set up once the sample has been recovered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next: Option<NextRunOrder>,
    /// The fresh filters, in the order of their use.
    pub filters: Vec<FilterEntry>,
    /// Clean filters to be laid on the first, to test the flow controller.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub added_filters: Option<AddedFiltersOrder>,
    /// Weather, dust and the sampler's casing.
    #[serde(default)]
    pub weather: RunSpreads,
}

/// The hours of a run that is only set up: the session ends before it begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "NextRun", deny_unknown_fields)]
pub struct NextRunOrder {
    /// When the sampler is to switch on.
    pub on: ScheduledTime,
    /// When it is to switch off.
    pub off: ScheduledTime,
}

/// The test of the flow controller with added filters that is ordered.
///
/// Once the controller is trimmed, one or two more clean filters are laid on the first, one after
/// another, and the flow must not change (40 CFR Part 50 App. B, 9.3.11, READ; how many it asks for is
/// MEMORY). The sections leave open what change is none, so that the order says it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename = "AddedFilters", deny_unknown_fields)]
pub struct AddedFiltersOrder {
    /// How many filters are laid on the first, 1 or 2.
    pub sheets: u8,
    /// By how much the flow by the pen may change for the controller to hold it, percent of the flow
    /// with one filter.
    pub within_pct: f64,
}

/// A day and time of the run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "Moment", deny_unknown_fields)]
pub struct ScheduledTime {
    /// Days after the day of the session, 0 to 6.
    pub day: u8,
    /// Time of that day.
    pub at: TimeOfDay,
}

impl ScheduledTime {
    /// The tick of this moment in a session that begins at `start`; none if the moment is before it.
    pub fn tick(&self, start: TimeOfDay) -> Option<Tick> {
        let seconds = |time: TimeOfDay| {
            let (hour, minute, second) = time.parts();
            u64::from(hour) * 3600 + u64::from(minute) * 60 + u64::from(second)
        };
        let at = u64::from(self.day) * 86_400 + seconds(self.at);
        Some(Tick(at.checked_sub(seconds(start))?.saturating_mul(TICKS_PER_SECOND)))
    }
}

/// A fresh filter in its envelope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FilterEntry {
    /// Its number, printed on its edge.
    pub number: String,
    /// Its mass as the laboratory weighed it, g.
    pub mass_g: f64,
}

// The usual value for the casing is CHOSEN from its size: 0.28 m2 of sheet metal around the motor;
// outside, 15 W/(m2 K) by a wind of 3 m/s across a cylinder of 0.2 m (Hilpert, MEMORY) and 5 by
// radiation; inside, 40; together 13 W/(m2 K), less what lid and stand shield from the wind.
section! {
    /// Weather, dust and casing of a run.
    RunSpreads in "run" {
        swing_k ["K"] 0.0 to 15.0 usual Spread::Normal(4.0, 0.8),
            "half of the difference between the warmest and the coldest hour of the day";
        front_after_h ["h"] 0.0 to 96.0 usual Spread::Uniform(14.0, 40.0),
            "time from leaving the site until a front passes";
        front_mmhg ["mmHg"] -20.0 to 20.0 usual Spread::Normal(3.0, 1.0),
            "how much lower the pressure is behind the front";
        front_k ["K"] -10.0 to 10.0 usual Spread::Normal(1.5, 0.5),
            "how much colder the air is behind the front";
        dust_ug_m3 ["ug/m3"] 0.0 to 2000.0 usual Spread::Normal(40.0, 6.0),
            "concentration of dust in the air";
        casing_w_k ["W/K"] 0.0 to 20.0 usual Spread::Normal(3.0, 0.4),
            "heat that the sampler's casing gives off per K of temperature difference between the air behind the blower and the air outside";
    }
}

impl RunEntry {
    /// Every parameter with what the scenario gives for it.
    pub fn written(&self) -> impl Iterator<Item = (&'static Parameter, Option<Spread>)> {
        RunSpreads::PARAMETERS.iter().zip(self.weather.written())
    }

    /// The order of the run.
    pub(super) fn order(&self) -> RunOrder {
        RunOrder {
            on: self.on,
            off: self.off,
            back: self.back,
            next: self.next,
            filters: self.filters.clone(),
            added_filters: self.added_filters,
        }
    }
}

/// What the work order says about the run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunOrder {
    /// When the sampler is to switch on.
    pub on: ScheduledTime,
    /// When it is to switch off.
    pub off: ScheduledTime,
    /// When the trainee returns.
    pub back: ScheduledTime,
    /// The run after it, if the sampler is to be set up for one.
    pub next: Option<NextRunOrder>,
    /// The fresh filters, in the order of their use.
    pub filters: Vec<FilterEntry>,
    /// Clean filters to be laid on the first, to test the flow controller.
    pub added_filters: Option<AddedFiltersOrder>,
}

/// The weather of the run in the core's own units, from values found by name.
///
/// # Errors
///
/// What `value` returns for a name that it does not know.
pub(super) fn weather<E>(value: impl Fn(&str) -> Result<f64, E>) -> Result<RunWeather, E> {
    Ok(RunWeather {
        swing_k: value("run.swing_k")?,
        front_after_h: value("run.front_after_h")?,
        front_pa: Pressure::from_mmhg(value("run.front_mmhg")?).pa(),
        front_k: value("run.front_k")?,
        dust_kg_m3: value("run.dust_ug_m3")? * 1e-9,
    })
}
