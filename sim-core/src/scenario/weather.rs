//! Weather and mains, as a scenario gives them.

use serde::{Deserialize, Serialize};

use crate::scenario::parameters::Parameter;
use crate::scenario::setup::WeatherPlan;
use crate::scenario::spread::Spread;
use crate::units::{Pressure, Temperature};

/// Weather and mains over the session. Pressure, temperature and humidity must be given.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weather {
    /// Station pressure at the start, mmHg, not reduced to sea level.
    pub pressure_mmhg: Spread,
    /// Air temperature at the start, degrees Celsius.
    pub temperature_c: Spread,
    /// Relative humidity, percent.
    pub humidity_pct: Spread,
    /// Change of the pressure, mmHg per hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_mmhg_h: Option<Spread>,
    /// Change of the temperature, K per hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature_k_h: Option<Spread>,
    /// Standard deviation of the wind pressure on the open leg, Pa.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gust_sd_pa: Option<Spread>,
    /// Mean mains voltage, V.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mains_v: Option<Spread>,
    /// Standard deviation of the mains voltage, V.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mains_sd_v: Option<Spread>,
    /// How much higher a thermometer in the sun reads, K; zero under clouds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sun_k: Option<Spread>,
    /// Minutes from the start until thunder is first heard; if left out, there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thunder_min: Option<Spread>,
}

/// The name of the parameter that says when thunder is heard. It is drawn only when given.
pub const THUNDER: &str = "weather.thunder_min";

impl Weather {
    /// The parameters, in the order of the fields. All usual spreads are CHOSEN.
    pub const PARAMETERS: &'static [Parameter] = &[
        Parameter {
            name: "weather.pressure_mmhg",
            unit: "mmHg",
            low: 400.0,
            high: 820.0,
            usual: Spread::Fixed(760.0),
            what: "station pressure at the start, not reduced to sea level",
        },
        Parameter {
            name: "weather.temperature_c",
            unit: "degrees Celsius",
            low: -30.0,
            high: 50.0,
            usual: Spread::Fixed(20.0),
            what: "air temperature at the start",
        },
        Parameter {
            name: "weather.humidity_pct",
            unit: "%",
            low: 0.0,
            high: 100.0,
            usual: Spread::Fixed(50.0),
            what: "relative humidity",
        },
        Parameter {
            name: "weather.pressure_mmhg_h",
            unit: "mmHg/h",
            low: -5.0,
            high: 5.0,
            usual: Spread::Normal(0.0, 0.2),
            what: "change of the pressure per hour",
        },
        Parameter {
            name: "weather.temperature_k_h",
            unit: "K/h",
            low: -8.0,
            high: 8.0,
            usual: Spread::Normal(0.5, 0.3),
            what: "change of the temperature per hour",
        },
        Parameter {
            name: "weather.gust_sd_pa",
            unit: "Pa",
            low: 0.0,
            high: 60.0,
            usual: Spread::Uniform(0.5, 1.5),
            what: "standard deviation of the wind pressure on the open leg",
        },
        Parameter {
            name: "weather.mains_v",
            unit: "V",
            low: 90.0,
            high: 140.0,
            usual: Spread::Normal(120.0, 0.8),
            what: "mean mains voltage",
        },
        Parameter {
            name: "weather.mains_sd_v",
            unit: "V",
            low: 0.0,
            high: 8.0,
            usual: Spread::Uniform(0.1, 0.3),
            what: "standard deviation of the mains voltage",
        },
        Parameter {
            name: "weather.sun_k",
            unit: "K",
            low: 0.0,
            high: 20.0,
            usual: Spread::Uniform(3.0, 7.0),
            what: "how much higher a thermometer left in the sun reads; 0 under clouds",
        },
        Parameter {
            name: THUNDER,
            unit: "min",
            low: 0.0,
            high: 600.0,
            usual: Spread::Fixed(600.0),
            what: "when thunder is first heard; if left out, there is none",
        },
    ];

    /// Every parameter with what the scenario gives for it, in the order of the fields.
    pub fn written(&self) -> impl Iterator<Item = (&'static Parameter, Option<Spread>)> {
        Self::PARAMETERS.iter().zip([
            Some(self.pressure_mmhg),
            Some(self.temperature_c),
            Some(self.humidity_pct),
            self.pressure_mmhg_h,
            self.temperature_k_h,
            self.gust_sd_pa,
            self.mains_v,
            self.mains_sd_v,
            self.sun_k,
            self.thunder_min,
        ])
    }
}

/// The weather in the core's own units, from values found by name.
///
/// # Errors
///
/// What `value` returns for a name that it does not know.
pub(crate) fn plan<E>(
    value: impl Fn(&str) -> Result<f64, E>,
    thunder_min: Option<f64>,
) -> Result<WeatherPlan, E> {
    Ok(WeatherPlan {
        pressure_pa: Pressure::from_mmhg(value("weather.pressure_mmhg")?).pa(),
        pressure_pa_h: Pressure::from_mmhg(value("weather.pressure_mmhg_h")?).pa(),
        temperature_k: Temperature::from_c(value("weather.temperature_c")?).k(),
        temperature_k_h: value("weather.temperature_k_h")?,
        humidity: value("weather.humidity_pct")? / 100.0,
        gust_sd_pa: value("weather.gust_sd_pa")?,
        mains_v: value("weather.mains_v")?,
        mains_sd_v: value("weather.mains_sd_v")?,
        sun_k: value("weather.sun_k")?,
        thunder_min,
    })
}
