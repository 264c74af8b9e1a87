//! The flow recorder: bellows, linkage with backlash, pen.

use serde::{Deserialize, Serialize};

use super::line::RecorderLine;
use crate::digest::{digest_fields, digest_names};
use crate::math;
use crate::rig::flow::flow_solution::FlowSolution;
use crate::rig::manometer::valve;
use crate::units::PA_PER_INH2O;

/// Last division of the chart, counted from its zero.
pub const CHART_DIVISIONS: f64 = 100.0;
/// Fraction of the linkage's lag behind the bellows that remains after one tap (CHOSEN: a knock of
/// about 0.5 inches of water on a model with dry friction, computed). After three taps 4 % remains.
const LEFT_BY_A_TAP: f64 = 0.35;
/// The pen is seen to move while it is further than this from rest, chart divisions (CHOSEN).
const SEEN_MOVING_DIVISIONS: f64 = 0.2;
/// Time constant with which the blower's vibration brings a pen to rest, s (CHOSEN; that a
/// machine's vibration acts on dry friction as a dither does is READ in reviews of friction). It is
/// too slow to matter to a person who reads a point, and is left out while somebody is at the
/// station.
const SHAKEN_S: f64 = 2400.0;
/// By how much of itself the lag grows for each kelvin below freezing (CHOSEN: ink and oil thicken, and
/// at -10 degrees Celsius the pen takes twice as long).
const THICKER_A_KELVIN: f64 = 0.1;
/// How far the zero screw moves the pen each way, chart divisions (CHOSEN).
const ZERO_TRAVEL_DIVISIONS: f64 = 15.0;

/// What the recorder's chart is graduated for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum RecorderKind {
    /// Bellows at the exhaust orifice, graduated in the square root of pressure: I = Kx sqrt(P).
    #[default]
    SquareRoot,
    /// Bellows at the exhaust orifice, graduated linearly in pressure: I = Kl P.
    Linear,
    /// Driven by a mass flow meter: I = Km Qstd.
    MassFlow,
}

/// The recorder's constants and faults. The defaults are the bench's own design (CHOSEN).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecorderParameters {
    /// What its chart is graduated for.
    pub kind: RecorderKind,
    /// Kx: chart divisions at one inch of water, square-root chart.
    pub square_root_divisions: f64,
    /// Kl: chart divisions per inch of water, linear chart.
    pub linear_divisions_per_inh2o: f64,
    /// Km: chart divisions per standard m3/min, mass-flow chart.
    pub mass_flow_divisions_per_m3_min: f64,
    /// Time constant of the bellows, s.
    pub lag_s: f64,
    /// Half-width r of the backlash between bellows and pen, inches of water. A good pen has 0.05,
    /// a neglected one 0.12.
    pub backlash_inh2o: f64,
    /// The pen's reading without pressure at the start, chart divisions.
    pub pen_zero_divisions: f64,
    /// Leak of its tubing to the air: its area divided by that of the tubing.
    pub line_leak_ratio: f64,
    /// Whether the pen has ink.
    pub ink: Ink,
    /// How much the chart's clock loses, percent.
    pub clock_loss_pct: f64,
    /// By how much the full scale of the chart exceeds that of this recorder's own charts, percent.
    pub printed_more_pct: f64,
    /// By how much a bent arm of the pen enlarges every reading, percent of it.
    pub arm_pct: f64,
}

digest_names!(RecorderKind, Ink);

digest_fields!(RecorderParameters {
    kind,
    square_root_divisions,
    linear_divisions_per_inh2o,
    mass_flow_divisions_per_m3_min,
    lag_s,
    backlash_inh2o,
    pen_zero_divisions,
    line_leak_ratio,
    ink,
    clock_loss_pct,
    printed_more_pct,
    arm_pct
});

/// Whether the pen has ink.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Ink {
    /// It writes.
    #[default]
    Wet,
    /// It leaves no trace.
    Dry,
}

impl Default for RecorderParameters {
    fn default() -> Self {
        Self {
            kind: RecorderKind::SquareRoot,
            square_root_divisions: 36.0,
            linear_divisions_per_inh2o: 10.0,
            mass_flow_divisions_per_m3_min: 35.0,
            lag_s: 0.5,
            backlash_inh2o: 0.10,
            pen_zero_divisions: 0.0,
            line_leak_ratio: 0.0,
            ink: Ink::Wet,
            clock_loss_pct: 0.0,
            printed_more_pct: 0.0,
            arm_pct: 0.0,
        }
    }
}

