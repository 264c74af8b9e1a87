//! Faults of the recorder, its tubing and its chart.

use super::declared::{Declared, Site};
use super::onset::Onset;
use super::remedy::{AllowedFor, PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;
use crate::rig::recorder::Ink;

/// What a pen that is wrong by the same percentage at every flow is told by.
const COMPARE: &str = "Compare the calibration line with the last one, and the flow fully open with \
                       what such a blower usually draws: the recorder is further off than the \
                       manometer.";

pub(super) struct PenSticks {
    pub(super) play_inh2o: f64,
}

impl Declared for PenSticks {
    const USUAL: Self = Self { play_inh2o: 0.4 };
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "a sticking pen",
        right: &[Corrected, Noted, Repaired, Rejected],
        in_short: "the pen sticks: half-width of its backlash at the bellows",
        cause: "Dirt in the linkage causes backlash and friction: the pen lags behind the bellows.",
        sign: "The pen jumps by more than a division when the case is tapped after a change of flow.",
        check: "Tap until it no longer moves; a pen that is at rest after three taps can be read.",
        remedy: Remedy::TapPen,
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("play_inh2o", self.play_inh2o, 0.12..=0.6, "inH2O")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.backlash_inh2o = self.play_inh2o;
    }

    fn end(&self, site: &mut Site<'_>) {
        let sound_inh2o = site.rig.parameters.recorder.backlash_inh2o;
        site.rig.recorder.parameters.backlash_inh2o = sound_inh2o;
    }
}

pub(super) struct PenZeroOff {
    pub(super) divisions: f64,
}

impl Declared for PenZeroOff {
    const USUAL: Self = Self { divisions: -2.2 };
    const SHEET: Sheet = Sheet {
        title: "a pen off its zero",
        right: &[Repaired, Corrected],
        in_short: "the pen's zero is off by this much",
        cause: "The zero screw was turned, or the arm of the pen was bent.",
        sign: "With the blower off the tapped pen is not at zero. A pen that is too low rests on its \
               stop and looks right.",
        check: "Tap with the blower off; raise a pen that rests on its stop until it moves.",
        put_right: PutRight::PenAtZero,
        allowed_for: AllowedFor::InChartReadings,
        remedy: Remedy::PenZeroLeftAlone,
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("divisions", self.divisions, 0.25..=8.0, "divisions")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.turn_zero(self.divisions);
    }
}

pub(super) struct PenDry;

impl Declared for PenDry {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "a dry pen",
        right: &[Repaired, Noted, Rejected],
        in_short: "the pen leaves no trace",
        cause: "The ink has dried in the nib.",
        sign: "There is no trace behind the pen, although it is uncapped and on the chart.",
        check: "Look at the chart after a few minutes.",
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.ink = Ink::Dry;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.ink = Ink::Wet;
    }
}

pub(super) struct RecorderLineLeaks {
    pub(super) ratio: f64,
}

