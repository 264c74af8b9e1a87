//! Lid, nuts, washers and gaskets, and the places of the parts that are carried by hand.

use crate::digest::digest_fields;
use crate::rig::parts::WasherSeat;
use crate::rig::parts::{Gasket, Nut, PartPlace, RigPart};

/// Quarter turns at which a nut is hand-tight (CHOSEN).
pub const SNUG_QUARTERS: u8 = 6;

/// Quarter turns at which a nut is so tight that it cannot be turned further by hand (CHOSEN).
pub const HARD_QUARTERS: u8 = 10;

/// Effective leak area at a nut that is off, mm2; it closes in proportion until the nut is
/// hand-tight (CHOSEN: four loose nuts leak about as much as two missing gaskets).
pub const LOOSE_NUT_LEAK_MM2: f64 = 12.0;

/// Effective leak area of a washer on the wrong side of the plate, mm2 (CHOSEN).
pub const WASHER_BELOW_LEAK_MM2: f64 = 8.0;

/// The leaks that missing gaskets and misplaced washers cause.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MountingParameters {
    /// Effective leak area without the gasket on the holder, mm2.
    pub holder_gasket_leak_mm2: f64,
    /// Effective leak area without the gasket under the calibrator, mm2.
    pub calibrator_gasket_leak_mm2: f64,
    /// Effective leak area of each washer on the wrong side of the plate, mm2.
    pub washer_below_leak_mm2: f64,
}

digest_fields!(MountingParameters {
    holder_gasket_leak_mm2,
    calibrator_gasket_leak_mm2,
    washer_below_leak_mm2
});

impl Default for MountingParameters {
    /// Both CHOSEN: 20 mm2 under the calibrator is the leak of the reference tables.
    fn default() -> Self {
        Self {
            holder_gasket_leak_mm2: 20.0,
            calibrator_gasket_leak_mm2: 20.0,
            washer_below_leak_mm2: WASHER_BELOW_LEAK_MM2,
        }
    }
}

/// The mounting: where the parts are, and how tight.
#[derive(Debug, Clone, PartialEq)]
pub struct Mounting {
    /// Its parameters.
    pub parameters: MountingParameters,
    /// Whether the lid is open.
    pub lid_open: bool,
    /// Quarter turns of each nut; 0 means off, with its bolt swung aside.
    pub nuts: [u8; 4],
    /// Where each washer is.
    pub washers: [WasherSeat; 4],
    /// Where each part is, in the order of [`RigPart::ALL`].
    pub places: [PartPlace; 5],
    /// Whether the gasket on the holder is fitted.
    pub holder_gasket: bool,
    /// Whether the gasket under the calibrator is fitted.
    pub calibrator_gasket: bool,
    /// Leak of a warped adapter plate, mm2, while it is on the holder.
    pub warped_leak_mm2: f64,
    /// A nut that leaks although it looks tight, with the leak in mm2, until it is turned.
    pub working_loose: Option<(Nut, f64)>,
    /// A gasket that has gone flat and hard, with the leak in mm2 that no nut closes.
    pub flattened: Option<(Gasket, f64)>,
    /// Whether everything that careful work would make tight counts as tight, whatever the state of
    /// nuts, washers and gaskets: set only when a session is replayed to find what its leaks cost.
    pub(crate) held_tight: bool,
}

digest_fields!(Mounting {
    parameters,
    lid_open,
    nuts,
    washers,
    places,
    holder_gasket,
    calibrator_gasket,
    warped_leak_mm2,
    working_loose,
    flattened,
    held_tight
});

impl Mounting {
    /// The station as the trainee finds it: shelter closed, filter clamped under the hold-down
    /// frame, calibrator, adapter plate and manometer in their case.
    pub fn as_found(parameters: MountingParameters) -> Self {
        Self {
            parameters,
            lid_open: false,
            nuts: [8; 4],
            washers: [WasherSeat::Above; 4],
            places: [
                PartPlace::Holder,
                PartPlace::Holder,
                PartPlace::Case,
                PartPlace::Case,
                PartPlace::Case,
            ],
            holder_gasket: true,
            calibrator_gasket: true,
            warped_leak_mm2: 0.0,
            working_loose: None,
            flattened: None,
            held_tight: false,
        }
    }

    /// Where a part is.
    pub fn place(&self, part: RigPart) -> PartPlace {
        match self.places {
            [frame, filter, adapter, calibrator, manometer] => match part {
                RigPart::Frame => frame,
                RigPart::Filter => filter,
                RigPart::Adapter => adapter,
                RigPart::Calibrator => calibrator,
                RigPart::Manometer => manometer,
            },
        }
    }

    /// Puts a part somewhere.
    pub fn set_place(&mut self, part: RigPart, place: PartPlace) {
        let [frame, filter, adapter, calibrator, manometer] = &mut self.places;
        *match part {
            RigPart::Frame => frame,
            RigPart::Filter => filter,
            RigPart::Adapter => adapter,
            RigPart::Calibrator => calibrator,
            RigPart::Manometer => manometer,
        } = place;
    }

