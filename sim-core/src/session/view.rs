//! What a person could see, hear and feel at one moment. Front ends get this and nothing else.

use serde::Serialize;

use crate::rig::flow::plates::Plate;
use crate::rig::manometer::IceLook;
use crate::rig::manometer::electronic::Shown;
use crate::rig::parts::{
    BlowerPlug, Gasket, GaugeFluid, Leg, PartPlace, RigPart, Stopper, TimerSwitch,
};
use crate::rig::recorder::RecorderKind;
use crate::session::action::{BarometerReference, Exposure, OnOff, Sight, WasherSeat};
use crate::time::{Date, Tick, TimeOfDay};

pub mod run;

pub use crate::rig::parts::Hiss;
pub use run::{FilterView, Holes, RunStanding, RunView};

/// Everything that can be seen at one moment. While nobody is at the site, everything there is as it
/// was seen last, when it was left.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct View {
    /// The moment.
    pub tick: Tick,
    /// Today.
    pub date: Date,
    /// Time on the watch.
    pub time: TimeOfDay,
    /// Seconds left, where the scenario sets a limit.
    pub seconds_left: Option<f64>,
    /// What the eyes are on.
    pub focus: Sight,
    /// Height of the eye above what is read, mm.
    pub eye_mm: f64,
    /// What the hand is holding.
    pub hand: Option<RigPart>,
    /// The sky.
    pub sky: SkyView,
    /// Shelter, holder and what is on it.
    pub mounting: MountingView,
    /// Cords, plugs and switches.
    pub power: PowerView,
    /// The blower as heard.
    pub blower: BlowerView,
    /// The calibrator.
    pub calibrator: CalibratorView,
    /// The tube.
    pub tube: TubeView,
    /// The manometer.
    pub manometer: ManometerView,
    /// The recorder.
    pub recorder: RecorderView,
    /// The barometer.
    pub barometer: BarometerView,
    /// The thermometer.
    pub thermometer: ThermometerView,
    /// Filter, timer, chart and weather of a run, if one is ordered.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<Box<RunView>>,
}

/// The sky.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SkyView {
    /// Whether the sun shines on the roof.
    pub sunny: bool,
    /// Seconds since thunder was first heard.
    pub thunder_since_s: Option<f64>,
    /// How strong the wind feels, 0 (calm) to 1 (gusts).
    pub wind: f64,
}

/// Shelter, filter holder and what lies on it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MountingView {
    /// Whether the lid is open.
    pub lid_open: bool,
    /// The four nuts.
    pub nuts: [NutView; 4],
    /// Where each part is, in the order of [`RigPart::ALL`].
    pub places: [PartPlace; 5],
    /// The gasket on the holder; `None` when it is covered.
    pub holder_gasket: Option<bool>,
    /// The gasket under the calibrator; `None` when it is covered, on the plate or in the case.
    pub calibrator_gasket: Option<bool>,
    /// A gasket in sight that has gone flat and hard.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flat_gasket: Option<Gasket>,
    /// What lies in the gap under the lid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub inlet: Option<Stopper>,
    /// What lies in the exhaust.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub exhaust: Option<Stopper>,
}

impl MountingView {
    /// Where a part is.
    pub fn place(&self, part: RigPart) -> PartPlace {
        self.places.get(part as usize).copied().unwrap_or(PartPlace::Case)
    }
}

/// A nut as seen and felt.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct NutView {
    /// How it felt at the last turn, or looks.
    pub feel: NutFeel,
    /// Where its washer is.
    pub washer: WasherSeat,
    /// Quarter turns since the thread first caught, as the nut's height shows (0 is off).
    pub quarter_turns: u8,
}

/// How a nut feels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NutFeel {
    /// Backed off, its bolt swung aside.
    Off,
    /// Turns freely.
    Free,
    /// Hand-tight.
    Snug,
    /// Hard against its stop.
    Hard,
}

