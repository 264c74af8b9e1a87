//! Faults of the blower and its supply. None of them spoils a calibration that is read at rest:
//! manometer and recorder see the same flow. A power cut belongs to the run.

use super::declared::{Declared, Site};
use super::onset::Onset;
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;

/// A fault that changes how much the blower draws.
const WEAK: Sheet = Sheet {
    arises: Arises::ComesAndGoes,
    right: &[Noted, Rejected],
    ..Sheet::of(FaultPlace::Blower)
};

pub(super) struct WornBrushes {
    pub(super) added_ohm: f64,
}

impl Declared for WornBrushes {
    const USUAL: Self = Self { added_ohm: 1.0 };
    const SHEET: Sheet = Sheet {
        alike: &["WanderingVoltage"],
        title: "worn brushes",
        right: &[Noted, Rejected, Repaired],
        put_right: PutRight::BrushesChanged,
        in_short: "the motor's brushes are worn: resistance added to the motor",
        cause: "Short brushes press less firmly on the commutator, which adds resistance.",
        sign: "The blower's sound wavers and its pitch is low; fully open, the flow is low.",
        check: "Listen, and compare the flow fully open with what such a blower usually draws.",
        ..WEAK
    };

    fn size(&self) -> Option<Size> {
        Size::positive("added_ohm", self.added_ohm, 0.3..=3.0, "ohm")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.blower.motor.brush_ohm_added = self.added_ohm;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.parameters.blower.motor.brush_ohm_added = 0.0;
    }
}

pub(super) struct WanderingVoltage {
    pub(super) sd_v: f64,
}

impl Declared for WanderingVoltage {
    const USUAL: Self = Self { sd_v: 2.0 };
    const SHEET: Sheet = Sheet {
        alike: &["WornBrushes"],
        title: "wandering mains voltage",
        in_short: "the mains voltage wanders, as on a generator: standard deviation",
        cause: "The outlet is fed by a generator, or shares its circuit with a large load that \
                switches on and off.",
        sign: "The blower's sound wavers; pen and column move together and do not come to rest.",
        check: "Watch the pen for two minutes without touching anything.",
        ..WEAK
    };

    fn size(&self) -> Option<Size> {
        Size::positive("sd_v", self.sd_v, 0.5..=8.0, "V")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.station.set_mains_wander(site.seed, self.sd_v);
    }

    fn end(&self, site: &mut Site<'_>) {
        site.station.calm_mains();
    }
}

pub(super) struct LowVoltage {
    pub(super) by_v: f64,
}

impl Declared for LowVoltage {
    const USUAL: Self = Self { by_v: 15.0 };
    const SHEET: Sheet = Sheet {
        title: "low mains voltage",
        in_short: "the mains voltage is low by this much",
        cause: "The extension cord is long and thin, or the supply is weak.",
        sign: "The pitch is low, and fully open the flow is lower than such a blower usually draws.",
        check: "See whether manometer and recorder agree that the flow is low: if they do, it is the \
                blower or its supply.",
        ..WEAK
    };

    fn size(&self) -> Option<Size> {
        Size::positive("by_v", self.by_v, 3.0..=30.0, "V")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.station.lower_mains(self.by_v);
    }

    fn end(&self, site: &mut Site<'_>) {
        site.station.lower_mains(0.0);
    }
}

pub(super) struct BearingDrag {
    pub(super) factor: f64,
}

impl Declared for BearingDrag {
    const USUAL: Self = Self { factor: 2.0 };
    const SHEET: Sheet = Sheet {
        title: "dragging bearings",
        in_short: "the blower's bearings drag: friction over the usual friction",
        cause: "The bearings have lost their grease, and friction takes up part of the torque.",
        sign: "After it is switched off, the rotor stops sooner than usual; while it runs, its pitch \
               is a little low.",
        check: "Time the rotor from switching off until it stops.",
        ..WEAK
    };

    fn size(&self) -> Option<Size> {
        Size::positive("factor", self.factor, 1.2..=4.0, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.blower.motor.friction_factor = self.factor;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.parameters.blower.motor.friction_factor = 1.0;
    }
}

pub(super) struct PowerCut {
    pub(super) minutes: f64,
}

impl Declared for PowerCut {
    const USUAL: Self = Self { minutes: 45.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::DuringRun,
        title: "a power cut",
        right: &[Noted, Corrected, Rejected],
        in_short: "the power fails during the run for this long: the trace falls to zero, and \
                   afterwards the dial is behind the watch",
        cause: "The supply fails while nobody is there, and comes back by itself.",
        sign: "The trace falls to zero and rises again. The timer's dial stood still meanwhile, so it \
               is behind the watch, and the run ends later by the same time.",
        check: "Compare the dial with the watch when you return, and look for a gap in the trace.",
        begins: Onset::AfterRunHours(7.0),
        ..Sheet::of(FaultPlace::Blower)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("minutes", self.minutes, 5.0..=600.0, "min")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.station.cut_power(self.minutes);
    }
}

pub(super) struct BrushesNotRunIn {
    pub(super) added_ohm: f64,
}

impl Declared for BrushesNotRunIn {
    const USUAL: Self = Self { added_ohm: 1.2 };
    const SHEET: Sheet = Sheet {
        arises: Arises::FromTheStart,
        alike: &["WornBrushes", "WanderingVoltage"],
        title: "new brushes that are not run in",
        right: &[Noted, Rejected, Repaired],
        in_short: "the motor's brushes are new and not run in: resistance added to the motor at first, \
                   which decays over the first hours of running",
        cause: "The square ends of new brushes touch the round commutator in a line only, until they \
                have worn to its shape.",
        sign: "The blower's sound wavers, and at the same opening the flow creeps up from one reading to \
               the next.",
        check: "Listen, and ask when the brushes were changed. Let the blower run for an hour at reduced \
                voltage, on the controller with the trim screw at its lower stop, before the first point.",
        ..WEAK
    };

    fn size(&self) -> Option<Size> {
        Size::positive("added_ohm", self.added_ohm, 0.5..=3.0, "ohm")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.blower.motor.bedding_ohm = self.added_ohm;
    }
}
