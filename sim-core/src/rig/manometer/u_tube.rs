//! The U-tube water manometer.
//!
//! Signs: `x` (m, along the scale) is the mean travel of the two menisci; the left leg is at +x,
//! the right one at -x. Suction in the tubing is positive and raises the left leg; a gust on the
//! open right leg is positive and also raises the left leg. Tilt is positive if the left leg hangs
//! lower, which makes the left leg read higher.

use super::cold::ColdExposure;
use super::filling::Filling;
use super::load::{LegAir, WaterLoad};
use super::meniscus;
use super::parameters::ManometerParameters;
use super::trapped_air::TrappedAir;
use super::valve::{self, Passage, Valve};
use super::water_column::WaterColumn;
use crate::digest::digest_fields;
use crate::math;
use crate::rig::parts::Leg;
use crate::units::STANDARD_GRAVITY;

/// Metres in an inch (exact).
const M_PER_IN: f64 = 0.0254;
/// The water is seen to move above this speed, in/s, or this far from rest, in (CHOSEN).
const SEEN_MOVING_IN: f64 = 0.02;
/// Step of the grid to which the viscosity is rounded for the swing, m2/s: 0.5 % of water's.
const VISCOSITY_GRID_M2_S: f64 = 5e-9;

/// What acts on the manometer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ManometerInputs {
    /// Suction of the tubing on the left leg, Pa.
    pub suction_pa: f64,
    /// Pressure of a gust on the open right leg, Pa.
    pub gust_pa: f64,
    /// Station pressure, Pa.
    pub ambient_pa: f64,
    /// Density of water at the manometer's temperature, kg/m3.
    pub water_density_kg_m3: f64,
    /// Kinematic viscosity of water at that temperature, m2/s.
    pub water_viscosity_m2_s: f64,
}

digest_fields!(ManometerInputs {
    suction_pa,
    gust_pa,
    ambient_pa,
    water_density_kg_m3,
    water_viscosity_m2_s
});

impl ManometerInputs {
    /// Still air at `ambient_pa` (Pa), no suction, water at 20 degrees Celsius (IAPWS, computed).
    pub const fn still(ambient_pa: f64) -> Self {
        Self {
            suction_pa: 0.0,
            gust_pa: 0.0,
            ambient_pa,
            water_density_kg_m3: 998.207,
            water_viscosity_m2_s: 1.0034e-6,
        }
    }

    /// The same inputs with every invalid value replaced by a valid one.
    fn sane(self) -> Self {
        let sane = |value: f64, low: f64, high: f64, otherwise: f64| {
            if value.is_finite() { value.clamp(low, high) } else { otherwise }
        };
        Self {
            suction_pa: sane(self.suction_pa, -1e5, 1e5, 0.0),
            gust_pa: sane(self.gust_pa, -1e5, 1e5, 0.0),
            ambient_pa: sane(self.ambient_pa, 3e4, 2e5, 101_325.0),
            water_density_kg_m3: sane(self.water_density_kg_m3, 500.0, 2000.0, 998.207),
            water_viscosity_m2_s: sane(self.water_viscosity_m2_s, 1e-7, 1e-4, 1.0034e-6),
        }
    }
}

/// Where the water of one leg appears, inches on the scale, positive above its zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeenMeniscus {
    /// The lowest edge of the meniscus.
    pub meniscus_in: f64,
    /// Its upper rim.
    pub rim_in: f64,
}

/// The manometer.
#[derive(Debug, Clone, PartialEq)]
pub struct Manometer {
    /// Its dimensions and faults. A fault changes them at its onset.
    pub parameters: ManometerParameters,
    pub(super) hung: bool,
    pub(super) tilt_deg: f64,
    pub(super) scale_in: f64,
    pub(super) left: LegState,
    pub(super) right: LegState,
    pub(super) travel_m: f64,
    pub(super) speed_m_s: f64,
    pub(super) rest_m: f64,
    pub(super) inputs: ManometerInputs,
    /// Where the menisci appear, as a travel: where dirt holds them back, behind the water.
    pub(super) shown_m: f64,
    pub(super) filling: Filling,
    /// What has gone over into the tubing and was not yet taken up by it, m3.
    pub(super) over_m3: f64,
    column: SolvedColumn,
}

digest_fields!(Manometer { parameters, hung, tilt_deg, scale_in, left, right, travel_m, speed_m_s, rest_m, inputs, shown_m, filling, over_m3 } without { column });

/// A leg's valve, and the air trapped behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LegState {
    pub(super) quarters: u8,
    pub(super) trapped: Option<TrappedAir>,
}

digest_fields!(LegState { quarters, trapped });

