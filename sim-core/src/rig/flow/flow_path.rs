//! The flow path from the inlet to the exhaust orifice: the flow at a given rotor speed.
//!
//! Ambient air passes the measuring orifice and the openings of the calibrator into the plenum,
//! where a leak may join it; then the filter, if one is fitted, the inlet cone, the fan, and the
//! exhaust orifice. Without the calibrator, a leak is one at the filter holder, past the filter.
//! Each restriction follows [`crate::rig::flow::orifice`], the filter [`crate::rig::flow::filter`], the fan
//! [`crate::rig::flow::fan`]; the flow is the one at which the rise of the fan equals the sum of all pressure
//! drops.

mod residual;

use super::blower::BlowerParameters;
use super::calibrator::CalibratorPassage;
use super::dual::Dual;
use crate::air::{AIR_CP_J_KG_K, Ambient, within};
use residual::{Path, Unknown};

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowPathParameters {
    /// Inlet cone, area times discharge coefficient, m2 (CHOSEN).
    pub cone_cda_m2: f64,
    /// Exhaust orifice, area times discharge coefficient, m2 (CHOSEN). Dirt on it makes it smaller.
    pub exit_cda_m2: f64,
    /// Heat loss of the casing between fan and exhaust orifice, W for each K by which the air in it
    /// is warmer than outside. Zero is a casing without heat loss, as in the reference tables.
    pub casing_w_k: f64,
}

impl Default for FlowPathParameters {
    fn default() -> Self {
        Self { cone_cda_m2: 1.35e-3, exit_cda_m2: 6.17e-4, casing_w_k: 0.0 }
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

/// Largest rotor speed for which a flow is sought, divided by the reference speed.
const FASTEST_RATIO: f64 = 2.5;
/// Smallest such speed: below it the rotor counts as stopped.
const SLOWEST_RATIO: f64 = 1e-9;
/// Relative change of the unknown at which the search ends.
const TOLERANCE: f64 = 1e-13;
/// The greatest number of steps of the search; three is usual.
const MOST_STEPS: u32 = 80;

/// The flow at one rotor speed, and the pressures that belong to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowSolution {
    /// Rotor speed, rad/s.
    pub speed_rad_s: f64,
    /// Total mass flow, kg/s.
    pub mass_flow_kg_s: f64,
    /// Mass flow through the calibrator, kg/s; zero without it.
    pub calibrator_mass_flow_kg_s: f64,
    /// Mass flow through the leak, kg/s.
    pub leak_mass_flow_kg_s: f64,
    /// Pressure drop across the measuring orifice, Pa.
    pub orifice_drop_pa: f64,
    /// Suction under the calibrator, Pa below ambient.
    pub plenum_suction_pa: f64,
    /// Pressure drop across the filter, Pa.
    pub filter_drop_pa: f64,
    /// Suction at the fan's inlet, Pa below ambient.
    pub inlet_suction_pa: f64,
    /// Density at the fan's inlet, kg/m3.
    pub inlet_density_kg_m3: f64,
    /// Pressure rise of the fan, Pa.
    pub rise_pa: f64,
    /// Pressure in front of the exhaust orifice, Pa above ambient: the recorder senses it.
    pub exit_pressure_pa: f64,
    /// Temperature of the air in front of the exhaust orifice, K.
    pub exit_temperature_k: f64,
    /// Torque of the air on the shaft, N m.
    pub torque_n_m: f64,
    /// Density of the ambient air, kg/m3.
    pub ambient_density_kg_m3: f64,
    /// Density of the same moist air at standard conditions, kg/m3.
    pub standard_density_kg_m3: f64,
}

impl FlowSolution {
    /// Total flow at ambient conditions, m3/min.
    pub fn flow_m3_min(&self) -> f64 {
        60.0 * self.mass_flow_kg_s / self.ambient_density_kg_m3
    }

    /// Total flow at 298.15 K and 101 325 Pa, m3/min.
    pub fn flow_std_m3_min(&self) -> f64 {
        60.0 * self.mass_flow_kg_s / self.standard_density_kg_m3
    }

    /// Flow through the calibrator at ambient conditions, m3/min.
    pub fn calibrator_flow_m3_min(&self) -> f64 {
        60.0 * self.calibrator_mass_flow_kg_s / self.ambient_density_kg_m3
    }

    /// Flow through the calibrator at 298.15 K and 101 325 Pa, m3/min.
    pub fn calibrator_flow_std_m3_min(&self) -> f64 {
        60.0 * self.calibrator_mass_flow_kg_s / self.standard_density_kg_m3
    }

