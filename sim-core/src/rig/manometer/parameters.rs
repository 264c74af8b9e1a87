//! The dimensions of the manometer, and what can be wrong with it.

use crate::digest::{digest_fields, digest_names};
use crate::rig::parts::GaugeFluid;

/// Whether the manometer's scale can be moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum ScaleSlide {
    /// It moves, and stays where it is left.
    #[default]
    Free,
    /// It is stuck.
    Stuck,
}

/// The manometer's dimensions and faults. The defaults are the bench's own design (CHOSEN).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ManometerParameters {
    /// Length of the wetted column, m.
    pub column_length_m: f64,
    /// Bore of the left leg, mm.
    pub left_bore_mm: f64,
    /// Bore of the right leg, mm.
    pub right_bore_mm: f64,
    /// Distance between the axes of the legs, mm.
    pub limb_spacing_mm: f64,
    /// Volume trapped above a leg when its valve is shut, divided by the area of its bore, m.
    pub trapped_length_m: f64,
    /// Travel of a meniscus each way, in: the scale ends there.
    pub range_in: f64,
    /// Where the scale was left when the manometer was last carried, in, positive up.
    pub initial_scale_in: f64,
    /// Opening of the left and right valve when it arrives, quarter turns.
    pub initial_valve_quarters: [u8; 2],
    /// What it is filled with when it arrives.
    pub initial_fluid: GaugeFluid,
    /// Density of the fluid divided by what its label says: 1 if it is what it should be. Its
    /// kinematic viscosity is taken as water's.
    pub relative_density: f64,
    /// Length of a bubble in the left half of the bend, mm: the left leg stands higher by it.
    pub bubble_mm: f64,
    /// Leak of the left valve: its area divided by that of the open valve.
    pub left_leak_ratio: f64,
    /// Leak of the right valve: its area divided by that of the open valve.
    pub right_leak_ratio: f64,
    /// Greatest area that the plugs of the left and the right valve open, divided by that of a
    /// fully open valve: 1 if they follow their stems.
    pub valve_passes: [f64; 2],
    /// Whether the scale can be moved.
    pub scale: ScaleSlide,
}

digest_names!(ScaleSlide);

digest_fields!(ManometerParameters {
    column_length_m,
    left_bore_mm,
    right_bore_mm,
    limb_spacing_mm,
    trapped_length_m,
    range_in,
    initial_scale_in,
    initial_valve_quarters,
    initial_fluid,
    relative_density,
    bubble_mm,
    left_leak_ratio,
    right_leak_ratio,
    valve_passes,
    scale
});

impl Default for ManometerParameters {
    fn default() -> Self {
        Self {
            column_length_m: 1.35,
            left_bore_mm: 6.5,
            right_bore_mm: 6.5,
            limb_spacing_mm: 50.0,
            trapped_length_m: 0.1,
            range_in: 8.0,
            initial_scale_in: 0.35,
            initial_valve_quarters: [0, 0],
            initial_fluid: GaugeFluid::Water,
            relative_density: 1.0,
            bubble_mm: 0.0,
            left_leak_ratio: 0.0,
            right_leak_ratio: 0.0,
            valve_passes: [1.0, 1.0],
            scale: ScaleSlide::Free,
        }
    }
}

impl ManometerParameters {
    /// The same parameters with every value limited to the range of the model; a value that is not
    /// finite is replaced by the default.
    #[must_use]
    pub fn sane(self) -> Self {
        let usual = Self::default();
        let sane = |value: f64, low: f64, high: f64, otherwise: f64| {
            if value.is_finite() { value.clamp(low, high) } else { otherwise }
        };
        Self {
            column_length_m: sane(self.column_length_m, 0.2, 5.0, usual.column_length_m),
            left_bore_mm: sane(self.left_bore_mm, 4.0, 15.0, usual.left_bore_mm),
            right_bore_mm: sane(self.right_bore_mm, 4.0, 15.0, usual.right_bore_mm),
            limb_spacing_mm: sane(self.limb_spacing_mm, 0.0, 200.0, usual.limb_spacing_mm),
            trapped_length_m: sane(self.trapped_length_m, 0.005, 10.0, usual.trapped_length_m),
            range_in: sane(self.range_in, 0.5, 40.0, usual.range_in),
            initial_scale_in: sane(self.initial_scale_in, -2.0, 2.0, usual.initial_scale_in),
            relative_density: sane(self.relative_density, 0.5, 2.0, usual.relative_density),
            bubble_mm: sane(self.bubble_mm, 0.0, 50.0, usual.bubble_mm),
            left_leak_ratio: sane(self.left_leak_ratio, 0.0, 10.0, usual.left_leak_ratio),
            right_leak_ratio: sane(self.right_leak_ratio, 0.0, 10.0, usual.right_leak_ratio),
            valve_passes: self.valve_passes.map(|passes| sane(passes, 0.0, 1.0, 1.0)),
            ..self
        }
    }

    /// Mean of the two bores, mm: the column swings as in a tube of this bore.
    pub fn mean_bore_mm(&self) -> f64 {
        0.5 * (self.left_bore_mm + self.right_bore_mm)
    }

    /// Travel of the left and the right meniscus divided by their mean: the one in the wider leg
    /// moves less, 2 A_other/(A_left + A_right). They add up to two, so that rise plus fall is the
    /// whole column.
    pub fn travel_shares(&self) -> [f64; 2] {
        let left = self.left_bore_mm * self.left_bore_mm;
        let right = self.right_bore_mm * self.right_bore_mm;
        [2.0 * right / (left + right), 2.0 * left / (left + right)]
    }

    /// Decay rate that a bubble's two menisci add as they drag along the glass, 1/s: 0.1 per
    /// millimetre (CHOSEN), so that a long bubble makes the water sluggish.
    pub fn bubble_decay_1_s(&self) -> f64 {
        0.1 * self.bubble_mm
    }
}
