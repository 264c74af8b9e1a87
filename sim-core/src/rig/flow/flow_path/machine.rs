//! What a flow path is made of: the machine that draws the air, and what stands at its inlet.

use crate::rig::flow::blower::BlowerParameters;
use crate::rig::flow::calibrator::CalibratorPassage;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowPathParameters {
    /// Inlet cone, area times discharge coefficient, m2 (CHOSEN).
    pub cone_cda_m2: f64,
    /// Exit orifice, area times discharge coefficient, m2 (CHOSEN). Dirt on it makes it smaller.
    pub exit_cda_m2: f64,
    /// Heat that the casing between fan and exit orifice gives off, W for each K that the air in it
    /// is warmer than outside. Zero is a casing that gives off none, as in the reference tables.
    pub casing_w_k: f64,
}

impl Default for FlowPathParameters {
    fn default() -> Self {
        Self { cone_cda_m2: 1.35e-3, exit_cda_m2: 6.17e-4, casing_w_k: 0.0 }
    }
}

/// What stands at the inlet.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Inlet {
    /// The calibrator, if it is on its throat.
    pub calibrator: Option<CalibratorPassage>,
    /// Resistance of the filter on the holder, if one is fitted, Pa s/m3
    /// ([`crate::rig::flow::filter::Filter::resistance_pa_s_m3`]).
    pub filter_pa_s_m3: Option<f64>,
    /// Leak past the calibrator, or past the filter where there is no calibrator: area times
    /// discharge coefficient, m2.
    pub leak_cda_m2: f64,
    /// Pressure at the inlet over that at the exit, as a gust makes it, Pa. At most a tenth of the fan's
    /// rise without flow is taken, so that a rotor that runs down is not driven by the wind.
    pub gust_pa: f64,
}

/// The machine that draws the air.
#[derive(Debug, Clone, Copy)]
pub struct Machine<'a> {
    /// The blower.
    pub blower: &'a BlowerParameters,
    /// Inlet cone and exit orifice.
    pub path: &'a FlowPathParameters,
}
