//! The concentration of particulate matter from the masses of the filter.

use super::error::{finite, positive};
use super::{RunVolume, SumError};

/// Micrograms in a gram.
const UG_PER_G: f64 = 1e6;

/// Masses of a filter, g.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilterMasses {
    /// Before the run, W1, g.
    pub before_g: f64,
    /// After the run, W2, g.
    pub after_g: f64,
}

/// Concentration of total suspended particulate matter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Concentration {
    /// In micrograms per standard cubic metre.
    pub ug_std_m3: f64,
    /// In micrograms per cubic metre at the conditions of the run.
    pub ug_actual_m3: f64,
}

/// The concentration: `TSP = (W2 - W1) 10^6 / V`, masses in g, V in std m3; the actual one is
/// `TSP P3/760 298/T3` (40 CFR Part 50 App. B, 10, MEMORY).
///
/// # Errors
///
/// When a mass or a volume is not above zero, or the filter has lost mass.
pub fn concentration(masses: FilterMasses, run: &RunVolume) -> Result<Concentration, SumError> {
    let before = positive("the mass before the run", masses.before_g)?;
    let after = positive("the mass after the run", masses.after_g)?;
    if after < before {
        return Err(SumError::MassLost { lost_g: before - after });
    }
    let volume_std = positive("the volume", run.volume_std_m3)?;
    let volume_actual = positive("the actual volume", run.volume_actual_m3)?;
    let gained_ug = (after - before) * UG_PER_G;
    Ok(Concentration {
        ug_std_m3: finite("the concentration", gained_ug / volume_std)?,
        ug_actual_m3: finite("the actual concentration", gained_ug / volume_actual)?,
    })
}
