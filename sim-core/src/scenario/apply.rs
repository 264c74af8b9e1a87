//! Puts the numbers drawn for a bench into the parameters of its instruments.

use crate::rig::RigParameters;
use crate::scenario::Scenario;
use crate::scenario::drawn::Drawn;

/// The parameters of the rig that a scenario and its drawn numbers describe.
pub(super) fn rig_parameters(scenario: &Scenario, drawn: &Drawn) -> RigParameters {
    let mut rig = RigParameters {
        calibrator_serial: scenario.work_order.calibrator_serial.clone(),
        elevation_m: scenario.station.elevation_m,
        ..RigParameters::default()
    };
    rig.recorder.kind = scenario.instruments.recorder_kind;
    if let Some(fluid) = scenario.instruments.manometer_fluid {
        rig.manometer.initial_fluid = fluid;
    }
    rig.manometer_kind = scenario.instruments.manometer_kind;
    rig.calibrator.kind = scenario.instruments.calibrator_kind;
    for (name, value) in drawn.iter() {
        set(&mut rig, name, value);
    }
    rig
}

/// Sets one parameter. Names of the weather and the certificates belong elsewhere and change nothing
/// here.
fn set(rig: &mut RigParameters, name: &str, value: f64) {
    let place = match name {
        "calibrator.orifice_cda_m2" => &mut rig.calibrator.orifice_cda_m2,
        "calibrator.openings_cda_m2" => &mut rig.calibrator.openings_cda_m2,
        "blower.reactance_ohm" => &mut rig.blower.motor.reactance_ohm,
        "blower.flux_v_s_a2" => &mut rig.blower.motor.torque_n_m_a2,
        "blower.friction_n_m" => &mut rig.blower.motor.friction_n_m,
        "blower.rise_a_pa" => &mut rig.blower.fan.rise_pa,
        "blower.rise_b_pa_s_m3" => &mut rig.blower.fan.rise_loss_pa_s_m3,
        "blower.rise_c_pa_s2_m6" => &mut rig.blower.fan.rise_loss_pa_s2_m6,
        "manometer.column_m" => &mut rig.manometer.column_length_m,
        "manometer.initial_scale_in" => &mut rig.manometer.initial_scale_in,
        "manometer.fluid_relative_density" => &mut rig.manometer.relative_density,
        "electronic_manometer.offset_in" => &mut rig.electronic.offset_in,
        "electronic_manometer.span_pct" => &mut rig.electronic.span_pct,
        "electronic_manometer.zero_in_per_k" => &mut rig.electronic.zero_in_per_k,
        "electronic_manometer.warm_k" => &mut rig.electronic.warm_k,
        "electronic_manometer.range_in" => &mut rig.electronic.range_in,
        "electronic_manometer.battery_h" => &mut rig.electronic.battery_h,
        "electronic_manometer.average_s" => &mut rig.electronic.average_s,
        "electronic_manometer.label_days" => &mut rig.electronic.label_days,
        "recorder.square_root_divisions" => &mut rig.recorder.square_root_divisions,
        "recorder.linear_divisions_per_inh2o" => &mut rig.recorder.linear_divisions_per_inh2o,
        "recorder.mass_flow_divisions_per_m3_min" => {
            &mut rig.recorder.mass_flow_divisions_per_m3_min
        }
        "recorder.play_inh2o" => &mut rig.recorder.backlash_inh2o,
        "recorder.lag_s" => &mut rig.recorder.lag_s,
        "flow_path.exit_cda_m2" => &mut rig.flow_path.exit_cda_m2,
        "flow_path.cone_cda_m2" => &mut rig.flow_path.cone_cda_m2,
        "filter.resistance_pa_s_m" => &mut rig.filter.clean_pa_s_m,
        "flow_controller.set_point_std_m3_min" => &mut rig.found_set_point_std_m3_min,
        "flow_controller.kp_v_min_m3" => &mut rig.flow_controller.gain_v_min_m3,
        "flow_controller.ti_s" => &mut rig.flow_controller.integral_s,
        "run.casing_w_k" => &mut rig.flow_path.casing_w_k,
        "weather.sun_k" => &mut rig.sun_k,
        "blower.winding_ohm" => {
            // The value is for the hot winding with its brushes; the share of the brushes is fixed.
            let motor = &mut rig.blower.motor;
            motor.winding_ohm = value - motor.brush_ohm;
            return;
        }
        "manometer.bore_mm" => {
            rig.manometer.left_bore_mm = value;
            rig.manometer.right_bore_mm = value;
            return;
        }
        _ => return,
    };
    *place = value;
}