/// The inputs of the recorder.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RecorderInputs {
    /// Gauge pressure in front of the exhaust orifice, inches of water.
    pub exit_inh2o: f64,
    /// Flow at standard conditions, m3/min; only a mass-flow recorder senses it.
    pub flow_std_m3_min: f64,
}

impl From<&FlowSolution> for RecorderInputs {
    /// The inputs that belong to a flow through the sampler.
    fn from(flow: &FlowSolution) -> Self {
        Self {
            exit_inh2o: flow.exit_pressure_pa / PA_PER_INH2O,
            flow_std_m3_min: flow.flow_std_m3_min(),
        }
    }
}

/// The recorder, without its chart (see [`crate::rig::recorder::chart::ChartPaper`]).
///
/// * The tubing transmits P/(1 + a^2) of the exhaust pressure P, with a the relative area of its
///   leak (computed).
/// * The bellows follow with a first-order lag of 0.5 s (CHOSEN): u.
/// * The linkage has backlash: y = clamp(y, u - r, u + r) (the play operator, MEMORY). The pen
///   reads high while the pressure falls and low while it rises. Below r it is clamped to 2 u, so
///   that a pen without pressure stands at its zero (common practice, no source).
/// * Chart: I = Kx sqrt(max(y, 0)), or Kl y, plus the pen's zero, between the chart's ends.
///
/// The flow moves a mass-flow recorder as the pressure with the same reading moves a linear one, so
/// that lag and backlash keep their units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowRecorder {
    /// Its constants and faults. A fault changes them at its onset.
    pub parameters: RecorderParameters,
    /// The tubing to its bellows.
    pub line: RecorderLine,
    target_inh2o: f64,
    bellows_inh2o: f64,
    linkage_inh2o: f64,
    zero_divisions: f64,
    /// By how much cold ink and stiff oil multiply the lag; 1 above freezing.
    thickened: f64,
    capped: bool,
    on_paper: bool,
    door_open: bool,
}

digest_fields!(FlowRecorder {
    parameters,
    line,
    target_inh2o,
    bellows_inh2o,
    linkage_inh2o,
    zero_divisions,
    thickened,
    capped,
    on_paper,
    door_open
});

impl FlowRecorder {
    /// A recorder without pressure, its door shut, its pen capped and off the chart.
    pub fn new(parameters: RecorderParameters) -> Self {
        let zero = parameters.pen_zero_divisions;
        Self {
            parameters,
            line: RecorderLine::default(),
            target_inh2o: 0.0,
            bellows_inh2o: 0.0,
            linkage_inh2o: 0.0,
            zero_divisions: if zero.is_finite() { zero } else { 0.0 },
            thickened: 1.0,
            capped: true,
            on_paper: false,
            door_open: false,
        }
    }

    /// Advances bellows and pen by `dt_s` (s) under steady inputs. It is exact for any `dt_s`,
    /// because the bellows move in one direction only.
    pub fn step(&mut self, dt_s: f64, inputs: RecorderInputs) {
        let dt_s = if dt_s.is_finite() { dt_s.max(0.0) } else { 0.0 };
        self.target_inh2o = self.arriving_inh2o(inputs);
        let off = self.bellows_inh2o - self.target_inh2o;
        self.bellows_inh2o = self.target_inh2o + off * math::exp(-dt_s / self.lag_s());
        self.linkage_inh2o = self.dragged(self.bellows_inh2o);
    }

    /// Lets ink and oil take on the temperature of the air, degrees Celsius.
    pub fn chill(&mut self, air_c: f64) {
        let below_k = if air_c.is_finite() { (-air_c).max(0.0) } else { 0.0 };
        self.thickened = 1.0 + THICKER_A_KELVIN * below_k;
    }

    /// Taps the case: 35 % of the linkage's lag behind the bellows remains.
    pub fn tap(&mut self) {
        self.linkage_inh2o =
            self.bellows_inh2o + LEFT_BY_A_TAP * (self.linkage_inh2o - self.bellows_inh2o);
    }

    /// The blower vibrates the linkage for `dt_s` (s) of an unattended run: its lag behind the
    /// bellows decays.
    pub fn vibrate(&mut self, dt_s: f64) {
        let lag = self.linkage_inh2o - self.bellows_inh2o;
        self.linkage_inh2o = self.bellows_inh2o + lag * math::exp(-dt_s.max(0.0) / SHAKEN_S);
    }