/// The swing of the column and the conditions for which it was solved.
#[derive(Debug, Clone, Copy, PartialEq)]
struct SolvedColumn {
    length_m: f64,
    bore_mm: f64,
    viscosity_steps: f64,
    column: WaterColumn,
}

impl SolvedColumn {
    fn new(length_m: f64, bore_mm: f64, viscosity_steps: f64) -> Self {
        let viscosity_m2_s = viscosity_steps * VISCOSITY_GRID_M2_S;
        let column = WaterColumn::new(length_m, bore_mm * 1e-3, viscosity_m2_s);
        Self { length_m, bore_mm, viscosity_steps, column }
    }

    fn is_for(&self, length_m: f64, bore_mm: f64, viscosity_steps: f64) -> bool {
        (self.length_m - length_m).abs() < 1e-12
            && (self.bore_mm - bore_mm).abs() < 1e-12
            && (self.viscosity_steps - viscosity_steps).abs() < 0.5
    }
}

impl Manometer {
    /// A manometer in its case, with its valves according to the parameters, at an air pressure of
    /// `ambient_pa` (Pa).
    pub fn new(parameters: ManometerParameters, ambient_pa: f64) -> Self {
        let parameters = parameters.sane();
        let leg = |quarters| LegState { quarters, trapped: None };
        let inputs = ManometerInputs::still(ambient_pa).sane();
        let mut manometer = Self {
            hung: false,
            tilt_deg: 0.0,
            scale_in: parameters.initial_scale_in,
            left: leg(parameters.initial_valve_quarters[0].min(valve::FULLY_OPEN)),
            right: leg(parameters.initial_valve_quarters[1].min(valve::FULLY_OPEN)),
            travel_m: 0.0,
            speed_m_s: 0.0,
            rest_m: 0.0,
            inputs,
            shown_m: 0.0,
            filling: Filling::new(parameters.initial_fluid),
            over_m3: 0.0,
            column: SolvedColumn::new(
                parameters.column_length_m,
                parameters.mean_bore_mm(),
                viscosity_steps(&inputs),
            ),
            parameters,
        };
        manometer.seal_shut_legs();
        manometer
    }

    /// Advances the water by `dt_s` (s) under steady inputs.
    ///
    /// x'' + 2 s x' + n^2 (x - x0) = 0 about the rest position x0, where suction, gust, weight,
    /// tilt and trapped air balance, with the exact motion of
    /// [`crate::rig::manometer::water_column::Swing::advance`]. With trapped air, the spring
    /// constant is the tangent at x0. Values that are not finite are replaced by those of still
    /// air. In its case the water does not move, and neither does ice.
    ///
    /// What stands above the end of the left leg goes over into the tubing
    /// ([`Filling`]), where [`Self::pour_over`] finds it.
    pub fn step(&mut self, dt_s: f64, inputs: ManometerInputs) {
        self.inputs = inputs.sane();
        self.parameters = self.parameters.sane();
        self.seal_shut_legs();
        if !self.hung {
            return;
        }
        let dt_s = if dt_s.is_finite() { dt_s.clamp(0.0, 3600.0) } else { 0.0 };
        self.solve_column();
        let load = self.load();
        let rest = load.rest_m();
        if self.filling.cold.is_stuck() {
            (self.rest_m, self.speed_m_s) = (rest, 0.0);
            return;
        }
        let stiffness = load.stiffness_pa_m(rest) / self.upright_weight_pa_m();
        let mut swing = self.column.column.swing(stiffness, self.lag_s());
        swing.decay_1_s += self.parameters.bubble_decay_1_s() + self.filling.dirt_decay_1_s();
        let (excursion, speed) = swing.advance(self.travel_m - rest, self.speed_m_s, dt_s);
        self.rest_m = rest;
        self.travel_m = rest + excursion;
        self.speed_m_s = speed;
        let limit = self.limit_m();
        if self.travel_m.abs() >= limit {
            if self.travel_m > 0.0 {
                self.over_m3 += self.filling.goes_over(dt_s, rest - limit, &self.parameters);
            }
            let limit = self.limit_m();
            self.travel_m = self.travel_m.clamp(-limit, limit);
            self.speed_m_s = 0.0;
        }
        self.shows();
    }

    /// Lets the fluid stand in air of `air_c` (degrees Celsius) for `dt_s` (s).
    pub fn stand(&mut self, dt_s: f64, air_c: f64, exposed: ColdExposure) {
        self.filling.stand(dt_s, air_c, exposed);
    }

    /// Hands over what went over the end of the left leg since it was last asked for, m3.
    pub const fn pour_over(&mut self) -> f64 {
        std::mem::replace(&mut self.over_m3, 0.0)
    }

