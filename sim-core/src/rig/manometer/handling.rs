//! How the manometer is handled: valves, scale, hook, and blowing into the tubing.

use super::blow_response::BlowResponse;
use super::cold::IceLook;
use super::parameters::ScaleSlide;
use super::valve::{self, Passage};
use super::{Manometer, ManometerInputs};
use crate::rig::parts::{GaugeFluid, Leg};

/// How far the scale moves each way, in (CHOSEN).
const SCALE_TRAVEL_IN: f64 = 2.0;
/// How far the manometer swings on its hook each way, degrees (CHOSEN).
const SWING_TRAVEL_DEG: f64 = 20.0;
/// Speed that a gentle puff gives to unobstructed water, m/s: 1.7 in of travel each way (CHOSEN).
const PUFF_SPEED_M_S: f64 = 0.15;

impl Manometer {
    /// Opening of a leg's valve, quarter turns.
    pub const fn valve_quarters(&self, leg: Leg) -> u8 {
        match leg {
            Leg::Left => self.left.quarters,
            Leg::Right => self.right.quarters,
        }
    }

    /// Turns a leg's valve by quarter turns, positive opens, between shut and four quarter turns.
    pub fn turn_valve(&mut self, leg: Leg, quarter_turns: i8) {
        let state = match leg {
            Leg::Left => &mut self.left,
            Leg::Right => &mut self.right,
        };
        state.quarters = state.quarters.saturating_add_signed(quarter_turns).min(valve::FULLY_OPEN);
        self.seal_shut_legs();
    }

    /// How far the scale was moved, inches, positive up. Readings fall by this amount.
    pub const fn scale_in(&self) -> f64 {
        self.scale_in
    }

    /// Moves the scale, inches, positive up, as far as it goes. A stuck scale does not move.
    pub fn slide_scale(&mut self, by_in: f64) {
        if by_in.is_finite() && self.parameters.scale == ScaleSlide::Free {
            self.scale_in = (self.scale_in + by_in).clamp(-SCALE_TRAVEL_IN, SCALE_TRAVEL_IN);
        }
    }

    /// Tilt from plumb in its plane, degrees, positive if the left leg hangs lower.
    pub const fn tilt_deg(&self) -> f64 {
        self.tilt_deg
    }

    /// Swings the hanging manometer in its plane by this many degrees.
    pub fn swing(&mut self, by_deg: f64) {
        if self.hung && by_deg.is_finite() {
            self.tilt_deg = (self.tilt_deg + by_deg).clamp(-SWING_TRAVEL_DEG, SWING_TRAVEL_DEG);
        }
    }

    /// Hangs it on its hook, at a tilt of `tilt_deg`. The water starts level with its zero.
    pub fn hang(&mut self, tilt_deg: f64) {
        self.settle_level();
        self.hung = true;
        self.tilt_deg = if tilt_deg.is_finite() {
            tilt_deg.clamp(-SWING_TRAVEL_DEG, SWING_TRAVEL_DEG)
        } else {
            0.0
        };
    }

    /// Takes it off its hook. While it is carried or in its case, it cannot be read. (Water spilled
    /// through open valves is a matter for the procedure rules.)
    pub fn carry(&mut self) {
        self.settle_level();
        self.hung = false;
        self.tilt_deg = 0.0;
    }

    /// Whether it hangs on its hook and can be read.
    pub const fn is_hung(&self) -> bool {
        self.hung
    }

    /// Whether a bubble is visible in the bend.
    pub fn has_bubble(&self) -> bool {
        self.parameters.bubble_mm > 0.0
    }

    /// Blows gently into the free end of the tubing, which passes the fraction `share` (0 to 1):
    /// the left leg is pushed down and swings back.
    pub fn blow(&mut self, share: f64) -> BlowResponse {
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        let Passage::Open { share: through, .. } = self.left_passage() else {
            return BlowResponse::Nothing;
        };
        let puff = PUFF_SPEED_M_S * share * through;
        if !self.hung || puff < 1e-6 || self.filling.cold.is_stuck() {
            return BlowResponse::Nothing;
        }
        let load = self.load();
        let stiffness = load.stiffness_pa_m(self.travel_m) / load.weight_pa_m;
        // The same pressure moves a stiffer column less: the amplitude, speed/n, varies as
        // 1/stiffness.
        self.speed_m_s -= puff / stiffness.max(1.0).sqrt();
        if self.right_passage() == Passage::Shut {
            BlowResponse::Twitch
        } else if self.lag_s() > 0.5 || share * through < 0.3 {
            BlowResponse::Sluggishly
        } else {
            BlowResponse::Freely
        }
    }

    /// Adds fluid to both legs from the bottle in the case, mm of level; negative takes some out.
    pub fn add_fluid(&mut self, by_mm: f64) {
        self.filling.add(by_mm, &self.parameters);
    }

    /// Empties it, and fills it anew with this fluid: it is then what its label says, clean, liquid,
    /// and filled by hand to about the mark.
    pub fn change_fluid(&mut self, fluid: GaugeFluid) {
        self.parameters.relative_density = 1.0;
        self.filling.change(fluid, &self.parameters);
        self.settle_level();
    }

    /// Takes fluid out, mm of level.
    pub fn lose_fluid(&mut self, by_mm: f64) {
        self.filling.add(-by_mm, &self.parameters);
    }

    /// Lets dirt in, which holds each meniscus back by up to this much, mm.
    pub const fn soil(&mut self, by_mm: f64) {
        self.filling.clings_m = if by_mm.is_finite() { by_mm.max(0.0) * 1e-3 } else { 0.0 };
    }

    /// Freezes it through, if what is in it freezes.
    pub const fn freeze_through(&mut self) {
        if self.filling.fluid.freezes() {
            self.filling.cold.freeze_through();
        }
    }

    /// Keeps everything in the legs, whatever stands on them: for sessions that are replayed with a
    /// slip undone.
    pub(crate) const fn keep_fluid(&mut self) {
        self.filling.kept = true;
    }

    /// What it is filled with, by its label.
    pub const fn fluid(&self) -> GaugeFluid {
        self.filling.fluid
    }

    /// How far its level is below the fill mark, mm; both legs alike, at rest.
    pub fn below_mark_mm(&self) -> f64 {
        1e3 * self.filling.below_mark_m(&self.parameters)
    }

    /// What is missing from its legs, m3; negative if they are filled above the mark.
    pub const fn missing_m3(&self) -> f64 {
        self.filling.missing_m3
    }

    /// Share of its water that is ice, 0 to 1.
    pub const fn ice(&self) -> f64 {
        self.filling.cold.ice()
    }

    /// Whether it is frozen through, so that nothing moves.
    pub fn is_frozen_through(&self) -> bool {
        self.filling.cold.is_stuck()
    }

    /// What its ice looks like.
    pub fn ice_look(&self) -> IceLook {
        self.filling.cold.look()
    }

    /// Whether dirt is seen in it.
    pub fn is_dirty(&self) -> bool {
        self.filling.clings_m > 0.0
    }

    fn settle_level(&mut self) {
        if self.filling.cold.is_stuck() {
            // Ice stays where it is in the legs.
            self.seal_shut_legs();
            return;
        }
        self.travel_m = 0.0;
        self.shown_m = 0.0;
        self.speed_m_s = 0.0;
        self.rest_m = 0.0;
        self.left.trapped = None;
        self.right.trapped = None;
        self.inputs = ManometerInputs { suction_pa: 0.0, gust_pa: 0.0, ..self.inputs };
        self.seal_shut_legs();
    }
}