    /// The part in the hand.
    pub fn hand(&self) -> Option<RigPart> {
        RigPart::ALL.into_iter().find(|&part| self.place(part) == PartPlace::Hand)
    }

    /// Whether the calibrator is on the adapter plate and the plate on the holder.
    pub fn calibrator_mounted(&self) -> bool {
        self.place(RigPart::Calibrator) == PartPlace::Adapter
            && self.place(RigPart::Adapter) == PartPlace::Holder
    }

    /// Whether a filter is on the holder.
    pub fn filter_fitted(&self) -> bool {
        self.place(RigPart::Filter) == PartPlace::Holder
    }

    /// Whether the nuts clamp something on the holder.
    pub fn clamped(&self) -> bool {
        self.place(RigPart::Frame) == PartPlace::Holder
            || self.place(RigPart::Adapter) == PartPlace::Holder
    }

    /// Quarter turns of a nut.
    pub fn nut(&self, nut: Nut) -> u8 {
        self.nuts.get(nut.index()).copied().unwrap_or(0)
    }

    /// Where a nut's washer is.
    pub fn washer(&self, nut: Nut) -> WasherSeat {
        self.washers.get(nut.index()).copied().unwrap_or(WasherSeat::Above)
    }

    /// Effective leak area at one nut, mm2.
    pub fn nut_leak_mm2(&self, nut: Nut) -> f64 {
        let turns = self.nut(nut);
        let loose = f64::from(SNUG_QUARTERS.saturating_sub(turns)) / f64::from(SNUG_QUARTERS);
        let working = self.working_loose.filter(|&(which, _)| which == nut).map_or(0.0, |w| w.1);
        loose * LOOSE_NUT_LEAK_MM2 + working
    }

    /// Effective leak area along the edge of hold-down frame or plate, without the nuts, mm2.
    pub fn edge_leak_mm2(&self) -> f64 {
        let gasket = if self.holder_gasket { 0.0 } else { self.parameters.holder_gasket_leak_mm2 };
        let below = self.washers.iter().filter(|&&seat| seat == WasherSeat::Below).count();
        let flat = self.flat_leak_mm2(Gasket::Holder);
        gasket + flat + self.plate_leak_mm2() + below as f64 * self.parameters.washer_below_leak_mm2
    }

    /// Effective leak area of a warped adapter plate on the holder, which no nut closes, mm2.
    fn plate_leak_mm2(&self) -> f64 {
        if self.place(RigPart::Adapter) == PartPlace::Holder { self.warped_leak_mm2 } else { 0.0 }
    }

    /// Effective leak area past a gasket that is there, but flat and hard, mm2.
    fn flat_leak_mm2(&self, which: Gasket) -> f64 {
        let there = match which {
            Gasket::Holder => self.holder_gasket,
            Gasket::Calibrator => self.calibrator_gasket,
        };
        let flat = self.flattened.filter(|&(gasket, _)| gasket == which && there);
        flat.map_or(0.0, |(_, leak_mm2)| leak_mm2)
    }

    /// Effective leak area between the adapter plate and the calibrator, mm2.
    pub fn calibrator_leak_mm2(&self) -> f64 {
        if !self.calibrator_mounted() {
            0.0
        } else if self.calibrator_gasket {
            self.flat_leak_mm2(Gasket::Calibrator)
        } else {
            self.parameters.calibrator_gasket_leak_mm2
        }
    }

    /// Whether a gasket is flat and hard.
    pub fn is_flat(&self, which: Gasket) -> bool {
        self.flattened.is_some_and(|(gasket, _)| gasket == which)
    }

    /// Effective area of all leaks past what is on the holder, mm2; zero if nothing is.
    pub fn leak_mm2(&self) -> f64 {
        if !self.clamped() {
            return 0.0;
        }
        if self.held_tight {
            return self.plate_leak_mm2();
        }
        let nuts: f64 = Nut::ALL.iter().map(|&nut| self.nut_leak_mm2(nut)).sum();
        nuts + self.edge_leak_mm2() + self.calibrator_leak_mm2()
    }

    /// Whether a gasket is visible: nothing covers it.
    pub fn gasket_in_sight(&self, gasket: Gasket) -> bool {
        match gasket {
            Gasket::Holder => {
                self.lid_open
                    && ![RigPart::Frame, RigPart::Filter, RigPart::Adapter]
                        .iter()
                        .any(|&part| self.place(part) == PartPlace::Holder)
            }
            // In its case, the calibrator rests on its flange.
            Gasket::Calibrator => {
                !matches!(self.place(RigPart::Calibrator), PartPlace::Adapter | PartPlace::Case)
            }
        }
    }
}
