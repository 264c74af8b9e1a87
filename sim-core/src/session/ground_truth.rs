//! What was true at one moment, for the rules and the marks. No front end sees it before the
//! session has ended.

use crate::fault::Fault;
use crate::rig::flow::filter::FilterSheet;
use crate::rig::manometer::electronic::Shown;
use crate::rig::parts::{BlowerPlug, GaugeFluid, PartPlace, TimerSwitch};
use crate::session::action::Action;
use crate::time::Tick;

/// One action and what was true when it was done.
#[derive(Debug, Clone, PartialEq)]
pub struct EventRecord {
    /// When.
    pub tick: Tick,
    /// What was done.
    pub action: Action,
    /// What was true just before its effect.
    pub before: GroundTruth,
    /// What was true just after its effect, in the same tick.
    pub after: GroundTruth,
}

/// What was true at one moment: plain values, so that a rule needs only a few lines.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundTruth {
    // --- power
    /// Whether the blower has power.
    pub powered: bool,
    /// Rotor speed over 18 000 rpm.
    pub speed_ratio: f64,
    /// Whether the sampler's cord is in the mains outlet.
    pub sampler_cord_in: bool,
    /// Where the blower's plug is.
    pub blower_plug: BlowerPlug,
    /// Whether the switched mains outlet is on.
    pub line_on: bool,
    /// Seconds the blower has run since it last started, 0 when off.
    pub running_s: f64,
    /// Winding temperature, degrees Celsius.
    pub winding_c: f64,
    /// Longest time so far with the openings covered and the blower on, s.
    pub longest_blocked_s: f64,

    // --- mounting
    /// Whether the lid is open.
    pub lid_open: bool,
    /// Quarter turns of each nut.
    pub nut_turns: [u8; 4],
    /// Whether each washer is above the plate.
    pub washer_above: [bool; 4],
    /// Where each part is, in the order of [`crate::rig::parts::RigPart::ALL`].
    pub places: [PartPlace; 5],
    /// Whether the gasket on the holder is in place.
    pub holder_gasket: bool,
    /// Whether the gasket under the calibrator is in place.
    pub calibrator_gasket: bool,
    /// Effective leak area past the calibrator, mm2.
    pub leak_mm2: f64,

    // --- calibrator and flow
    /// Opening of the knob, 0 to 1; of a plate, its holes as a share of those of the widest.
    pub opening: f64,
    /// Whether the openings are covered.
    pub blocked: bool,
    /// Seconds since the flow last changed, by hand or because power came or went.
    pub steady_s: f64,
    /// True total flow at the sampler's inlet, standard conditions, m3/min.
    pub flow_std_m3_min: f64,
    /// True flow through the calibrator, standard conditions, m3/min.
    pub calibrator_flow_std_m3_min: f64,

    // --- manometer
    /// Whether the tube is on the pressure tap.
    pub tube_on_tap: bool,
    /// Valve openings, quarter turns: left, right.
    pub valve_quarters: [u8; 2],
    /// Tilt from plumb, degrees.
    pub tilt_deg: f64,
    /// Where zero pressure would read, left and right leg, inches (both zero when zeroed).
    pub zero_in: [f64; 2],
    /// Where the menisci really are on the scale, left and right, inches, with the eye level.
    pub menisci_in: [f64; 2],
    /// Where they would rest at this flow in a fault-free, zeroed manometer: +dH/2 and -dH/2, over
    /// the fluid's relative density.
    pub undisturbed_menisci_in: [f64; 2],
    /// Speed of the water, inches per second.
    pub water_speed_in_s: f64,
    /// True pressure across the calibrator's orifice, inches of water.
    pub orifice_inh2o: f64,
    /// The display, if the manometer is an electronic one. Half of its reading then stands in each of
    /// `menisci_in`, and half of its zero in each of `zero_in`, so that sums over both legs hold for it
    /// too.
    pub display: Option<DisplayTruth>,
    /// Whether blowing into the tube was seen to move the water since the manometer was hung.
    pub blown_through: bool,
    /// What the manometer is filled with, by its label.
    pub fluid: GaugeFluid,
    /// How far its level is below the fill mark, mm.
    pub below_mark_mm: f64,
    /// Share of its water that is ice, 0 to 1.
    pub ice: f64,
    /// Height of the fluid that lies in the tube, inches.
    pub tube_water_in: f64,

    // --- recorder
    /// Whether the pen is capped.
    pub capped: bool,
    /// Whether it is on the paper.
    pub on_paper: bool,
    /// Where the pen is, chart divisions.
    pub pen: f64,
    /// Where it would rest without friction, chart divisions.
    pub pen_at_rest: f64,
    /// Where it would rest at this flow without any fault, chart divisions.
    pub undisturbed_pen: f64,
    /// Taps since the flow was last changed.
    pub taps: u32,

    // --- conditions
    /// True station pressure, mmHg.
    pub pressure_mmhg: f64,
    /// True air temperature, degrees Celsius.
    pub temperature_c: f64,
    /// Barometer's pointer, mmHg.
    pub barometer_mmhg: f64,
    /// Thermometer's column, degrees Celsius.
    pub thermometer_c: f64,
    /// Whether the barometer shows station pressure.
    pub barometer_at_station: bool,
    /// Whether the thermometer is in the shade.
    pub thermometer_shaded: bool,
    /// Seconds since thunder was last heard, if it was heard at all.
    pub thunder_since_s: Option<f64>,

    // --- eyes
    /// Eye height, mm.
    pub eye_mm: f64,
    /// Faults in force.
    pub faults: Vec<Fault>,

    // --- run
    /// Filter, timer and run, where one is ordered.
    pub run: Option<RunGroundTruth>,
}

