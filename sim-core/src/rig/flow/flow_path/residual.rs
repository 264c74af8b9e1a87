//! The equations of the flow path for one unknown mass flow.

use super::machine::{Inlet, Machine};
use crate::air::{AIR_CP_J_KG_K, Ambient, within};
use crate::rig::flow::dual::Dual;
use crate::rig::flow::flow_solution::FlowSolution;
use crate::rig::flow::orifice::{self, Drop};
use crate::rig::flow::warmth::{AirHeat, Warmth, WindingHeat};

/// A hole smaller than this, CdA in m2, counts as closed.
const CLOSED_M2: f64 = 1e-10;
/// Fraction of the ambient pressure that remains at the fan's inlet in every solution: for less,
/// the rise would have to be 0.6 of the ambient pressure, and even at the highest speed it is 0.4.
const LEAST_PRESSURE_KEPT: f64 = 0.4;
/// Holes and resistances larger than these make no further difference.
const WIDEST_M2: f64 = 1.0;
const TIGHTEST_PA_S_M3: f64 = 1e12;
/// Limit of a gust's pressure, as a fraction of the fan's rise without flow in air of 1.2 kg/m3.
const MOST_GUST: f64 = 0.1;

/// Which mass flow is the unknown. Every pressure is a smooth, rising function of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unknown {
    /// The flow through the calibrator.
    Calibrator,
    /// The flow through a leak that is the only way in, or that bypasses a filter.
    Leak,
    /// The total flow, all of which enters through the filter, or unobstructed.
    Total,
    /// None: there is no way in.
    Nothing,
}

/// One flow path at one rotor speed, with everything that does not depend on the flow
/// precalculated.
pub(super) struct Path<'a> {
    machine: Machine<'a>,
    ambient: &'a Ambient,
    pub(super) unknown: Unknown,
    speed_ratio: f64,
    heat: AirHeat,
    specific_j_kg: f64,
    orifice: f64,
    openings: f64,
    leak: f64,
    filter_pa_s_m3: f64,
    leak_beside_filter: bool,
    cone: f64,
    exit_resistance_per_k: f64,
    gust: f64,
}

/// Everything that follows from one value of the unknown.
pub(super) struct PathState {
    /// Rise of the fan minus all pressure drops, Pa: zero at the solution. `None` if the drops are
    /// far beyond the rise of any fan.
    pub(super) excess_pa: Option<Dual>,
    /// The ratios of the pressure drops, from which the next search starts.
    ratios: Ratios,
    entered: Entered,
    inlet_suction: Dual,
    inlet_density: Dual,
    rise: Dual,
    exit_pressure: Dual,
    exit_temperature: Dual,
    torque: Dual,
}

impl PathState {
    /// The ratios to expect where the unknown is larger by `more`.
    pub(super) fn ratios_at(&self, more: f64) -> NearRatios {
        let at = |ratio: Dual| ratio.value + ratio.slope * more;
        let Ratios { first, openings, cone, exhaust } = self.ratios;
        NearRatios {
            first: at(first),
            openings: at(openings),
            cone: at(cone),
            exhaust: at(exhaust),
        }
    }
}

/// Pressure drops over the pressures in front of them.
struct Ratios {
    /// Measuring orifice, or a leak that is the only way in.
    first: Dual,
    openings: Dual,
    cone: Dual,
    exhaust: Dual,
}

/// Ratios near a solution; zero where none is known.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct NearRatios {
    first: f64,
    openings: f64,
    cone: f64,
    exhaust: f64,
}

/// The state of the air as it reaches the inlet cone.
struct Entered {
    total: Dual,
    calibrator: Dual,
    leak: Dual,
    orifice_drop: Dual,
    plenum_suction: Dual,
    filter_drop: Dual,
    suction: Dual,
    first: Dual,
    openings: Dual,
}