/// Cords, plugs and switches.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PowerView {
    /// Whether the sampler's cord is in the mains outlet.
    pub sampler_cord_in: bool,
    /// Where the blower's plug is.
    pub blower_plug: BlowerPlug,
    /// The switch of the switched mains outlet.
    pub line_switch: OnOff,
    /// The timer's switch.
    pub timer_switch: TimerSwitch,
    /// Whether the controller's lamp is lit.
    pub controller_lamp: bool,
    /// Position of the trim screw, turns clockwise from its lower stop.
    pub trim_turns: f64,
    /// Whether the button of the outlet's ground-fault protection stands out: it has tripped.
    #[serde(skip_serializing_if = "is_not")]
    pub outlet_tripped: bool,
    /// Whether the sheath of the extension cord is cut.
    #[serde(skip_serializing_if = "is_not")]
    pub cord_damaged: bool,
}

/// Whether something is not so; for what is left out where it is as usual.
fn is_not(so: &bool) -> bool {
    !so
}

/// The blower, as heard and as seen in the cut-away.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BlowerView {
    /// Loudness, 0 (still) to 1 (full). It falls with the speed of the rotor, no faster: a rotor that
    /// runs down is heard until it stands.
    pub loudness: f64,
    /// How strongly the air rushes, 0 (still) to 1 (as in use), in tenths: no finer than an ear tells. With
    /// the openings covered a running blower draws next to nothing.
    pub rush: f64,
    /// Whether its shaft is seen to turn, when it is in focus.
    pub turning: Option<bool>,
    /// Pitch of its whine, Hz.
    pub pitch_hz: f64,
    /// Whether its sound wavers, as with worn brushes or unsteady mains voltage.
    pub wavering: bool,
    /// The hiss of air leaking in around the calibrator or under the plate, heard from close by.
    pub hiss: Option<Hiss>,
    /// Whether it smells hot.
    pub hot_smell: bool,
}

/// The calibrator.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CalibratorView {
    /// Serial number on its plate, when it is in focus.
    pub serial: Option<String>,
    /// Opening shown by its knob, 0 to 1.
    pub knob: f64,
    /// Whether its openings are covered.
    pub blocked: bool,
    /// Whether the edge of its orifice looks damaged or dirty, when it is in focus.
    pub edge: Option<OrificeEdge>,
    /// The plates, if it is a calibrator with fixed plates; left out for one with a knob.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plates: Option<PlatesView>,
}

/// The plates of a calibrator with fixed plates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct PlatesView {
    /// The plate in the calibrator; the others are in the case.
    pub inserted: Option<Plate>,
}

/// How the edge of the measuring orifice looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OrificeEdge {
    /// Clean and sharp.
    Sharp,
    /// Nicked.
    Nicked,
    /// Dirty.
    Dirty,
}

/// The tube.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TubeView {
    /// Whether it is on the pressure tap.
    pub on_tap: bool,
    /// Whether it is kinked.
    pub kinked: bool,
    /// Whether drops of water are visible in it.
    pub drops: bool,
    /// Whether a crack is visible, when it is in focus.
    pub crack: Option<bool>,
    /// Whether it is only half on the pressure tap, when it is in focus.
    pub loose: Option<bool>,
    /// Whether the water in it is seen to be ice.
    pub ice: bool,
}

/// The manometer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ManometerView {
    /// Tilt from plumb, degrees.
    pub tilt_deg: f64,
    /// The leg with the tube.
    pub left: LegView,
    /// The leg open to the air.
    pub right: LegView,
    /// How far the scale has been moved, inches, positive up.
    pub scale_in: f64,
    /// Whether the water is visibly moving.
    pub moving: bool,
    /// Whether a bubble is visible in the bend.
    pub bubble: bool,
    /// What it is filled with, as the label on its back says.
    pub fluid: GaugeFluid,
    /// How far its level is below the fill mark, mm: the mean of both legs; negative above the mark.
    pub below_mark_mm: f64,
    /// What can be seen of ice in it.
    pub ice: IceLook,
    /// Whether its water is cloudy and drops cling to the glass.
    pub dirty: bool,
    /// The display, if it is an electronic manometer: then there is nothing to be seen of legs and
    /// scale. Left out for one with water.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub display: Option<DisplayView>,
}

