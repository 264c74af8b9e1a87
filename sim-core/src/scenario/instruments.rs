//! What a scenario may set about the instruments. Whatever it leaves out is drawn from the usual
//! unit-to-unit scatter.
//!
//! The centres of the usual spreads are the bench's own design (CHOSEN); the filter's resistance is
//! that of 40 CFR Part 50 Appendix B, 7.1.5 (READ). The scatter is CHOSEN: about 1 % between
//! units, which moves a calibration line noticeably, but less than a fault does.

use serde::{Deserialize, Serialize};

use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::manometer::electronic::ManometerKind;
use crate::rig::parts::GaugeFluid;
use crate::rig::recorder::RecorderKind;
use crate::scenario::parameters::{Parameter, section};
use crate::scenario::spread::Spread;

/// Every instrument, as far as a scenario sets it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Instruments {
    /// The orifice calibrator.
    pub calibrator: Calibrator,
    /// The blower.
    pub blower: Blower,
    /// The manometer.
    pub manometer: Manometer,
    /// The flow recorder.
    pub recorder: Recorder,
    /// The kind of recorder, which decides the expression of the corrected chart reading.
    pub recorder_kind: RecorderKind,
    /// What the manometer is filled with; water where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub manometer_fluid: Option<GaugeFluid>,
    /// The kind of calibrator, which decides how the flow is set.
    #[serde(skip_serializing_if = "is_usual")]
    pub calibrator_kind: CalibratorKind,
    /// The kind of manometer.
    #[serde(skip_serializing_if = "is_usual")]
    pub manometer_kind: ManometerKind,
    /// The electronic manometer.
    #[serde(skip_serializing_if = "is_usual")]
    pub electronic_manometer: ElectronicManometer,
    /// Inlet cone and exhaust orifice.
    pub flow_path: FlowPath,
    /// The filter.
    pub filter: Filter,
    /// The flow controller.
    pub flow_controller: FlowController,
}

/// Whether a kind is the usual one: then it is not written.
fn is_usual<T: Default + PartialEq>(kind: &T) -> bool {
    *kind == T::default()
}

impl Instruments {
    /// Every parameter with what the scenario gives for it, in a fixed order.
    pub fn written(&self) -> impl Iterator<Item = (&'static Parameter, Option<Spread>)> {
        [
            (Calibrator::PARAMETERS, self.calibrator.written()),
            (Blower::PARAMETERS, self.blower.written()),
            (Manometer::PARAMETERS, self.manometer.written()),
            (Recorder::PARAMETERS, self.recorder.written()),
            (FlowPath::PARAMETERS, self.flow_path.written()),
            (Filter::PARAMETERS, self.filter.written()),
            (FlowController::PARAMETERS, self.flow_controller.written()),
            (ElectronicManometer::PARAMETERS, self.electronic_manometer.written()),
        ]
        .into_iter()
        .flat_map(|(parameters, written)| parameters.iter().zip(written))
    }

    /// Every parameter of every instrument, in a fixed order.
    pub fn parameters() -> impl Iterator<Item = &'static Parameter> {
        Self::default().written().map(|(parameter, _)| parameter).collect::<Vec<_>>().into_iter()
    }
}

section! {
    /// The orifice calibrator.
    Calibrator in "calibrator" {
        orifice_cda_m2 ["m2"] 3.5e-4 to 8.0e-4 usual Spread::Normal(5.417e-4, 5.4e-6),
            "effective area of the measuring orifice, including its discharge coefficient";
        openings_cda_m2 ["m2"] 3.5e-4 to 9.0e-4 usual Spread::Normal(5.2e-4, 5.2e-6),
            "effective area of the openings under the knob when fully open";
    }
}

section! {
    /// The blower.
    Blower in "blower" {
        winding_ohm ["ohm"] 2.0 to 9.0 usual Spread::Normal(3.9, 0.039),
            "resistance of the hot winding, including the brushes";
        reactance_ohm ["ohm"] 4.0 to 12.0 usual Spread::Normal(6.6, 0.066),
            "reactance of the winding at mains frequency";
        flux_v_s_a2 ["V s/A2"] 4.0e-3 to 1.0e-2 usual Spread::Normal(6.9e-3, 6.9e-5),
            "flux constant k of the series motor (torque = k I^2)";
        friction_n_m ["N m"] 0.005 to 0.08 usual Spread::Normal(0.0214, 0.0006),
            "friction torque at 18 000 rpm when warm";
        rise_a_pa ["Pa"] 6000.0 to 20000.0 usual Spread::Normal(13200.0, 132.0),
            "pressure rise A of the fan at 18 000 rpm without flow";
        rise_b_pa_s_m3 ["Pa s/m3"] 0.0 to 90000.0 usual Spread::Normal(30000.0, 300.0),
            "pressure loss B, proportional to the flow";
        rise_c_pa_s2_m6 ["Pa s2/m6"] 2.0e6 to 1.2e7 usual Spread::Normal(5.71e6, 5.7e4),
            "pressure loss C, proportional to the square of the flow";
    }
}