impl<'a> Path<'a> {
    pub(super) fn new(
        machine: Machine<'a>,
        ambient: &'a Ambient,
        inlet: &Inlet,
        speed_ratio: f64,
        warmth: &Warmth,
    ) -> Self {
        let root = orifice::conductance(1.0, ambient.temperature_k, ambient.gas_constant_j_kg_k);
        let area = |cda: f64| within(cda, 0.0, WIDEST_M2);
        let leak = area(inlet.leak_cda_m2);
        let filter_pa_s_m3 = within(inlet.filter_pa_s_m3.unwrap_or(0.0), 0.0, TIGHTEST_PA_S_M3);
        let passage = inlet.calibrator.map(|c| (area(c.orifice_cda_m2), area(c.openings_cda_m2)));
        let leaks = leak > CLOSED_M2;
        let (orifice, openings) = passage.unwrap_or((0.0, 0.0));
        let unknown = match passage {
            Some(_) if orifice > CLOSED_M2 && openings > CLOSED_M2 => Unknown::Calibrator,
            Some(_) if leaks => Unknown::Leak,
            Some(_) => Unknown::Nothing,
            None if leaks && filter_pa_s_m3 > 0.0 => Unknown::Leak,
            None => Unknown::Total,
        };
        let exit = machine.path.exit_cda_m2.max(CLOSED_M2);
        let most = MOST_GUST * machine.blower.fan.rise_pa(speed_ratio, 1.2, 0.0);
        Self {
            gust: within(inlet.gust_pa, -most, most),
            machine,
            ambient,
            unknown,
            speed_ratio,
            heat: air_heat(machine, speed_ratio, warmth),
            specific_j_kg: ambient.gas_constant_j_kg_k * ambient.temperature_k,
            orifice: orifice * root,
            openings: openings * root,
            leak: if leaks { leak * root } else { 0.0 },
            filter_pa_s_m3,
            leak_beside_filter: passage.is_none(),
            cone: machine.path.cone_cda_m2.max(CLOSED_M2) * root,
            exit_resistance_per_k: 0.5 * ambient.gas_constant_j_kg_k / (exit * exit),
        }
    }

    /// The unknown's value in a solution.
    pub(super) fn unknown_of(&self, solution: &FlowSolution) -> f64 {
        match self.unknown {
            Unknown::Calibrator => solution.calibrator_mass_flow_kg_s,
            Unknown::Leak => solution.leak_mass_flow_kg_s,
            Unknown::Total => solution.mass_flow_kg_s,
            Unknown::Nothing => 0.0,
        }
    }

    /// A starting value if no earlier solution is known: the flow that a tenth of an atmosphere
    /// drives through the narrowest restriction, at most the usual flow.
    pub(super) fn first_guess(&self) -> f64 {
        let narrowest = match self.unknown {
            Unknown::Calibrator => self.orifice.min(self.openings),
            Unknown::Leak => self.leak,
            Unknown::Total | Unknown::Nothing => self.cone,
        };
        self.speed_ratio * (0.3 * narrowest * self.ambient.pressure_pa).min(0.03)
    }

    /// The ratios of a solution near the present one, at `faster` times its speed: drops grow as the
    /// square of the speed.
    pub(super) fn ratios_of(&self, near: &FlowSolution, faster: f64) -> NearRatios {
        let square = faster * faster;
        let ambient = self.ambient.pressure_pa;
        let plenum = ambient - near.plenum_suction_pa;
        let openings = near.plenum_suction_pa - near.orifice_drop_pa;
        let first = match self.unknown {
            Unknown::Calibrator => near.orifice_drop_pa,
            _ => near.plenum_suction_pa,
        };
        let cone = near.inlet_suction_pa - near.plenum_suction_pa - near.filter_drop_pa;
        NearRatios {
            first: square * first / ambient,
            openings: square * openings / (ambient - near.orifice_drop_pa),
            cone: square * cone / (plenum - near.filter_drop_pa),
            exhaust: square * near.exit_pressure_pa / (ambient + near.exit_pressure_pa),
        }
    }

