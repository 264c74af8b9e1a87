//! Steady operating points with the calibrator, clean and with a leak, at two stations.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::{AirState, Ambient};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::calibrator::Calibrator;
use sim_core::rig::flow::flow_path::{Inlet, Machine};
use sim_core::rig::flow::operating_point::{OperatingConditions, OperatingPoint, steady};
use sim_core::rig::flow::warmth::Warmth;

use super::{number, table};

pub const MODEL: &str = "computed from the rig's equations with SciPy (reference/model)";

/// The dry air of a station in the tables.
pub fn station(name: &str) -> Ambient {
    let (pressure_pa, temperature_k) = match name {
        "sea_level_20C" => (101_325.0, 293.15),
        "1600m_5C" => (83_527.66, 278.15),
        other => panic!("unknown station {other}"),
    };
    Ambient::from(AirState { pressure_pa, temperature_k, humidity: 0.0 })
}

/// The steady state of a warm rig at 120 V.
pub fn warm_point(rig: &RigParameters, ambient: Ambient, inlet: Inlet) -> OperatingPoint {
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    let warmth = Warmth::warm(&rig.blower.motor);
    steady(machine, &OperatingConditions { ambient, inlet, volts: 120.0, warmth, probe: 0.0 })
}

/// The inlet with the calibrator at an opening.
pub fn calibrated(rig: &RigParameters, opening: f64, leak_cda_m2: f64) -> Inlet {
    let calibrator = Calibrator { opening, ..Calibrator::default() };
    Inlet { calibrator: Some(calibrator.passage(&rig.calibrator)), leak_cda_m2, ..Inlet::default() }
}

pub fn rows() -> Vec<Row> {
    let rig = RigParameters::default();
    let [mut flow, mut pressure, mut speed, mut hot, mut power] = [(); 5].map(|()| Worst::new());
    for row in table("operating_points.csv") {
        let leak = match row["case"].as_str() {
            "clean" => 0.0,
            "leak2e-5" => 2e-5,
            other => panic!("unknown case {other}"),
        };
        let inlet = calibrated(&rig, number(&row, "f"), leak);
        let point = warm_point(&rig, station(&row["site"]), inlet);
        let found = point.flow;
        flow.relative(found.flow_m3_min(), number(&row, "Q_true_m3min"));
        flow.relative(found.flow_std_m3_min(), number(&row, "Qstd_total"));
        flow.relative(found.calibrator_flow_m3_min(), number(&row, "Q_through_calibrator"));
        flow.relative(found.calibrator_flow_std_m3_min(), number(&row, "Qstd_cal"));
        flow.relative(found.mass_flow_kg_s, number(&row, "m_total_kg_s"));
        if leak > 0.0 {
            flow.relative(found.leak_mass_flow_kg_s, number(&row, "m_leak_kg_s"));
        }
        pressure.relative(found.orifice_drop_pa, number(&row, "dpo_Pa"));
        pressure.relative(found.exit_pressure_pa, number(&row, "dpx_Pa"));
        pressure.relative(found.rise_pa, number(&row, "blower_rise_Pa"));
        let ratio = found.speed_rad_s / rig.blower.fan.reference_speed_rad_s;
        speed.relative(ratio, number(&row, "speed_ratio"));
        speed.relative(point.current_a, number(&row, "I_A"));
        hot.absolute(found.exit_temperature_k, number(&row, "T_exit_K"));
        power.relative(point.electrical_w, number(&row, "P_elec_W"));
        let lost_w = rig.flow_path.casing_w_k * found.heating_k(&station(&row["site"]));
        power.relative(lost_w, number(&row, "casing_W"));
    }
    vec![
        flow.row("operating points, flows", MODEL, Mark::Computed, "relative", 0.003),
        pressure.row("operating points, pressures", MODEL, Mark::Computed, "relative", 0.005),
        speed.row("operating points, speed and current", MODEL, Mark::Computed, "relative", 0.003),
        hot.row("operating points, exit temperature", MODEL, Mark::Computed, "K", 0.1),
        power.row("operating points, powers", MODEL, Mark::Computed, "relative", 0.003),
    ]
}

#[test]
fn the_rig_works_where_the_tables_say() {
    assert_rows(&rows());
}