/// What is true of the display of an electronic manometer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DisplayTruth {
    /// What it shows.
    pub shows: Shown,
    /// Whether the low-battery sign is on.
    pub battery_low: bool,
    /// How far the reading is from where it settles, inches of water.
    pub unsettled_in: f64,
    /// Age of its calibration, as its label says, days.
    pub label_days: f64,
}

/// What is true of filter, timer and run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunGroundTruth {
    /// Whether the trainee has left the site.
    pub left: bool,
    /// Whether the trainee is back.
    pub back: bool,
    /// The filter sheet of the run: the one being handled, until another is taken for the next run.
    pub sheet: FilterSheet,
    /// The filter sheet that was taken for the next run.
    pub next_sheet: Option<FilterSheet>,
    /// Dust on the sheet of the run, kg/m2.
    pub deposit_kg_m2: f64,
    /// How many clean filters lie on the one on the holder.
    pub added_filters: u8,
    /// The timer's switch.
    pub timer_switch: TimerSwitch,
    /// Where the trippers stand, on then off: day of the week (0 is Monday) and hour.
    pub trippers: [(Option<u8>, f64); 2],
    /// Whether the trippers are loose, on then off.
    pub tripper_loose: [bool; 2],
    /// How far the dial is ahead of the true time, min.
    pub dial_ahead_min: f64,
    /// Running time on the elapsed-time meter, min.
    pub meter_min: f64,
    /// How far the chart is ahead of the true hour, min.
    pub chart_ahead_min: f64,
    /// Number of points in the trace on the chart.
    pub chart_ink: usize,
    /// Whether the chart of the run was taken off and kept.
    pub chart_kept: bool,
    /// Whether the recorder's door is open.
    pub recorder_open: bool,
    /// The flow that the controller's trim screw is set to, standard m3/min.
    pub set_std_m3_min: f64,
    /// The gain in mass that the laboratory finds, g, once the filter is folded in its envelope.
    pub gained_g: Option<f64>,
    /// What the run actually sampled, once the site was left.
    pub truth: Option<SampleTruth>,
}

/// What a run actually sampled; see [`crate::rig::flow::sample::AirSample`].
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct SampleTruth {
    /// Volume sampled, standard m3.
    pub volume_std_m3: f64,
    /// The part of it that passed through the filter, standard m3.
    pub filtered_std_m3: f64,
    /// Time with power at the blower, min.
    pub powered_min: f64,
    /// How many times the blower got power.
    pub starts: u32,
    /// Lowest flow, standard m3/min.
    pub lowest_std_m3_min: f64,
    /// Highest flow, standard m3/min.
    pub highest_std_m3_min: f64,
    /// Mean flow, standard m3/min.
    pub mean_flow_std_m3_min: f64,
    /// Mean station pressure, mmHg.
    pub mean_pressure_mmhg: f64,
    /// Mean air temperature, degrees Celsius.
    pub mean_temperature_c: f64,
    /// Mean of the pen: the trace, read perfectly, chart divisions.
    pub mean_pen: f64,
    /// The same for a pen without friction, chart divisions.
    pub mean_pen_at_rest: f64,
}
