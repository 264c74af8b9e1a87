//! The flow path from the inlet to the exhaust orifice: the flow at a given rotor speed.
//!
//! Ambient air passes the measuring orifice and the openings of the calibrator into the plenum,
//! where a leak may join it; then the filter, if one is fitted, the inlet cone, the fan, and the
//! exhaust orifice. Without the calibrator, a leak is one at the filter holder, past the filter.
//! Each restriction follows [`crate::rig::flow::orifice`], the filter [`crate::rig::flow::filter`],
//! the fan [`crate::rig::flow::fan`]; the flow is the one at which the rise of the fan equals the
//! sum of all pressure drops.

mod machine;
mod residual;

use super::dual::Dual;
use super::flow_solution::FlowSolution;
use super::warmth::Warmth;
use crate::air::{Ambient, within};

pub use machine::{FlowPathParameters, Inlet, Machine};

use residual::{MOST_HEATING_K, NearRatios, Path, Unknown};

/// Largest rotor speed for which a flow is sought, divided by the reference speed.
const FASTEST_RATIO: f64 = 2.5;
/// Smallest such speed: below it the rotor counts as stopped.
const SLOWEST_RATIO: f64 = 1e-9;
/// Relative change of the unknown within which everything follows it in proportion: what is left
/// out is the square of it.
const PROPORTIONAL: f64 = 1e-6;
/// The greatest number of steps of the search; one or two are usual.
const MOST_STEPS: u32 = 80;

/// The rotor: how fast it turns, and how warm the machine is in which it turns.
#[derive(Debug, Clone, Copy)]
pub struct Rotor<'a> {
    /// Its speed, rad/s.
    pub speed_rad_s: f64,
    /// The warmth, of which the air takes its share.
    pub warmth: &'a Warmth,
}

/// Finds the flow at a rotor speed.
///
/// The speed is limited to between 0 and 2.5 times the reference speed. `near` is any earlier
/// solution: it only shortens the search. The result depends on it by less than 1e-11 of the flow,
/// and the same arguments give the same bits. Choked flow is left out: no blower reaches it.
pub fn solve(
    machine: Machine<'_>,
    ambient: &Ambient,
    inlet: &Inlet,
    rotor: Rotor<'_>,
    near: Option<&FlowSolution>,
) -> FlowSolution {
    let reference = machine.blower.fan.reference_speed_rad_s;
    let ratio = within(rotor.speed_rad_s / reference, 0.0, FASTEST_RATIO);
    if ratio < SLOWEST_RATIO {
        return FlowSolution::still(ambient);
    }
    let path = Path::new(machine, ambient, inlet, ratio, rotor.warmth);
    if path.unknown == Unknown::Nothing {
        return sealed(machine, ambient, ratio);
    }
    let start = near
        .filter(|near| near.speed_rad_s > 0.0)
        .map(|near| (near, ratio * reference / near.speed_rad_s))
        .map(|(near, faster)| (path.unknown_of(near) * faster, path.ratios_of(near, faster)))
        .filter(|&(flow, _)| flow > 0.0 && flow < 1.0);
    let (mut flow, ratios) = start.unwrap_or_else(|| (path.first_guess(), NearRatios::default()));
    let (mut low, mut high) = (0.0, f64::INFINITY);
    let mut state = path.at(Dual::unknown(flow), &ratios);
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
        // One more evaluation would give what the slopes give.
        if (newton - flow).abs() <= PROPORTIONAL * flow {
            return path.solution(&state, newton - flow);
        }
        let next = if newton > low && newton < high && newton < 8.0 * flow {
            newton
        } else if high.is_finite() {
            0.5 * (low + high)
        } else {
            4.0 * flow
        };
        state = path.at(Dual::unknown(next), &state.ratios_at(next - flow));
        flow = next;
    }
    path.solution(&state, 0.0)
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
