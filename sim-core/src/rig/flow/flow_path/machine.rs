//! The parts of a flow path: the machine that draws the air, and what is fitted at its inlet.

use crate::digest::digest_fields;
use crate::rig::flow::blower::BlowerParameters;
use crate::rig::flow::calibrator::CalibratorPassage;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowPathParameters {
    /// Inlet cone, area times discharge coefficient, m2 (CHOSEN).
    pub cone_cda_m2: f64,
    /// Exhaust orifice, area times discharge coefficient, m2 (CHOSEN). Dirt on it makes it smaller.
    pub exit_cda_m2: f64,
    /// Heat loss of the casing between fan and exhaust orifice, W for each K by which the air in it
    /// is warmer than outside (CHOSEN from its size: 0.28 m2 of sheet metal around the motor).
    pub casing_w_k: f64,
}

digest_fields!(FlowPathParameters { cone_cda_m2, exit_cda_m2, casing_w_k });

impl Default for FlowPathParameters {
    fn default() -> Self {
        Self { cone_cda_m2: 1.35e-3, exit_cda_m2: 6.17e-4, casing_w_k: 3.0 }
    }
}

/// What is fitted at the inlet.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Inlet {
    /// The calibrator, if it is mounted.
    pub calibrator: Option<CalibratorPassage>,
    /// Resistance of the filter on the holder, if one is fitted, Pa s/m3
    /// ([`crate::rig::flow::filter::Filter::resistance_pa_s_m3`]).
    pub filter_pa_s_m3: Option<f64>,
    /// Leak past the calibrator, or past the filter if there is no calibrator: area times discharge
    /// coefficient, m2.
    pub leak_cda_m2: f64,
    /// By how much a gust raises the pressure at the inlet above that at the exhaust, Pa. It is
    /// limited to a tenth of the fan's rise without flow, so that the wind cannot drive a rotor
    /// that runs down.
    pub gust_pa: f64,
}

/// The machine that draws the air.
#[derive(Debug, Clone, Copy)]
pub struct Machine<'a> {
    /// The blower.
    pub blower: &'a BlowerParameters,
    /// Inlet cone and exhaust orifice.
    pub path: &'a FlowPathParameters,
}