    /// Drags the menisci along with the water, as far as dirt lets them follow.
    pub(super) fn shows(&mut self) {
        let clings_m = self.filling.clings_m;
        let (low, high) = (self.travel_m - clings_m, self.travel_m + clings_m);
        self.shown_m = self.shown_m.max(low).min(high);
    }

    /// Where the lowest edges of the menisci truly are on the scale, left and right, inches above
    /// its zero.
    ///
    /// A shift of both legs alike, such as that of a scale that was not zeroed, cancels when the
    /// rise of one leg is added to the fall of the other; it shows only if one leg is read, or at
    /// rest.
    pub fn levels_in(&self) -> [f64; 2] {
        self.on_scale(self.shown_m)
    }

    /// Where the upper rims of the menisci truly are, left and right, inches above the scale's
    /// zero.
    pub fn rims_in(&self) -> [f64; 2] {
        let [left, right] = self.levels_in();
        let depth_in = |bore_mm| meniscus::meniscus_depth_mm(bore_mm) * 1e-3 / M_PER_IN;
        [
            left + depth_in(self.parameters.left_bore_mm),
            right + depth_in(self.parameters.right_bore_mm),
        ]
    }

    /// Where a leg's water appears with the eye `eye_mm` above it, see [`meniscus::parallax_in`].
    pub fn seen(&self, leg: Leg, eye_mm: f64) -> SeenMeniscus {
        let eye_mm = if eye_mm.is_finite() { eye_mm } else { 0.0 };
        let shift = meniscus::parallax_in(eye_mm);
        let pick = |[left, right]: [f64; 2]| match leg {
            Leg::Left => left,
            Leg::Right => right,
        };
        SeenMeniscus {
            meniscus_in: pick(self.levels_in()) + shift,
            rim_in: pick(self.rims_in()) + shift,
        }
    }

    /// Where both legs, open to still air, would rest on the scale as it is set, inches: both zero
    /// if the manometer is zeroed and plumb.
    pub fn zero_in(&self) -> [f64; 2] {
        let load = self.load();
        self.on_scale(load.bias_pa / load.weight_pa_m)
    }

    /// Where the menisci would rest with the present inputs, inches.
    pub fn rest_in(&self) -> [f64; 2] {
        let limit = self.limit_m();
        self.on_scale(self.load().rest_m().clamp(-limit, limit))
    }

    /// Where a fault-free, zeroed and plumb manometer would rest with `suction_pa` (Pa) and water
    /// of the present density: half the column up and half down, inches.
    pub fn undisturbed_in(&self, suction_pa: f64) -> [f64; 2] {
        let half =
            0.5 * suction_pa / (self.inputs.water_density_kg_m3 * STANDARD_GRAVITY) / M_PER_IN;
        [half, -half]
    }

    /// Restoring force on the column divided by that of its weight alone: 1 with both valves open,
    /// 1 + Pa/(2 rho g l) near zero with one shut. Its square root multiplies the natural
    /// frequency.
    pub fn stiffness(&self) -> f64 {
        let load = self.load();
        load.stiffness_pa_m(load.rest_m()) / load.weight_pa_m
    }

    /// Speed of the water, inches per second, positive if the left leg rises.
    pub fn speed_in_s(&self) -> f64 {
        self.speed_m_s / M_PER_IN
    }

    /// Whether the water moves enough to be seen.
    pub fn is_moving(&self) -> bool {
        let limit = self.limit_m();
        let off_m = (self.travel_m - self.rest_m.clamp(-limit, limit)).abs();
        self.hung
            && !self.filling.cold.is_stuck()
            && (self.speed_m_s.abs() > SEEN_MOVING_IN * M_PER_IN
                || off_m > SEEN_MOVING_IN * M_PER_IN)
    }

    /// Whether the water is at the end of the scale and would go further.
    pub fn is_at_stop(&self) -> bool {
        self.travel_m.abs() >= self.limit_m()
    }

    pub(super) fn left_passage(&self) -> Passage {
        let [passes, _] = self.parameters.valve_passes;
        let leak_ratio = self.parameters.left_leak_ratio;
        valve::passage(Leg::Left, Valve { quarters: self.left.quarters, leak_ratio, passes })
    }

    pub(super) fn right_passage(&self) -> Passage {
        let [_, passes] = self.parameters.valve_passes;
        let leak_ratio = self.parameters.right_leak_ratio;
        valve::passage(Leg::Right, Valve { quarters: self.right.quarters, leak_ratio, passes })
    }

