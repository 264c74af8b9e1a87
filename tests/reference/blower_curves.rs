//! The blower alone: speed, rise and current at a flow and a voltage, inlet air of 1.20 kg/m3.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::rig::flow::blower::BlowerParameters;

use super::operating_points::MODEL;
use super::{number, table};

/// The speed at which the motor's torque is that of air and friction, by halving.
fn speed_rad_s(blower: &BlowerParameters, volts: f64, flow_m3_s: f64) -> f64 {
    let reference = blower.fan.reference_speed_rad_s;
    let resistance = blower.motor.resistance_ohm(blower.motor.running_k);
    let (mut low, mut high) = (0.0, 4.0 * reference);
    for _ in 0..60 {
        let speed = 0.5 * (low + high);
        let ratio = speed / reference;
        let current = blower.motor.current_a(volts, speed, resistance);
        let load =
            blower.fan.torque_n_m(ratio, 1.20, flow_m3_s) + blower.motor.friction_n_m * ratio;
        if blower.motor.torque_n_m_a2 * current * current > load {
            low = speed;
        } else {
            high = speed;
        }
    }
    low
}

pub fn rows() -> Vec<Row> {
    let blower = BlowerParameters::default();
    let resistance = blower.motor.resistance_ohm(blower.motor.running_k);
    let (mut speed, mut rise, mut current) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("blower_curves.csv") {
        let (volts, flow) = (number(&row, "V"), number(&row, "Q_m3min") / 60.0);
        let turning = speed_rad_s(&blower, volts, flow);
        let ratio = turning / blower.fan.reference_speed_rad_s;
        // The table takes the reference speed as 18 000 rpm, 0.4 rpm less than 1885 rad/s.
        speed.absolute(ratio * 18_000.0, number(&row, "rpm"));
        rise.absolute(blower.fan.rise_pa(ratio, 1.20, flow), number(&row, "static_rise_Pa"));
        current.absolute(blower.motor.current_a(volts, turning, resistance), number(&row, "I_A"));
    }
    vec![
        speed.row("blower curves, speed", MODEL, Mark::Computed, "rpm", 0.6),
        rise.row("blower curves, rise", MODEL, Mark::Computed, "Pa", 0.1),
        current.row("blower curves, current", MODEL, Mark::Computed, "A", 1e-4),
    ]
}

#[test]
fn the_blower_follows_its_curves() {
    assert_rows(&rows());
}
