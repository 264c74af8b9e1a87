//! The flow at one rotor speed.

use crate::air::Ambient;
use crate::digest::digest_fields;

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

digest_fields!(FlowSolution {
    speed_rad_s,
    mass_flow_kg_s,
    calibrator_mass_flow_kg_s,
    leak_mass_flow_kg_s,
    orifice_drop_pa,
    plenum_suction_pa,
    filter_drop_pa,
    inlet_suction_pa,
    inlet_density_kg_m3,
    rise_pa,
    exit_pressure_pa,
    exit_temperature_k,
    torque_n_m,
    ambient_density_kg_m3,
    standard_density_kg_m3
});

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

    /// By how much the air in front of the exhaust orifice is warmer than the ambient air, K.
    pub fn heating_k(&self, ambient: &Ambient) -> f64 {
        self.exit_temperature_k - ambient.temperature_k
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