    /// Where the pen's tip is, chart divisions.
    pub fn pen(&self) -> f64 {
        self.on_chart(self.armed(self.graduated(self.linkage_inh2o)) + self.zero_divisions)
    }

    /// Where the pen would rest without friction, with its zero and leak as they are, chart
    /// divisions.
    pub fn pen_at_rest(&self, inputs: RecorderInputs) -> f64 {
        let drive = self.arriving_inh2o(inputs);
        self.on_chart(self.armed(self.graduated(drive)) + self.zero_divisions)
    }

    /// Where the pen of a fault-free recorder would rest, in divisions of the chart on it.
    pub fn undisturbed(&self, inputs: RecorderInputs) -> f64 {
        self.on_chart(self.graduated(self.drive_inh2o(inputs)))
    }

    /// Whether the pen is seen to move.
    pub fn is_moving(&self) -> bool {
        let end = self.graduated(self.dragged(self.target_inh2o));
        (end - self.graduated(self.linkage_inh2o)).abs() > SEEN_MOVING_DIVISIONS
    }

    /// Turns the zero screw: chart divisions, positive up.
    pub fn turn_zero(&mut self, by_divisions: f64) {
        if by_divisions.is_finite() {
            self.zero_divisions = (self.zero_divisions + by_divisions / self.printed())
                .clamp(-ZERO_TRAVEL_DIVISIONS, ZERO_TRAVEL_DIVISIONS);
        }
    }

    /// The pen's zero, chart divisions.
    pub const fn zero_divisions(&self) -> f64 {
        self.zero_divisions
    }

    /// Where the pen leaves ink, chart divisions; `None` if it leaves none.
    pub fn nib(&self) -> Option<f64> {
        let writes = self.on_paper && !self.capped && self.parameters.ink == Ink::Wet;
        if writes { Some(self.pen()) } else { None }
    }

    /// Opens the door.
    pub const fn open_door(&mut self) {
        self.door_open = true;
    }

    /// Closes the door.
    pub const fn close_door(&mut self) {
        self.door_open = false;
    }

    /// Takes the cap off the pen.
    pub const fn uncap(&mut self) {
        self.capped = false;
    }

    /// Puts the cap on the pen.
    pub const fn cap(&mut self) {
        self.capped = true;
    }

    /// Lowers the pen onto the chart.
    pub const fn lower_pen(&mut self) {
        self.on_paper = true;
    }

    /// Lifts the pen off the chart.
    pub const fn lift_pen(&mut self) {
        self.on_paper = false;
    }

    /// Whether the door is open.
    pub const fn is_door_open(&self) -> bool {
        self.door_open
    }

    /// Whether the pen's cap is on.
    pub const fn is_capped(&self) -> bool {
        self.capped
    }

    /// Whether the pen is on the chart.
    pub const fn is_on_paper(&self) -> bool {
        self.on_paper
    }

    fn drive_inh2o(&self, inputs: RecorderInputs) -> f64 {
        let drive = match self.parameters.kind {
            RecorderKind::SquareRoot | RecorderKind::Linear => inputs.exit_inh2o,
            RecorderKind::MassFlow => {
                inputs.flow_std_m3_min * self.parameters.mass_flow_divisions_per_m3_min
                    / self.parameters.linear_divisions_per_inh2o
            }
        };
        if drive.is_finite() { drive.clamp(-400.0, 400.0) } else { 0.0 }
    }

    /// What the tubing lets arrive at the bellows, inches of water.
    fn arriving_inh2o(&self, inputs: RecorderInputs) -> f64 {
        self.line.transmits(self.drive_inh2o(inputs)) * valve::divided(self.leak_ratio())
    }

    /// Where the pen's tip is when its arm would hold it at `divisions` if it were straight.
    fn armed(&self, divisions: f64) -> f64 {
        let pct = self.parameters.arm_pct;
        if pct.is_finite() { divisions * (1.0 + 0.01 * pct) } else { divisions }
    }

    /// Whether the arm of the pen is bent, as an eye sees it against the lines of the chart.
    pub const fn is_arm_bent(&self) -> bool {
        self.parameters.arm_pct.abs() > 0.5
    }

