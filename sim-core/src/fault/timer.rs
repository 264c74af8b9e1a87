//! Faults of the timer that begins and ends a run.

use super::declared::{Declared, Site};
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;
use crate::rig::parts::Trip;

/// A fault of the timer that is there on arrival.
const TIMER: Sheet =
    Sheet { arises: Arises::FromTheStart, right: &[Repaired], ..Sheet::of(FaultPlace::Timer) };

pub(super) struct TripperLoose {
    pub(super) by_h: f64,
}

impl Declared for TripperLoose {
    const USUAL: Self = Self { by_h: -2.0 };
    const SHEET: Sheet = Sheet {
        title: "a loose tripper",
        in_short: "the off tripper gives way under the finger, and slides by this much while \
                   nobody is there",
        cause: "The screw of the off tripper does not hold it on the rim of the dial.",
        sign: "It gives way under your finger. If it is left like that, it slides while the dial \
               turns, and the run ends at another hour.",
        check: "Press against each tripper when you set it, and tighten its screw.",
        put_right: PutRight::TrippersTight,
        ..TIMER
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("by_h", self.by_h, 0.5..=6.0, "h")
    }

    fn begin(&self, site: &mut Site<'_>) {
        if let Some(clock) = site.rig.timer.clock.as_mut() {
            clock.loose = Some((Trip::Off, self.by_h));
        }
    }
}

pub(super) struct TimerGains {
    pub(super) pct: f64,
}

impl Declared for TimerGains {
    const USUAL: Self = Self { pct: 2.0 };
    const SHEET: Sheet = Sheet {
        title: "a timer that gains",
        right: &[Noted, Corrected, Rejected],
        in_short: "the timer's clockwork runs fast by this much: the run ends early, and \
                   afterwards the dial is ahead of the watch",
        cause: "Its clockwork runs fast.",
        sign: "When you return the dial is ahead of the watch, and the elapsed-time meter says that \
               the run was short.",
        check: "Set the dial by the watch, and compare the two again when you return; take the minutes \
                from the elapsed-time meter.",
        ..TIMER
    };

    fn size(&self) -> Option<Size> {
        Size::positive("pct", self.pct, 0.5..=10.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        if let Some(clock) = site.rig.timer.clock.as_mut() {
            clock.gain_pct = self.pct;
        }
    }
}

pub(super) struct TimerWrongDay;

impl Declared for TimerWrongDay {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "a timer set to the wrong day",
        in_short: "the timer's dial was left a day ahead",
        cause: "Whoever was there last left the dial a day ahead.",
        sign: "The day under the pointer is not today.",
        check: "Set the day and the hour of the dial by the watch before you set the trippers.",
        put_right: PutRight::DialSet,
        ..TIMER
    };

    fn begin(&self, site: &mut Site<'_>) {
        if let Some(clock) = site.rig.timer.clock.as_mut() {
            clock.ahead_h += 24.0;
        }
    }
}

pub(super) struct MeterDead;

impl Declared for MeterDead {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "a dead elapsed-time meter",
        right: &[Corrected, Noted, Rejected],
        in_short: "the elapsed-time meter stands still: the minutes of the run must come from the set \
                   times or the trace",
        cause: "Its small motor has failed, and the timer works without it.",
        sign: "The meter shows the same minutes after the sampler has run as before.",
        check: "Read the meter before and after the sampler has run on its timer for a few minutes. The \
                minutes of a run then follow from the set times, or from the trace on the chart.",
        ..TIMER
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.timer.meter_dead = true;
    }
}
