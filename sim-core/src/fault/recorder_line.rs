//! The recorder's tubing: off its fitting, kinked, or with water in it.

use super::declared::{Declared, Site};
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::{Rejected, Repaired};
use super::sheet::Sheet;
use super::size::Size;

/// Trouble with the tubing that is put right on the roof.
const TENDED: Sheet = Sheet {
    right: &[Repaired, Rejected],
    put_right: PutRight::LineTended,
    ..Sheet::of(FaultPlace::Recorder)
};

pub(super) struct RecorderLineOff;

impl Declared for RecorderLineOff {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "recorder tubing off its fitting",
        in_short: "the recorder's tubing is off its fitting: the pen stays at its zero",
        cause: "The tubing has hardened, and has slipped off the fitting behind the recorder.",
        sign: "The blower runs, and the pen stays at zero. The end of the tubing hangs free.",
        check: "Follow the tubing from the exhaust to the recorder with your fingers.",
        ..TENDED
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.line.slip_off();
    }
}

pub(super) struct RecorderLineKinked {
    pub(super) lag_s: f64,
}

impl Declared for RecorderLineKinked {
    const USUAL: Self = Self { lag_s: 60.0 };
    const SHEET: Sheet = Sheet {
        title: "kinked recorder tubing",
        in_short: "the recorder's tubing is kinked: lag that the kink adds to the pen",
        cause: "The tubing was bent sharply when the recorder's door was last shut, and the pressure \
                only creeps through.",
        sign: "After a change of flow the pen creeps for minutes, however often the case is tapped, and \
               the kink is visible beside the recorder.",
        check: "Compare the pen with the column after each change of flow; follow the tubing with your \
                fingers.",
        ..TENDED
    };

    fn size(&self) -> Option<Size> {
        Size::positive("lag_s", self.lag_s, 10.0..=180.0, "s")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.line.kink(self.lag_s);
    }
}

pub(super) struct RecorderLineWet {
    pub(super) head_in: f64,
}

impl Declared for RecorderLineWet {
    const USUAL: Self = Self { head_in: 0.6 };
    const SHEET: Sheet = Sheet {
        title: "water in the recorder tubing",
        in_short: "condensed water stands in a low bend of the recorder's tubing: its head",
        cause: "Warm damp air of the exhaust has condensed in the tubing on a cold night, and the water \
                stands in its lowest bend.",
        sign: "Drops are visible in the tubing. The pen is low by the head of the water, which tells \
               most at low flows: the intercept of the calibration line is low against the last one.",
        check: "Hold the tubing against the light; shake the water out, and see the pen rise.",
        ..TENDED
    };

    fn size(&self) -> Option<Size> {
        Size::positive("head_in", self.head_in, 0.1..=2.0, "in")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.recorder.line.gather(self.head_in);
    }
}
