//! Faults of the flow controller. The calibration is made without it: they show when the sampler
//! runs on it again.

use super::declared::{Declared, Site};
use super::report::FaultPlace;
use super::report::Response::{Noted, Rejected};
use super::sheet::Sheet;
use super::size::Size;

/// A controller that holds another flow than it is set to.
const HOLDS_WRONG: Sheet = Sheet {
    right: &[Noted, Rejected],
    check: "Run the sampler on its controller for a minute, convert the pen's reading to a flow with \
            your calibration line, and compare it with the flow that the trim screw is set to.",
    ..Sheet::of(FaultPlace::FlowController)
};

pub(super) struct ControllerDrifts {
    pub(super) k_h: f64,
}

impl Declared for ControllerDrifts {
    const USUAL: Self = Self { k_h: 2.0 };
    const SHEET: Sheet = Sheet {
        alike: &["ControllerProbeFouled", "ControllerSaturates"],
        title: "a drifting flow controller",
        in_short: "the flow controller's sensor of the air temperature drifts: above zero the \
                   flow falls",
        cause: "Damp creeps into the sensor that tells the controller how warm the air is. When it \
                reads high, the probe is heated too much, and the controller takes the flow to be \
                higher than it is.",
        sign: "On the controller the pen is not where the trim screw should put it, and it is further \
               off each hour.",
        ..HOLDS_WRONG
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("k_h", self.k_h, 0.5..=5.0, "K/h")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.flow_controller.sensor_drift_k_h = self.k_h;
    }
}

pub(super) struct ControllerProbeFouled {
    pub(super) share: f64,
}

impl Declared for ControllerProbeFouled {
    const USUAL: Self = Self { share: 0.05 };
    const SHEET: Sheet = Sheet {
        alike: &["ControllerDrifts", "ControllerSaturates"],
        title: "a fouled flow probe",
        in_short: "dust takes away this part of the cooling of the flow controller's probe: the \
                   controller holds too much flow",
        cause: "Dust on the hot probe keeps the air from cooling it: the controller takes the flow to \
                be lower than it is, and holds too much.",
        sign: "On the controller the pen is higher than the trim screw should put it.",
        ..HOLDS_WRONG
    };

    fn size(&self) -> Option<Size> {
        Size::positive("share", self.share, 0.01..=0.2, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.flow_controller.fouling = self.share;
    }
}

pub(super) struct ControllerSaturates {
    pub(super) lost_v: f64,
}

impl Declared for ControllerSaturates {
    const USUAL: Self = Self { lost_v: 50.0 };
    const SHEET: Sheet = Sheet {
        alike: &["ControllerDrifts", "ControllerProbeFouled"],
        title: "a saturated flow controller",
        in_short: "voltage that the flow controller can no longer give",
        cause: "Its power stage no longer gives the full mains voltage: the motor lacks speed, and \
                lacks more of it the more the filter resists.",
        sign: "On the controller the pen is lower than the trim screw should put it, and turning the \
               screw up does not raise it.",
        ..HOLDS_WRONG
    };

    fn size(&self) -> Option<Size> {
        Size::positive("lost_v", self.lost_v, 10.0..=80.0, "V")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.flow_controller.lost_v = self.lost_v;
    }
}