    /// The position of the linkage after the bellows have moved to `bellows_inh2o`.
    fn dragged(&self, bellows_inh2o: f64) -> f64 {
        let backlash = self.parameters.backlash_inh2o;
        let backlash = if backlash.is_finite() { backlash.max(0.0) } else { 0.0 };
        // The rotor that runs down shakes the linkage free: without pressure the pen stands at zero.
        let above = backlash.min(bellows_inh2o.max(0.0));
        self.linkage_inh2o.max(bellows_inh2o - backlash).min(bellows_inh2o + above)
    }

    fn graduated(&self, pressure_inh2o: f64) -> f64 {
        match self.parameters.kind {
            RecorderKind::SquareRoot => {
                self.parameters.square_root_divisions * pressure_inh2o.max(0.0).sqrt()
            }
            RecorderKind::Linear | RecorderKind::MassFlow => {
                self.parameters.linear_divisions_per_inh2o * pressure_inh2o
            }
        }
    }

    /// The reading of a pen that stops at the ends of the chart, by the divisions printed there.
    fn on_chart(&self, divisions: f64) -> f64 {
        let divisions = if divisions.is_finite() { divisions } else { 0.0 };
        divisions.clamp(0.0, CHART_DIVISIONS) * self.printed()
    }

    /// Printed divisions of the chart divided by those of this recorder's own charts.
    fn printed(&self) -> f64 {
        let more_pct = self.parameters.printed_more_pct;
        if more_pct.is_finite() { (1.0 + 0.01 * more_pct).max(0.1) } else { 1.0 }
    }

    /// The last division that is printed on the chart.
    pub fn printed_to(&self) -> f64 {
        CHART_DIVISIONS * self.printed()
    }

    const fn leak_ratio(&self) -> f64 {
        let ratio = self.parameters.line_leak_ratio;
        if ratio.is_finite() { ratio } else { 0.0 }
    }

    const fn lag_s(&self) -> f64 {
        let lag_s = self.parameters.lag_s * self.thickened;
        let lag_s = if lag_s.is_finite() { lag_s.max(1e-6) } else { 0.5 };
        lag_s + self.line.lag_s()
    }
}

#[cfg(test)]
mod tests {
    use super::{FlowRecorder, RecorderInputs, RecorderKind, RecorderParameters};

    #[test]
    fn steps_compose_exactly() {
        let inputs = RecorderInputs { exit_inh2o: 5.3, flow_std_m3_min: 1.7 };
        let mut short = FlowRecorder::new(RecorderParameters::default());
        let mut long = short;
        for _ in 0..20 {
            short.step(0.05, inputs);
        }
        long.step(1.0, inputs);
        assert!((short.pen() - long.pen()).abs() < 1e-9);
        assert!(short.is_moving());
    }

    #[test]
    fn each_kind_reads_its_own_quantity() {
        let inputs = RecorderInputs { exit_inh2o: 4.0, flow_std_m3_min: 1.5 };
        for (kind, divisions) in [
            (RecorderKind::SquareRoot, 72.0),
            (RecorderKind::Linear, 40.0),
            (RecorderKind::MassFlow, 52.5),
        ] {
            let recorder = FlowRecorder::new(RecorderParameters { kind, ..Default::default() });
            assert!((recorder.pen_at_rest(inputs) - divisions).abs() < 1e-9);
        }
    }

    #[test]
    fn the_pen_stops_at_the_chart_s_ends_and_a_leaking_line_reads_low() {
        let inputs = RecorderInputs { exit_inh2o: 300.0, flow_std_m3_min: 0.0 };
        let mut recorder = FlowRecorder::new(RecorderParameters::default());
        recorder.step(60.0, inputs);
        assert!((recorder.pen() - 100.0).abs() < 1e-12);
        recorder.parameters.line_leak_ratio = 0.5;
        let inputs = RecorderInputs { exit_inh2o: 5.0, flow_std_m3_min: 0.0 };
        assert!((recorder.pen_at_rest(inputs) - 72.0).abs() < 1e-9);
        assert!((recorder.undisturbed(inputs) - 36.0 * 5.0_f64.sqrt()).abs() < 1e-9);
    }

    #[test]
    fn only_an_uncapped_pen_on_the_paper_writes() {
        let mut recorder = FlowRecorder::new(RecorderParameters::default());
        recorder.lower_pen();
        assert_eq!(recorder.nib(), None);
        recorder.uncap();
        assert!(recorder.nib().is_some());
    }
}