    /// No flow, and the rotor stopped.
    pub fn still(ambient: &Ambient) -> Self {
        Self {
            speed_rad_s: 0.0,
            mass_flow_kg_s: 0.0,
            calibrator_mass_flow_kg_s: 0.0,
            leak_mass_flow_kg_s: 0.0,
            orifice_drop_pa: 0.0,
            plenum_suction_pa: 0.0,
            filter_drop_pa: 0.0,
            inlet_suction_pa: 0.0,
            inlet_density_kg_m3: ambient.density_kg_m3(),
            rise_pa: 0.0,
            exit_pressure_pa: 0.0,
            exit_temperature_k: ambient.temperature_k,
            torque_n_m: 0.0,
            ambient_density_kg_m3: ambient.density_kg_m3(),
            standard_density_kg_m3: ambient.standard_density_kg_m3(),
        }
    }
}

/// Finds the flow at a rotor speed.
///
/// `speed_rad_s` is limited to between 0 and 2.5 times the reference speed. `near` is any earlier
/// solution: it only shortens the search. The result depends on it by less than 1e-12 of the flow,
/// and the same arguments give the same bits. Choked flow is left out: no blower reaches it.
pub fn solve(
    machine: Machine<'_>,
    ambient: &Ambient,
    inlet: &Inlet,
    speed_rad_s: f64,
    near: Option<&FlowSolution>,
) -> FlowSolution {
    let reference = machine.blower.fan.reference_speed_rad_s;
    let ratio = within(speed_rad_s / reference, 0.0, FASTEST_RATIO);
    if ratio < SLOWEST_RATIO {
        return FlowSolution::still(ambient);
    }
    let path = Path::new(machine, ambient, inlet, ratio);
    if path.unknown == Unknown::Nothing {
        return sealed(machine, ambient, ratio);
    }
    let start = near
        .filter(|near| near.speed_rad_s > 0.0)
        .map(|near| path.unknown_of(near) * (ratio * reference / near.speed_rad_s))
        .filter(|&flow| flow > 0.0 && flow < 1.0);
    let mut flow = start.unwrap_or_else(|| path.first_guess());
    let (mut low, mut high) = (0.0, f64::INFINITY);
    let mut state = path.at(Dual::unknown(flow));
    for _ in 0..MOST_STEPS {
        let newton = match state.excess_pa {
            Some(excess) if excess.value > 0.0 => {
                low = flow;
                flow - excess.value / excess.slope
            }
            Some(excess) => {
                high = flow;
                flow - excess.value / excess.slope
            }
            None => {
                high = flow;
                f64::NAN
            }
        };
        // The state at `flow` is kept: one more evaluation would not change it.
        if (newton - flow).abs() <= TOLERANCE * flow {
            break;
        }
        let next = if newton > low && newton < high && newton < 8.0 * flow {
            newton
        } else if high.is_finite() {
            0.5 * (low + high)
        } else {
            4.0 * flow
        };
        flow = next;
        state = path.at(Dual::unknown(flow));
    }
    path.solution(&state)
}

/// No air can enter: the fan turns in the rarefied air that it holds.
///
/// pin = pa / (1 + A s^2 / (1.20 Rg T)), from rise = pa - pin and the fan's law without flow.
fn sealed(machine: Machine<'_>, ambient: &Ambient, ratio: f64) -> FlowSolution {
    let still = FlowSolution::still(ambient);
    let specific = ambient.gas_constant_j_kg_k * ambient.temperature_k;
    let lift = machine.blower.fan.rise_pa(ratio, 1.0, 0.0) / specific;
    let suction = ambient.pressure_pa * lift / (1.0 + lift);
    let density = (ambient.pressure_pa - suction) / specific;
    FlowSolution {
        speed_rad_s: ratio * machine.blower.fan.reference_speed_rad_s,
        plenum_suction_pa: suction,
        inlet_suction_pa: suction,
        inlet_density_kg_m3: density,
        rise_pa: suction,
        exit_temperature_k: ambient.temperature_k + MOST_HEATING_K,
        torque_n_m: machine.blower.fan.torque_n_m(ratio, density, 0.0),
        ..still
    }
}

/// Largest heating of the air by the fan, K (CHOSEN: above it the casing carries the heat away).
const MOST_HEATING_K: f64 = 100.0;

/// Heating of the air, K: P = (m cp + h A) dT, with P the shaft power taken by the air, m cp the
/// heat capacity of the flow and h A the heat loss of the casing; the air behind the fan is well
/// mixed.
fn heating_k(power_w: Dual, mass_flow: Dual, casing_w_k: f64) -> Dual {
    let casing = Dual::constant(within(casing_w_k, 0.0, 1000.0));
    let heating = power_w / (mass_flow * AIR_CP_J_KG_K + casing);
    if heating.value < MOST_HEATING_K { heating } else { Dual::constant(MOST_HEATING_K) }
}