    /// Everything at one value of the unknown. `near` only shortens the search.
    pub(super) fn at(&self, unknown: Dual, near: &NearRatios) -> PathState {
        let ambient_pa = Dual::constant(self.ambient.pressure_pa);
        let entered = match (self.unknown, self.leak_beside_filter) {
            (Unknown::Leak, true) => self.enter_beside_filter(unknown, near),
            _ => self.enter(unknown, near),
        };
        let total = entered.total;
        let cone = orifice::drop(self.cone, ambient_pa - entered.suction, total, near.cone);
        // The gust raises the pressure in front of the whole path; the density of the air stays.
        let suction = entered.suction + cone.pa - Dual::constant(self.gust);
        // Limited, so that values far outside stay finite.
        let kept = 1.0 - suction.value / self.ambient.pressure_pa;
        let beyond = kept < LEAST_PRESSURE_KEPT || kept.is_nan();
        let suction = if beyond {
            Dual::constant((1.0 - LEAST_PRESSURE_KEPT) * self.ambient.pressure_pa)
        } else {
            suction
        };
        let density = (ambient_pa - suction) * (1.0 / self.specific_j_kg);
        let flow = total / density;
        let fan = &self.machine.blower.fan;
        let rise = fan.rise(self.speed_ratio, density, flow);
        let torque = fan.torque(self.speed_ratio, density, flow);
        let power = self.heat.power_w(torque, total);
        let temperature = Dual::constant(self.ambient.temperature_k)
            + heating_k(power, total, self.machine.path.casing_w_k);
        let exit_resistance = temperature * self.exit_resistance_per_k;
        let exhaust =
            orifice::drop_to(exit_resistance, self.ambient.pressure_pa, total, near.exhaust);
        let exit_pressure = exhaust.pa;
        let beyond = beyond || exit_pressure.value > self.ambient.pressure_pa;
        PathState {
            excess_pa: if beyond { None } else { Some(rise - suction - exit_pressure) },
            ratios: Ratios {
                first: entered.first,
                openings: entered.openings,
                cone: cone.ratio,
                exhaust: exhaust.ratio,
            },
            entered,
            inlet_suction: suction,
            inlet_density: density,
            rise,
            exit_pressure,
            exit_temperature: temperature,
            torque,
        }
    }

    /// Air enters through the calibrator, or what is in its place, into the plenum and then passes
    /// the filter.
    fn enter(&self, unknown: Dual, near: &NearRatios) -> Entered {
        let ambient_pa = Dual::constant(self.ambient.pressure_pa);
        let nothing = Dual::constant(0.0);
        let (mut first, mut openings) = (Drop::NONE, Drop::NONE);
        let (calibrator, leak, orifice_drop, suction) = match self.unknown {
            Unknown::Calibrator => {
                first = orifice::drop(self.orifice, ambient_pa, unknown, near.first);
                let behind = ambient_pa - first.pa;
                openings = orifice::drop(self.openings, behind, unknown, near.openings);
                let suction = first.pa + openings.pa;
                let leak = if self.leak > 0.0 {
                    orifice::flow(self.leak, self.ambient.pressure_pa, suction)
                } else {
                    nothing
                };
                (unknown, leak, first.pa, suction)
            }
            Unknown::Leak => {
                first = orifice::drop(self.leak, ambient_pa, unknown, near.first);
                (nothing, unknown, nothing, first.pa)
            }
            Unknown::Total | Unknown::Nothing => (nothing, nothing, nothing, nothing),
        };
        let total = if self.unknown == Unknown::Total { unknown } else { calibrator + leak };
        let upstream = ambient_pa - suction;
        let filter_drop = total * (self.filter_pa_s_m3 * self.specific_j_kg) / upstream;
        Entered {
            total,
            calibrator,
            leak,
            orifice_drop,
            plenum_suction: suction,
            filter_drop,
            suction: suction + filter_drop,
            first: first.ratio,
            openings: openings.ratio,
        }
    }

