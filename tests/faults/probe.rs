//! A quantity that is looked at, and how it is read on the bench.

use super::bench::Bench;

/// What tells a fault.
pub struct Telltale {
    /// What is looked at.
    pub probe: Probe,
    /// Words of the careful operator's report that are about this fault.
    pub says: &'static str,
}

/// A quantity that is looked at.
pub struct Probe {
    /// What it is.
    pub quantity: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// The finest step that can be read.
    pub readable: f64,
    /// Reads it on a bench.
    pub read: fn(&mut Bench) -> Seen,
}

/// What is seen.
#[derive(Debug, Clone, PartialEq)]
pub enum Seen {
    /// A number.
    Number(f64),
    /// A look that is told in words.
    Word(String),
}

impl Seen {
    /// How far another sight is from this one, in steps that can be read; another word is one.
    pub fn steps_to(&self, other: &Self, readable: f64) -> f64 {
        match (self, other) {
            (Self::Number(one), Self::Number(other)) => (other - one).abs() / readable,
            (one, other) => f64::from(u8::from(one != other)),
        }
    }
}

/// A probe of a number.
macro_rules! number {
    ($quantity:literal, $unit:literal, $readable:expr, $read:expr) => {
        $crate::faults::probe::Probe {
            quantity: $quantity,
            unit: $unit,
            readable: $readable,
            read: |bench| {
                let read: fn(&mut $crate::faults::bench::Bench) -> f64 = $read;
                $crate::faults::probe::Seen::Number(read(bench))
            },
        }
    };
}

/// A probe of a look.
macro_rules! word {
    ($quantity:literal, $read:expr) => {
        $crate::faults::probe::Probe {
            quantity: $quantity,
            unit: "at sight",
            readable: 1.0,
            read: |bench| {
                let read: fn(&mut $crate::faults::bench::Bench) -> String = $read;
                $crate::faults::probe::Seen::Word(read(bench))
            },
        }
    };
}

pub(super) use {number, word};
