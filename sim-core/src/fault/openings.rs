//! Nests and snow in the openings of the shelter.

use super::declared::{Declared, Site};
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::{Noted, Repaired};
use super::sheet::Sheet;
use super::size::Size;
use crate::rig::parts::Stopper;

/// Something that is cleared away on the roof.
const CLEARABLE: Sheet = Sheet { right: &[Repaired], ..Sheet::of(FaultPlace::Blower) };

pub(super) struct ExhaustBlocked {
    pub(super) by: Stopper,
    pub(super) area_pct: f64,
}

impl Declared for ExhaustBlocked {
    const USUAL: Self = Self { by: Stopper::Nest, area_pct: 25.0 };
    const SHEET: Sheet = Sheet {
        title: "a nest or snow in the exhaust",
        in_short: "a nest or packed snow in the exhaust grill: part of the exhaust's area that it takes",
        cause: "Wasps or birds have built in the grill behind the exhaust orifice while the sampler \
                stood still, or the wind has packed snow into it.",
        sign: "It is seen in the grill. Until it is cleared, the pen is high by the same percentage at \
               every flow, and the flow is lower.",
        check: "Walk around the shelter and look into the exhaust before the blower is started.",
        put_right: PutRight::ExhaustCleared,
        ..CLEARABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("area_pct", self.area_pct, 5.0..=60.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.stop_exhaust(self.by, self.area_pct / 100.0);
    }
}

pub(super) struct InletBlocked {
    pub(super) by: Stopper,
    pub(super) pct: f64,
}

impl Declared for InletBlocked {
    const USUAL: Self = Self { by: Stopper::Nest, pct: 60.0 };
    const SHEET: Sheet = Sheet {
        title: "a nest or snow in the inlet",
        right: &[Repaired, Noted],
        in_short: "a nest or packed snow under the eaves of the lid: its resistance over that of a \
                   clean filter",
        cause: "Wasps or birds have built in the gap under the lid, or the wind has packed snow into it: \
                with the lid closed the blower draws the air through it as through a second filter.",
        sign: "It is seen under the eaves when the lid is opened. With the lid closed the controller \
               needs more voltage for the same flow, or cannot hold it; under the calibrator, with the \
               lid open, nothing shows.",
        check: "Look along the eaves on all four sides when you open the lid.",
        put_right: PutRight::InletCleared,
        ..CLEARABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("pct", self.pct, 5.0..=200.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.shelter.stop_inlet(self.by, self.pct / 100.0);
    }
}
