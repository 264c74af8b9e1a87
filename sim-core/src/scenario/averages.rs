//! Averages of the season, which a work order asks to build into the calibration line.

use serde::{Deserialize, Serialize};

use crate::calibration::{AirConditions, Basis, Expression, averages_hold};

/// The average pressure of the site and the average temperature of the season, which the order asks to
/// build into the calibration line (40 CFR Part 50 App. B, 9.3.9, READ).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename = "Averages", deny_unknown_fields)]
pub struct SeasonAverages {
    /// Average station pressure Pa, mmHg.
    pub pressure_mmhg: f64,
    /// Average air temperature Ta of the season, degrees Celsius.
    pub temperature_c: f64,
}

impl SeasonAverages {
    /// The averages as conditions of the air; `None` if they make no sense.
    pub fn air(self) -> Option<AirConditions> {
        AirConditions::as_read(self.pressure_mmhg, self.temperature_c).ok()
    }

    /// The expression with these averages built in, if they may be built in on a day with this air;
    /// otherwise the plain one.
    pub fn built_into(self, plain: Expression, on: AirConditions) -> Expression {
        match self.air().filter(|averages| averages_hold(*averages, on)) {
            Some(averages) => Expression { basis: Basis::Averages(averages), ..plain },
            None => plain,
        }
    }
}
