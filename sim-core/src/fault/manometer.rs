//! Faults of the manometer and its valves.

use super::declared::{Declared, Site};
use super::remedy::{PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;
use crate::rig::manometer::ScaleSlide;
use crate::rig::parts::Leg;

/// A valve that cannot be mended on the roof.
const VALVE: Sheet = Sheet { right: &[Rejected], ..Sheet::of(FaultPlace::Manometer) };

/// What a valve that hardly opens, or not at all, is found by.
const BREATH: &str = "Blow gently into the tubing: in a sound manometer the water dips by more than an \
                      inch at once.";

pub(super) struct ManometerValveLeaks {
    pub(super) leg: Leg,
    pub(super) ratio: f64,
}

impl Declared for ManometerValveLeaks {
    const USUAL: Self = Self { leg: Leg::Left, ratio: 0.2 };
    const SHEET: Sheet = Sheet {
        title: "a leaking manometer valve",
        in_short: "a valve leaks past its plug: area of the leak over that of the open valve; \
                   the leg reads 1/(1 + ratio²) of the pressure; `leg` is `left` (tubing) or \
                   `right`",
        cause: "The plug of a valve no longer seals against its seat, and air leaks in beside it.",
        sign: "Every column is short by the same percentage. The points still lie on a line, and only \
               its distance from the last line gives the leak away. On the leg that is open to the air \
               it changes no reading.",
        check: "Close the left valve while the blower holds the column up: behind a tight valve the \
                column stays for minutes, beside a leak it sinks within seconds.",
        ..VALVE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("ratio", self.ratio, 0.02..=1.0, "")
    }

    fn at(&self) -> Option<String> {
        Some(format!("{:?}", self.leg))
    }

    fn begin(&self, site: &mut Site<'_>) {
        let parameters = &mut site.rig.manometer.parameters;
        match self.leg {
            Leg::Left => parameters.left_leak_ratio = self.ratio,
            Leg::Right => parameters.right_leak_ratio = self.ratio,
        }
    }
}

pub(super) struct ManometerValveBarelyOpens {
    pub(super) leg: Leg,
    pub(super) passes: f64,
}

impl Declared for ManometerValveBarelyOpens {
    const USUAL: Self = Self { leg: Leg::Left, passes: 0.02 };
    const SHEET: Sheet = Sheet {
        title: "a manometer valve that hardly opens",
        in_short: "the stem turns, but the plug hardly lifts: its largest area over that of the \
                   open valve; the column creeps",
        cause: "The stem turns, but the plug sticks to its seat and lifts only by a hair.",
        sign: "Blowing into the tubing hardly moves the water, and after every change of flow the column \
               creeps for a minute or more. Left alone for long enough it reads right.",
        check: BREATH,
        contradicts: &["ManometerValveShut"],
        ..VALVE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("passes", self.passes, 0.005..=0.2, "")
    }

    fn at(&self) -> Option<String> {
        Some(format!("{:?}", self.leg))
    }

    fn begin(&self, site: &mut Site<'_>) {
        *valve_passes(site, self.leg) = self.passes;
    }
}

pub(super) struct ManometerValveShut {
    pub(super) leg: Leg,
}

impl Declared for ManometerValveShut {
    const USUAL: Self = Self { leg: Leg::Left };
    const SHEET: Sheet = Sheet {
        title: "a manometer valve that stays closed",
        in_short: "the stem turns, but the plug stays on its seat",
        cause: "The stem has broken off its plug: it turns, and the plug stays on its seat.",
        sign: "Blowing into the tubing does not move the water, or only makes it twitch where the far \
               leg is the closed one; the column does not follow the knob.",
        check: BREATH,
        ..VALVE
    };

    fn at(&self) -> Option<String> {
        Some(format!("{:?}", self.leg))
    }

    fn begin(&self, site: &mut Site<'_>) {
        *valve_passes(site, self.leg) = 0.0;
    }
}

/// What a valve passes at most, over its open area.
fn valve_passes<'a>(site: &'a mut Site<'_>, leg: Leg) -> &'a mut f64 {
    let [left, right] = &mut site.rig.manometer.parameters.valve_passes;
    match leg {
        Leg::Left => left,
        Leg::Right => right,
    }
}

pub(super) struct ManometerBubble {
    pub(super) length_mm: f64,
}

impl Declared for ManometerBubble {
    const USUAL: Self = Self { length_mm: 5.0 };
    const SHEET: Sheet = Sheet {
        title: "a bubble in the manometer",
        right: &[Rejected, Corrected],
        in_short: "a bubble in the bend lengthens the column on one side by its length",
        cause: "Air was shaken into the bend and lengthens the column on the left side.",
        sign: "There is a bubble in the bend. With both ends open the left leg stands higher by its \
               length, and the water is sluggish.",
        check: "Look at the bend, and at both legs at rest with both ends open to the air.",
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("length_mm", self.length_mm, 0.5..=20.0, "mm")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.parameters.bubble_mm = self.length_mm;
    }
}

pub(super) struct ManometerOutOfPlumb {
    pub(super) tilt_deg: f64,
}

impl Declared for ManometerOutOfPlumb {
    const USUAL: Self = Self { tilt_deg: 5.0 };
    const SHEET: Sheet = Sheet {
        title: "a manometer out of plumb",
        right: &[Repaired],
        in_short: "the hook is bent: the manometer hangs at this angle until it is swung upright",
        cause: "The hook is bent, so the manometer does not hang straight.",
        sign: "It is off the plumb line, and with both ends open its legs are not level.",
        check: "Compare it with the plumb line, and swing it upright.",
        put_right: PutRight::ManometerPlumb,
        remedy: Remedy::PlumbManometer,
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("tilt_deg", self.tilt_deg, 1.0..=15.0, "degrees")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.hook_tilt_deg = self.tilt_deg;
    }
}

pub(super) struct ManometerWrongFluid {
    pub(super) relative_density: f64,
}

impl Declared for ManometerWrongFluid {
    const USUAL: Self = Self { relative_density: 0.83 };
    const SHEET: Sheet = Sheet {
        cause_shows: false,
        arises: Arises::FromTheStart,
        title: "the wrong fluid in the manometer",
        right: &[Rejected, Corrected],
        in_short: "the fluid is not water: its density over that of water",
        cause: "The manometer was filled with something other than water, such as a light gauge oil.",
        sign: "Every column is longer (with a light fluid) or shorter (with a heavy one) by the same \
               percentage. The points still lie on a line, which is far from the last one.",
        check: "Compare the line with the last one, and the flow fully open with what such a blower \
                usually draws: the manometer is further off than the recorder.",
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("relative_density", self.relative_density, 0.75..=1.1, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.parameters.relative_density = self.relative_density;
    }
}

pub(super) struct ManometerScaleStuck;

impl Declared for ManometerScaleStuck {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "a stuck scale",
        right: &[Corrected, Rejected, Noted],
        in_short: "the scale does not slide",
        cause: "Dirt or a bent rail holds the scale where it was left.",
        sign: "The scale does not slide to the menisci: one leg reads high by as much as the other \
               reads low.",
        check: "Try to slide it. The sum of both legs is right all the same.",
        remedy: Remedy::ZeroManometer,
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.parameters.scale = ScaleSlide::Stuck;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.manometer.parameters.scale = ScaleSlide::Free;
    }
}

pub(super) struct ManometerUnequalBores {
    pub(super) wider_mm: f64,
}

impl Declared for ManometerUnequalBores {
    const USUAL: Self = Self { wider_mm: 0.5 };
    const SHEET: Sheet = Sheet {
        arises: Arises::FromTheStart,
        title: "legs of unequal bore",
        right: &[Corrected, Rejected, Noted],
        in_short: "the left leg has the wider bore: difference of the bores",
        cause: "One leg was replaced with glass of a different bore; the left one is wider.",
        sign: "One leg rises less than the other falls.",
        check: "Compare rise and fall at the highest flow. Their sum is right all the same.",
        ..Sheet::of(FaultPlace::Manometer)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("wider_mm", self.wider_mm, 0.2..=2.0, "mm")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.parameters.left_bore_mm += self.wider_mm;
    }
}