/// The display of an electronic manometer, and its label.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DisplayView {
    /// What it shows.
    pub shows: Shown,
    /// Whether the low-battery sign is on.
    pub battery_low: bool,
    /// When it was last calibrated, as the label on its back says, when the whole manometer is in focus.
    pub calibrated: Option<Date>,
}

impl ManometerView {
    /// One of its legs.
    pub const fn leg(&self, leg: Leg) -> &LegView {
        match leg {
            Leg::Left => &self.left,
            Leg::Right => &self.right,
        }
    }
}

/// A leg of the manometer as seen from the present eye height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LegView {
    /// Opening of its valve, quarter turns, 0 (shut) to 4 (open).
    pub valve_quarters: u8,
    /// Where the lowest edge of the meniscus is seen on the scale, inches, positive above zero.
    pub meniscus_in: f64,
    /// Where the upper rim of the meniscus is seen, inches, positive above zero.
    pub rim_in: f64,
}

/// The recorder.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RecorderView {
    /// Whether the door is open.
    pub door_open: bool,
    /// Whether the pen's cap is on. If it is, the tip cannot be read.
    pub capped: bool,
    /// Whether the pen is on the chart.
    pub on_paper: bool,
    /// Whether the pen's tip leaves ink on the chart; `None` when it is capped or off the chart.
    pub leaves_ink: Option<bool>,
    /// Where the pen's tip is, chart divisions; `None` when capped.
    pub pen: Option<f64>,
    /// Whether the pen is visibly moving.
    pub moving: bool,
    /// Hour of the chart under the pen, 0 to 24.
    pub chart_hour: f64,
    /// The last division printed on the chart.
    pub printed_to: f64,
    /// How the chart is graduated, as the recorder's plate says; left out for the usual square-root
    /// chart.
    #[serde(skip_serializing_if = "is_usual")]
    pub scale: RecorderKind,
    /// Whether its tubing is off its fitting.
    #[serde(skip_serializing_if = "is_not")]
    pub line_off: bool,
    /// Whether its tubing is kinked.
    #[serde(skip_serializing_if = "is_not")]
    pub line_kinked: bool,
    /// Whether drops of water are visible in its tubing.
    #[serde(skip_serializing_if = "is_not")]
    pub line_drops: bool,
    /// Whether the arm of the pen is bent.
    #[serde(skip_serializing_if = "is_not")]
    pub arm_bent: bool,
    /// Marks made on the chart: hour and label.
    pub marks: Vec<(f64, String)>,
    /// The trace: hour and chart divisions, oldest first.
    pub trace: Vec<(f64, f64)>,
}

/// Whether a chart is the usual one.
fn is_usual(scale: &RecorderKind) -> bool {
    *scale == RecorderKind::SquareRoot
}

/// The barometer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BarometerView {
    /// Its pointer, mmHg.
    pub pointer_mmhg: f64,
    /// What its index shows it is set to, when it is in focus.
    pub set_to: Option<BarometerReference>,
    /// The day on which it was certified, as its sticker says, when it is in focus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub certified: Option<Date>,
}

/// The thermometer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ThermometerView {
    /// Its reading, degrees Celsius.
    pub column_c: f64,
    /// Whether it is in the shade or in the sun.
    pub exposure: Exposure,
    /// Whether the column is still moving.
    pub moving: bool,
    /// The day on which it was certified, as its sticker says, when it is in focus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub certified: Option<Date>,
}

