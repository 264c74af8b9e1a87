//! No energy is lost: what the motor takes is what heats the air, what the casing gives off, and
//! what is stored in the windings and in the rotor.

use sim_core::air::{AIR_CP_J_KG_K, Ambient};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::blower::Blower;
use sim_core::rig::flow::flow_path::{Inlet, Machine, Rotor, solve};
use sim_core::rig::flow::flow_solution::FlowSolution;

use super::operating_points::{calibrated, station, warm_point};

/// Power that leaves with the air and through the casing, W.
fn leaving_w(rig: &RigParameters, ambient: &Ambient, flow: &FlowSolution) -> f64 {
    let per_k = flow.mass_flow_kg_s * AIR_CP_J_KG_K + rig.flow_path.casing_w_k;
    if flow.mass_flow_kg_s > 0.0 { per_k * flow.heating_k(ambient) } else { 0.0 }
}

#[test]
fn at_rest_all_electrical_power_ends_in_the_air_or_the_casing() {
    let rig = RigParameters::default();
    for site in ["sea_level_20C", "1600m_5C"] {
        let ambient = station(site);
        for opening in [1.0, 0.6, 0.3, 0.15] {
            let filtered = Inlet { filter_pa_s_m3: Some(256e3 / opening), ..Inlet::default() };
            for inlet in [calibrated(&rig, opening, 0.0), calibrated(&rig, opening, 2e-5), filtered]
            {
                let point = warm_point(&rig, ambient, inlet);
                let leaving = leaving_w(&rig, &ambient, &point.flow);
                let left = point.electrical_w / leaving - 1.0;
                assert!(left.abs() < 1e-9, "{site}, {opening}: {left:e} of {leaving} W");
            }
        }
    }
}

/// The balance of a cold start, J: taken, left, and stored.
fn cold_start(dt_s: f64, until_s: f64) -> [f64; 3] {
    let rig = RigParameters::default();
    let ambient = station("sea_level_20C");
    let inlet = calibrated(&rig, 1.0, 0.0);
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    let mut blower = Blower::at_rest(ambient.temperature_k);
    let mut flow = FlowSolution::still(&ambient);
    let resistance = rig.blower.motor.resistance_ohm(ambient.temperature_k);
    blower.current_a = rig.blower.motor.current_a(120.0, 0.0, resistance);
    let (mut taken, mut left) = (0.0, 0.0);
    for _ in 0..(until_s / dt_s).round() as u32 {
        let before = [blower.electrical_w(&rig.blower), leaving_w(&rig, &ambient, &flow)];
        blower.step(&rig.blower, dt_s, 120.0, &flow, ambient.temperature_k);
        let rotor = Rotor { speed_rad_s: blower.speed_rad_s, warmth: &blower.warmth };
        flow = solve(machine, &ambient, &inlet, rotor, Some(&flow));
        taken += 0.5 * dt_s * (before[0] + blower.electrical_w(&rig.blower));
        left += 0.5 * dt_s * (before[1] + leaving_w(&rig, &ambient, &flow));
    }
    let turning = 0.5 * rig.blower.inertia_kg_m2 * blower.speed_rad_s * blower.speed_rad_s;
    [taken, left, blower.stored_j(&rig.blower) + turning]
}

#[test]
fn a_warm_up_stores_what_does_not_leave() {
    let [taken, left, stored] = cold_start(0.0125, 1800.0);
    assert!(stored > 0.03 * taken, "{stored} J of {taken} J are stored");
    let lost = (left + stored) / taken - 1.0;
    assert!(lost.abs() < 1e-6, "{lost:e} of {taken} J");
}