    /// Both legs' lags together: the water passes through both.
    pub(super) fn lag_s(&self) -> f64 {
        let lag = |passage| match passage {
            Passage::Shut => 0.0,
            Passage::Open { lag_s, .. } => lag_s,
        };
        lag(self.left_passage()) + lag(self.right_passage()) + self.filling.cold.lag_s()
    }

    /// Traps the air behind a valve that is shut tight, at its present pressure; otherwise releases
    /// it.
    pub(super) fn seal_shut_legs(&mut self) {
        let [left_m, right_m] = self.travels_m(self.travel_m);
        let ambient_pa = self.inputs.ambient_pa;
        let length_m = self.parameters.trapped_length_m;
        let left_pa = ambient_pa - self.inputs.suction_pa;
        let right_pa = ambient_pa + self.inputs.gust_pa;
        let (left, right) = (self.left_passage(), self.right_passage());
        let seal = |state: &mut LegState, passage, pressure_pa: f64, level_m| {
            state.trapped = match (passage, state.trapped) {
                (Passage::Shut, None) => {
                    Some(TrappedAir::new(pressure_pa.max(1000.0), length_m, level_m))
                }
                (Passage::Shut, kept) => kept,
                (Passage::Open { .. }, _) => None,
            };
        };
        seal(&mut self.left, left, left_pa, left_m);
        seal(&mut self.right, right, right_pa, right_m);
    }

    fn solve_column(&mut self) {
        let missing_m = 2.0 * self.filling.below_mark_m(&self.parameters);
        let length_m = (self.parameters.column_length_m - missing_m).max(0.2);
        let bore_mm = self.parameters.mean_bore_mm();
        let steps = viscosity_steps(&self.inputs);
        if !self.column.is_for(length_m, bore_mm, steps) {
            self.column = SolvedColumn::new(length_m, bore_mm, steps);
        }
    }

    fn upright_weight_pa_m(&self) -> f64 {
        2.0 * self.fluid_density_kg_m3() * STANDARD_GRAVITY
    }

    fn fluid_density_kg_m3(&self) -> f64 {
        let relative = self.filling.fluid.relative_density() * self.parameters.relative_density;
        self.inputs.water_density_kg_m3 * relative
    }

    /// Weight, biases and air: p_right - p_left + rho g (s sin(tilt) + c_left - c_right + bubble)
    /// = 2 rho g cos(tilt) x, with s the spacing of the legs and c their capillary rises.
    pub(super) fn load(&self) -> WaterLoad {
        let parameters = &self.parameters;
        let tilt = self.tilt_deg * math::PI / 180.0;
        let rise_mm = meniscus::capillary_rise_mm(parameters.left_bore_mm)
            - meniscus::capillary_rise_mm(parameters.right_bore_mm);
        let bias_m =
            1e-3 * (parameters.limb_spacing_mm * math::sin(tilt) + rise_mm + parameters.bubble_mm);
        let ambient_pa = self.inputs.ambient_pa;
        let air = |state: LegState, passage, outside_pa: f64| match (passage, state.trapped) {
            (Passage::Open { share, .. }, _) => LegAir::At(share * outside_pa),
            (Passage::Shut, Some(air)) => LegAir::Trapped(air, ambient_pa),
            (Passage::Shut, None) => LegAir::At(0.0),
        };
        let upright = self.upright_weight_pa_m();
        WaterLoad {
            weight_pa_m: upright * math::cos(tilt),
            bias_pa: 0.5 * upright * bias_m,
            shares: parameters.travel_shares(),
            air: [
                air(self.left, self.left_passage(), -self.inputs.suction_pa),
                air(self.right, self.right_passage(), self.inputs.gust_pa),
            ],
        }
    }

    fn travels_m(&self, travel_m: f64) -> [f64; 2] {
        let [left, right] = self.parameters.travel_shares();
        [left * travel_m, -right * travel_m]
    }

    fn on_scale(&self, travel_m: f64) -> [f64; 2] {
        let [left_m, right_m] = self.travels_m(travel_m);
        let down_in = self.filling.below_mark_m(&self.parameters) / M_PER_IN + self.scale_in;
        [left_m / M_PER_IN - down_in, right_m / M_PER_IN - down_in]
    }

    /// Mean travel at which the first meniscus reaches the end of the straight part of its leg.
    fn limit_m(&self) -> f64 {
        let [left, right] = self.parameters.travel_shares();
        let above_m = self.filling.below_mark_m(&self.parameters);
        (self.parameters.range_in * M_PER_IN + above_m) / left.max(right)
    }
}

/// The viscosity rounded to its grid, so that the swing is solved again only after a real change.
fn viscosity_steps(inputs: &ManometerInputs) -> f64 {
    (inputs.water_viscosity_m2_s / VISCOSITY_GRID_M2_S).round()
}