section! {
    /// The manometer.
    Manometer in "manometer" {
        bore_mm ["mm"] 4.0 to 12.0 usual Spread::Normal(6.5, 0.05),
            "bore of the legs";
        column_m ["m"] 0.6 to 2.5 usual Spread::Normal(1.35, 0.01),
            "length of the water column";
        initial_scale_in ["in"] -2.0 to 2.0 usual Spread::Uniform(0.15, 0.45),
            "how far the scale is from zero when the manometer is taken out of its case";
        fluid_relative_density [""] 0.75 to 1.1 usual Spread::Fixed(1.0),
            "density of the fluid relative to water";
    }
}

section! {
    /// The electronic manometer.
    ElectronicManometer in "electronic_manometer" {
        offset_in ["inH2O"] -2.0 to 2.0 usual Spread::Uniform(0.05, 0.25),
            "reading with its port open before it is zeroed";
        span_pct ["%"] -5.0 to 5.0 usual Spread::Normal(0.0, 0.1),
            "error of its span";
        zero_in_per_k ["inH2O/K"] -0.02 to 0.02 usual Spread::Normal(0.0012, 0.0002),
            "change of its zero with the temperature of its sensor";
        warm_k ["K"] -30.0 to 30.0 usual Spread::Uniform(2.0, 6.0),
            "by how much warmer than the air its sensor is when it is taken out of its case";
        range_in ["inH2O"] 8.0 to 40.0 usual Spread::Uniform(10.0, 10.4),
            "its largest reading";
        battery_h ["h"] 0.05 to 60.0 usual Spread::Uniform(8.0, 25.0),
            "running time that its battery has left";
        average_s ["s"] 0.2 to 20.0 usual Spread::Normal(2.0, 0.05),
            "time constant of the average that it shows";
        label_days ["d"] 0.0 to 366.0 usual Spread::Uniform(40.0, 330.0),
            "age of its calibration on the day of the session, as its label says";
    }
}

section! {
    /// The flow recorder.
    Recorder in "recorder" {
        square_root_divisions ["divisions"] 12.0 to 50.0 usual Spread::Normal(36.0, 0.36),
            "chart divisions at an exhaust pressure of one inch of water, on a square-root chart";
        linear_divisions_per_inh2o ["1/inH2O"] 4.0 to 25.0 usual Spread::Normal(10.0, 0.1),
            "chart divisions per inch of water, on a linear chart";
        mass_flow_divisions_per_m3_min ["min/m3"] 10.0 to 60.0 usual Spread::Normal(35.0, 0.35),
            "chart divisions per standard cubic metre per minute, on a mass-flow chart";
        play_inh2o ["inH2O"] 0.0 to 0.6 usual Spread::Normal(0.10, 0.01),
            "half-width of the pen's backlash, at the bellows";
        lag_s ["s"] 0.05 to 5.0 usual Spread::Normal(0.5, 0.02),
            "time constant of bellows and tubing";
    }
}

section! {
    /// Inlet cone and exhaust orifice.
    FlowPath in "flow_path" {
        exit_cda_m2 ["m2"] 3.0e-4 to 1.2e-3 usual Spread::Normal(6.17e-4, 6.2e-6),
            "effective area of the exhaust orifice";
        cone_cda_m2 ["m2"] 8.0e-4 to 2.5e-3 usual Spread::Normal(1.35e-3, 1.4e-5),
            "effective area of the inlet cone";
    }
}

section! {
    /// The filter.
    Filter in "filter" {
        resistance_pa_s_m ["Pa s/m"] 5000.0 to 30000.0 usual Spread::Normal(10400.0, 400.0),
            "resistance of the clean filter at 20 degrees Celsius";
    }
}

section! {
    /// The flow controller.
    FlowController in "flow_controller" {
        set_point_std_m3_min ["m3/min"] 0.8 to 1.8 usual Spread::Normal(1.13, 0.03),
            "flow at standard conditions that it is set to hold when the session begins";
        kp_v_min_m3 ["V min/m3"] 5.0 to 500.0 usual Spread::Normal(100.0, 2.0),
            "proportional gain";
        ti_s ["s"] 0.5 to 60.0 usual Spread::Normal(3.0, 0.05),
            "integral time";
    }
}