    /// Air enters beside the filter: the leak sets the suction, which draws air through the filter.
    fn enter_beside_filter(&self, leak: Dual, near: &NearRatios) -> Entered {
        let ambient_pa = Dual::constant(self.ambient.pressure_pa);
        let nothing = Dual::constant(0.0);
        let first = orifice::drop(self.leak, ambient_pa, leak, near.first);
        let suction = first.pa;
        let density = self.ambient.pressure_pa / self.specific_j_kg;
        let through = suction * (density / self.filter_pa_s_m3);
        Entered {
            total: leak + through,
            calibrator: nothing,
            leak,
            orifice_drop: nothing,
            plenum_suction: nothing,
            filter_drop: suction,
            suction,
            first: first.ratio,
            openings: nothing,
        }
    }

    /// The finished solution, at an unknown that is larger by `more` than that of the state: so small
    /// a change that everything follows it in proportion.
    pub(super) fn solution(&self, state: &PathState, more: f64) -> FlowSolution {
        let at = |quantity: Dual| quantity.value + quantity.slope * more;
        FlowSolution {
            speed_rad_s: self.speed_ratio * self.machine.blower.fan.reference_speed_rad_s,
            mass_flow_kg_s: at(state.entered.total),
            calibrator_mass_flow_kg_s: at(state.entered.calibrator),
            leak_mass_flow_kg_s: at(state.entered.leak),
            orifice_drop_pa: at(state.entered.orifice_drop),
            plenum_suction_pa: at(state.entered.plenum_suction),
            filter_drop_pa: at(state.entered.filter_drop),
            inlet_suction_pa: at(state.inlet_suction),
            inlet_density_kg_m3: at(state.inlet_density),
            rise_pa: at(state.rise),
            exit_pressure_pa: at(state.exit_pressure),
            exit_temperature_k: at(state.exit_temperature),
            torque_n_m: at(state.torque),
            ambient_density_kg_m3: self.ambient.density_kg_m3(),
            standard_density_kg_m3: self.ambient.standard_density_kg_m3(),
        }
    }
}

/// How the blower heats the air at a speed.
fn air_heat(machine: Machine<'_>, speed_ratio: f64, warmth: &Warmth) -> AirHeat {
    let motor = &machine.blower.motor;
    let speed_rad_s = speed_ratio * machine.blower.fan.reference_speed_rad_s;
    match warmth.heat {
        WindingHeat::AtRest => AirHeat::AtRest {
            power_per_torque: speed_rad_s
                + motor.resistance_ohm(warmth.winding_k) / motor.torque_n_m_a2,
            friction_n_m: motor.friction_n_m_per_ratio(warmth.bearing_cold) * speed_ratio,
        },
        WindingHeat::Given(heat_w) => AirHeat::Lagging {
            speed_rad_s,
            heat_w,
            cooling_flow_kg_s: machine.blower.cooling_flow_kg_s,
        },
    }
}

/// Largest heating of the air, K (CHOSEN: above it the casing carries the heat away).
pub(super) const MOST_HEATING_K: f64 = 100.0;

/// Heating of the air, K: P = (m cp + h A) dT, with P the power that ends in the air, m cp the
/// heat capacity of the flow and h A the heat loss of the casing; the air behind the fan is well
/// mixed.
fn heating_k(power_w: Dual, mass_flow: Dual, casing_w_k: f64) -> Dual {
    let casing = Dual::constant(within(casing_w_k, 0.0, 1000.0));
    let heating = power_w / (mass_flow * AIR_CP_J_KG_K + casing);
    if heating.value < MOST_HEATING_K { heating } else { Dual::constant(MOST_HEATING_K) }
}
