//! The values of a file of readings. Each checks its own range, so that a wrong one is refused with
//! its line. The ranges are wide (CHOSEN): they catch a wrong unit or a misplaced decimal point, not bad
//! work.

use serde::Deserialize;

macro_rules! ranged {
    ($($(#[$doc:meta])* $name:ident: $what:literal, $low:literal to $high:literal $unit:literal;)+) => {
        $(
            $(#[$doc])*
            #[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
            #[serde(try_from = "f64")]
            pub struct $name(f64);

            impl $name {
                /// The number.
                pub const fn get(self) -> f64 {
                    self.0
                }
            }

            impl TryFrom<f64> for $name {
                type Error = String;

                fn try_from(value: f64) -> Result<Self, String> {
                    if ($low..=$high).contains(&value) {
                        Ok(Self(value))
                    } else {
                        Err(outside($what, value, $low, $high, $unit))
                    }
                }
            }
        )+
    };
}

ranged! {
    /// Station pressure, mmHg.
    PressureMmhg: "the pressure", 400.0 to 850.0 " mmHg";
    /// Air temperature, degrees Celsius.
    TemperatureC: "the temperature", -60.0 to 60.0 " C";
    /// Air temperature, K.
    TemperatureK: "the temperature", 213.15 to 333.15 " K";
    /// One leg of the manometer, inches from zero.
    LegInh2o: "the leg", -5.0 to 40.0 " inches of water";
    /// The sum of both legs of the manometer, inches of water.
    DeltaHInh2o: "the differential pressure", 0.01 to 80.0 " inches of water";
    /// Chart reading, divisions.
    Chart: "the chart reading", 0.0 to 10000.0 " divisions";
    /// Volume measured by a standard meter, m3.
    VolumeM3: "the volume", 0.001 to 1000.0 " m3";
    /// Time, minutes.
    Minutes: "the time", 0.01 to 100000.0 " min";
    /// Pressure drop across a standard meter, mmHg.
    DropMmhg: "the pressure drop", 0.0 to 300.0 " mmHg";
    /// Slope of a line.
    Slope: "the slope", 0.001 to 1000.0 "";
    /// Intercept of a line.
    Intercept: "the intercept", -1000.0 to 1000.0 "";
    /// Target flow, std m3/min.
    TargetFlow: "the target flow", 0.01 to 10.0 " std m3/min";
    /// Mass of a filter, g.
    MassG: "the mass", 0.01 to 1000.0 " g";
}

/// What is wrong with a value outside its range.
fn outside(what: &str, value: f64, low: f64, high: f64, unit: &str) -> String {
    // A very large or very small number in full would fill the screen.
    let shown = if value != 0.0 && !(1e-6..1e9).contains(&value.abs()) {
        format!("{value:e}")
    } else {
        value.to_string()
    };
    format!(
        "{what} is {shown}{unit}, but it must be from {low} to {high}: check the value and its unit"
    )
}
