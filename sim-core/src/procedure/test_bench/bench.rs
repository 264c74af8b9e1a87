//! The bench of the tests, and its state when the trainee arrives.

use super::{ACTUAL, PLATE, PRESSURE, STANDARD, TEMPERATURE};
use crate::rig::RigParameters;
use crate::rig::parts::{BlowerPlug, GaugeFluid, PartPlace};
use crate::scenario::setup::{
    Certificate, CertificateHeading, LastLine, SessionTerms, Setup, StationCard, WeatherPlan,
    WorkOrder,
};
use crate::session::ground_truth::GroundTruth;
use crate::time::{Date, TimeOfDay};

/// A good certificate of the calibrator.
pub fn certificate() -> Certificate {
    Certificate {
        heading: CertificateHeading::Original,
        serial: PLATE.to_owned(),
        date: Date::new(2026, 3, 17).unwrap(),
        standard: STANDARD,
        actual: ACTUAL,
        correlation: 0.99998,
        actual_first: false,
    }
}

/// The bench of the tests.
pub fn setup() -> Setup {
    Setup {
        station: StationCard {
            name: "Millrace Yard".to_owned(),
            elevation_m: 150.0,
            date: Date::new(2026, 11, 2).unwrap(),
            start: TimeOfDay::new(8, 30, 0).unwrap(),
            sampler_serial: "HV-31".to_owned(),
        },
        work_order: WorkOrder {
            number: "W-118".to_owned(),
            text: "Calibrate the sampler.".to_owned(),
            calibrator_serial: PLATE.to_owned(),
            target_flow_std_m3_min: 1.13,
            target_flow_actual_m3_min: None,
            run_pressure_mmhg: 742.0,
            run_temperature_c: 17.0,
            points: 7,
            filter_in_place: false,
            averages: None,
            last_line: Some(LastLine {
                date: Date::new(2026, 8, 3).unwrap(),
                slope: 32.1,
                intercept: 1.6,
            }),
            flow_check: None,
            history: None,
            run: None,
            calibrator: Default::default(),
            manometer: Default::default(),
        },
        certificates: vec![certificate()],
        laboratory_bias_pct: 0.0,
        weather: WeatherPlan {
            pressure_pa: 99_592.0,
            pressure_pa_h: 0.0,
            temperature_k: 294.15,
            temperature_k_h: 0.0,
            humidity: 0.5,
            gust_sd_pa: 0.0,
            mains_v: 120.0,
            mains_sd_v: 0.0,
            sun_k: 0.0,
            thunder_min: None,
        },
        run: None,
        rig: RigParameters { calibrator_serial: PLATE.to_owned(), ..RigParameters::default() },
        faults: Vec::new(),
        terms: SessionTerms::default(),
    }
}

/// The state when the trainee arrives: the sampler plugged in and stopped, with a filter in place.
pub fn on_arrival() -> GroundTruth {
    GroundTruth {
        powered: false,
        speed_ratio: 0.0,
        sampler_cord_in: true,
        blower_plug: BlowerPlug::Controller,
        line_on: false,
        running_s: 0.0,
        winding_c: TEMPERATURE,
        longest_blocked_s: 0.0,
        lid_open: false,
        nut_turns: [8; 4],
        washer_above: [true; 4],
        places: [
            PartPlace::Holder,
            PartPlace::Holder,
            PartPlace::Case,
            PartPlace::Case,
            PartPlace::Case,
        ],
        holder_gasket: true,
        calibrator_gasket: true,
        leak_mm2: 0.0,
        opening: 1.0,
        blocked: false,
        steady_s: 0.0,
        flow_std_m3_min: 0.0,
        calibrator_flow_std_m3_min: 0.0,
        tube_on_tap: false,
        valve_quarters: [0, 0],
        tilt_deg: 0.0,
        zero_in: [0.0, 0.0],
        menisci_in: [0.0, 0.0],
        undisturbed_menisci_in: [0.0, 0.0],
        water_speed_in_s: 0.0,
        orifice_inh2o: 0.0,
        display: None,
        blown_through: false,
        fluid: GaugeFluid::Water,
        below_mark_mm: 0.0,
        ice: 0.0,
        tube_water_in: 0.0,
        capped: true,
        on_paper: false,
        pen: 0.0,
        pen_at_rest: 0.0,
        undisturbed_pen: 0.0,
        taps: 0,
        pressure_mmhg: PRESSURE,
        temperature_c: TEMPERATURE,
        barometer_mmhg: PRESSURE,
        thermometer_c: TEMPERATURE,
        barometer_at_station: true,
        thermometer_shaded: true,
        thunder_since_s: None,
        eye_mm: 0.0,
        faults: Vec::new(),
        run: None,
    }
}