impl Declared for RecorderLineLeaks {
    const USUAL: Self = Self { ratio: 0.4 };
    const SHEET: Sheet = Sheet {
        cause_shows: false,
        arises: Arises::ComesAndGoes,
        title: "leaking recorder tubing",
        right: &[Rejected, Noted, Repaired],
        in_short: "the recorder's tubing leaks: area of the leak over that of the tubing",
        cause: "The tubing between the exhaust and the bellows is split, and part of the pressure is \
                lost.",
        sign: "The pen is low by the same percentage at every flow; the slope of the calibration line \
               is low against the last one.",
        check: COMPARE,
        put_right: PutRight::LineRenewed,
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("ratio", self.ratio, 0.05..=1.0, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.line_leak_ratio = self.ratio;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.line_leak_ratio = 0.0;
    }
}

pub(super) struct ExitOrificeBlocked {
    pub(super) area_pct: f64,
}

impl Declared for ExitOrificeBlocked {
    const USUAL: Self = Self { area_pct: 8.0 };
    const SHEET: Sheet = Sheet {
        cause_shows: false,
        title: "a partly blocked exhaust orifice",
        right: &[Rejected, Noted],
        in_short: "the exhaust orifice is partly blocked: area that it has lost",
        cause: "Dirt or an insect's nest narrows the exhaust orifice: the same flow makes more pressure \
                in front of it.",
        sign: "The pen is high by the same percentage at every flow, and the flow is a little lower; \
               the slope of the calibration line is high against the last one.",
        check: COMPARE,
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("area_pct", self.area_pct, 1.0..=30.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.flow_path.exit_cda_m2 *= 1.0 - self.area_pct / 100.0;
    }
}

pub(super) struct ChartOfAnotherRange {
    pub(super) pct: f64,
}

impl Declared for ChartOfAnotherRange {
    const USUAL: Self = Self { pct: 40.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::FromTheStart,
        title: "charts of another range",
        right: &[Corrected, Noted, Rejected],
        in_short: "the charts in the box are for another range: this much more is printed on \
                   the same width",
        cause: "The box was filled with charts for another recorder: a different number of divisions \
                is printed across the same width.",
        sign: "The last printed division is not 100. Every reading is larger or smaller by the same \
               percentage, and the slope and intercept of the line with it.",
        check: "Read what is printed at the rim of the chart. As long as the run is read on the same \
                charts, its volume is right; only the last line cannot be compared as it stands.",
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("pct", self.pct, 5.0..=60.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.printed_more_pct = self.pct;
    }
}

pub(super) struct ChartClockSlow {
    pub(super) pct: f64,
}

impl Declared for ChartClockSlow {
    const USUAL: Self = Self { pct: 5.0 };
    const SHEET: Sheet = Sheet {
        title: "a slow chart clock",
        right: &[Noted, Corrected, Rejected],
        in_short: "the chart's clock runs slow by this much",
        cause: "The clock under the chart needs oil, or its spring is weak.",
        sign: "The hour under the pen falls behind the watch.",
        check: "Set the chart by the watch, and compare the two again after half an hour.",
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("pct", self.pct, 0.5..=10.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.clock_loss_pct = self.pct;
    }
}

pub(super) struct ChartSlips {
    pub(super) minutes: f64,
}

impl Declared for ChartSlips {
    const USUAL: Self = Self { minutes: -25.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::DuringWork,
        title: "a chart that slipped on its hub",
        right: &[Repaired, Corrected, Noted],
        in_short: "the chart slips on its hub once, by this much: the time of the trace is wrong from \
                   then on",
        cause: "The nut of the hub does not hold the chart, and the chart has turned under the clamp.",
        sign: "The hour under the pen is not that of the watch, by far more than a slow clock loses in \
               the time, and the trace has a jump along the chart.",
        check: "Compare the hour under the pen with the watch when you fit the chart, and again after \
                the last point.",
        begins: Onset::AfterRunningMinutes(3.0),
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("minutes", self.minutes, 10.0..=180.0, "min")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.chart.turn(self.minutes);
    }
}

pub(super) struct PenArmBent {
    pub(super) pct: f64,
}

impl Declared for PenArmBent {
    const USUAL: Self = Self { pct: -6.0 };
    const SHEET: Sheet = Sheet {
        title: "a bent arm of the pen",
        right: &[Rejected, Noted],
        in_short: "the arm of the pen is bent: every reading is larger by this much (below zero: \
                   smaller)",
        cause: "The arm was caught by the door, and its tip no longer follows the curved lines of the \
                chart.",
        sign: "The arm is seen to be bent. The pen can be set to zero, but every reading is then off by \
               the same percentage: the zero screw does not mend it.",
        check: "Set the zero with the blower off, and compare the calibration line with the last one.",
        ..Sheet::of(FaultPlace::Recorder)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("pct", self.pct, 2.0..=20.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.parameters.arm_pct = self.pct;
    }
}
