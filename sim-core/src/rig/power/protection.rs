//! The ground-fault protection of the outlet on the roof, and the extension cord that hangs on it.

use crate::digest::digest_fields;

/// The protection of the outlet that feeds both the sampler and the switched outlet.
///
/// A damaged cord leaks a little current to earth; under load it warms, the damp in it spreads, and
/// after some minutes the leakage is enough to trip the protection. The time is the fault's size
/// (CHOSEN; that such a protection trips at about 5 mA is MEMORY).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GroundFault {
    tripped: bool,
    damaged_cord: bool,
    trips_after_s: f64,
    loaded_s: f64,
}

digest_fields!(GroundFault { tripped, damaged_cord, trips_after_s, loaded_s });

impl GroundFault {
    /// The cord is damaged, and the protection has tripped. Reset, it trips again when the cord has
    /// carried the blower for this long, s.
    pub const fn trip(&mut self, trips_after_s: f64) {
        *self = Self { tripped: true, damaged_cord: true, trips_after_s, loaded_s: 0.0 };
    }

    /// Lets time pass in which the cord carries the blower, s. True when the protection trips.
    pub fn carries(&mut self, dt_s: f64) -> bool {
        if !self.damaged_cord || self.tripped {
            return false;
        }
        self.loaded_s += if dt_s.is_finite() { dt_s.max(0.0) } else { 0.0 };
        self.tripped = self.loaded_s >= self.trips_after_s;
        self.tripped
    }

    /// Presses the reset button.
    pub const fn reset(&mut self) {
        self.tripped = false;
        self.loaded_s = 0.0;
    }

    /// Lays a sound cord.
    pub const fn change_cord(&mut self) {
        self.damaged_cord = false;
    }

    /// Whether the outlet is dead.
    pub const fn is_tripped(&self) -> bool {
        self.tripped
    }

    /// Whether the sheath of the cord is seen to be damaged.
    pub const fn is_cord_damaged(&self) -> bool {
        self.damaged_cord
    }
}

#[cfg(test)]
mod tests {
    use super::GroundFault;

    #[test]
    fn a_damaged_cord_trips_it_again_and_a_sound_one_does_not() {
        let mut outlet = GroundFault::default();
        assert!(!outlet.carries(1e6) && !outlet.is_tripped());
        outlet.trip(240.0);
        assert!(outlet.is_tripped());
        outlet.reset();
        assert!(!outlet.carries(200.0));
        assert!(outlet.carries(60.0) && outlet.is_tripped());
        outlet.change_cord();
        assert!(outlet.is_tripped());
        outlet.reset();
        assert!(!outlet.carries(1e6));
    }
}