/// Smallest step that a sharp eye can read on the manometer's scale, in: half a tenth.
pub const EYE_LEG_IN: f64 = 0.05;
/// Smallest step that a sharp eye can tell against the manometer's fill mark, mm.
pub const EYE_MARK_MM: f64 = 1.0;
/// Smallest step that a sharp eye can read on the chart, chart divisions.
pub const EYE_CHART: f64 = 0.5;
/// Smallest step that a sharp eye can read on the barometer's dial, mmHg.
pub const EYE_BAROMETER_MMHG: f64 = 0.5;
/// Smallest step that a sharp eye can read on the timer's dial, h: five minutes.
pub const EYE_DIAL_H: f64 = 1.0 / 12.0;
/// Smallest step that a sharp eye can read on the thermometer's scale, degrees Celsius.
pub const EYE_THERMOMETER_C: f64 = 0.5;

impl View {
    /// The same view at the resolution of a sharp eye. Other programs and sessions in words get
    /// this one, so that nobody reads a scale more finely than a person at the instrument could.
    pub fn at_eye_resolution(&self) -> Self {
        let mut view = self.clone();
        for leg in [&mut view.manometer.left, &mut view.manometer.right] {
            leg.meniscus_in = to_nearest(leg.meniscus_in, EYE_LEG_IN);
            leg.rim_in = to_nearest(leg.rim_in, EYE_LEG_IN);
        }
        let manometer = &mut view.manometer;
        manometer.tilt_deg = to_nearest(manometer.tilt_deg, 0.5);
        manometer.scale_in = to_nearest(manometer.scale_in, EYE_LEG_IN);
        manometer.below_mark_mm = to_nearest(manometer.below_mark_mm, EYE_MARK_MM);
        let recorder = &mut view.recorder;
        recorder.pen = recorder.pen.map(|pen| to_nearest(pen, EYE_CHART));
        recorder.chart_hour = to_nearest(recorder.chart_hour, 1.0 / 60.0);
        recorder.printed_to = to_nearest(recorder.printed_to, 1.0);
        for (hour, pen) in &mut recorder.trace {
            *hour = to_nearest(*hour, 1.0 / 60.0);
            *pen = to_nearest(*pen, EYE_CHART);
        }
        let barometer = &mut view.barometer;
        barometer.pointer_mmhg = to_nearest(barometer.pointer_mmhg, EYE_BAROMETER_MMHG);
        view.thermometer.column_c = to_nearest(view.thermometer.column_c, EYE_THERMOMETER_C);
        view.blower.loudness = to_nearest(view.blower.loudness, 0.05);
        view.blower.pitch_hz = to_nearest(view.blower.pitch_hz, 10.0);
        view.calibrator.knob = to_nearest(view.calibrator.knob, 0.01);
        view.power.trim_turns = to_nearest(view.power.trim_turns, 0.25);
        view.sky.wind = to_nearest(view.sky.wind, 0.25);
        if let Some(run) = &mut view.run {
            run.timer.hours = to_nearest(run.timer.hours, EYE_DIAL_H);
            run.timer.on.hours = to_nearest(run.timer.on.hours, EYE_DIAL_H);
            run.timer.off.hours = to_nearest(run.timer.off.hours, EYE_DIAL_H);
            run.timer.meter_min = to_nearest(run.timer.meter_min, 0.1);
            run.filter.grey = to_nearest(run.filter.grey, 0.1);
            for (hour, pen) in run.kept_chart.iter_mut().flatten() {
                *hour = to_nearest(*hour, 1.0 / 60.0);
                *pen = to_nearest(*pen, EYE_CHART);
            }
        }
        view
    }
}

/// The nearest multiple of a step, with minus zero made zero.
fn to_nearest(value: f64, step: f64) -> f64 {
    // Dividing by the whole number of steps in a unit keeps 3.1 from becoming 3.1000000000000001.
    let steps_per_unit = (1.0 / step).round();
    let rounded = if steps_per_unit >= 1.0 && (steps_per_unit * step - 1.0).abs() < 1e-9 {
        (value * steps_per_unit).round() / steps_per_unit
    } else {
        (value / step).round() * step
    };
    rounded + 0.0
}
