//! The openings of the shelter, and what lies in them.
//!
//! The air enters under the eaves of the lid and leaves through a grill behind the exhaust orifice.
//! Both are wide enough not to matter, until a nest or packed snow lies in them.

use crate::digest::digest_fields;
use crate::rig::parts::{AirOpening, Stopper};

/// What lies in the openings of the shelter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shelter {
    inlet: Option<Stopper>,
    exhaust: Option<Stopper>,
    inlet_share: f64,
    exhaust_share: f64,
}

digest_fields!(Shelter { inlet, exhaust, inlet_share, exhaust_share });

impl Shelter {
    /// What lies in an opening.
    pub const fn stopper(&self, opening: AirOpening) -> Option<Stopper> {
        match opening {
            AirOpening::Inlet => self.inlet,
            AirOpening::Exhaust => self.exhaust,
        }
    }

    /// Something settles in the gap under the lid. `share` is its resistance, divided by that of a
    /// clean filter.
    pub const fn stop_inlet(&mut self, by: Stopper, share: f64) {
        self.inlet = Some(by);
        self.inlet_share = share;
    }

    /// Something settles in the exhaust grill. `share` is the part of the exhaust's area that it
    /// takes.
    pub const fn stop_exhaust(&mut self, by: Stopper, share: f64) {
        self.exhaust = Some(by);
        self.exhaust_share = share;
    }

    /// Takes out whatever lies in an opening.
    pub const fn clear(&mut self, opening: AirOpening) {
        match opening {
            AirOpening::Inlet => self.inlet = None,
            AirOpening::Exhaust => self.exhaust = None,
        }
    }

    /// Resistance of what lies in the gap under the lid, divided by that of a clean filter. Twigs and
    /// snow are porous: as in a filter, the pressure drop is proportional to the flow (Darcy's law).
    pub const fn inlet_share(&self) -> f64 {
        if self.inlet.is_some() { self.inlet_share } else { 0.0 }
    }

    /// Area of orifice and grill in series, divided by that of the orifice alone.
    pub const fn exhaust_open(&self) -> f64 {
        if self.exhaust.is_some() { (1.0 - self.exhaust_share).max(0.05) } else { 1.0 }
    }
}
