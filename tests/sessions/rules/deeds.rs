//! Which deed is meant, and changes that several cases share.

use sim_core::field_book::Field;
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{
    Action, Decision, FaultKind, FaultPlace, FaultReport, OnOff, Response, Sight, SuspectedCause,
};

use super::script::{Deed, Script, point};

/// The deed is this action.
pub fn does(wanted: Action) -> impl Fn(&Deed) -> bool {
    move |deed| matches!(deed, Deed::Does(action) if *action == wanted)
}

/// The deed is a look at this.
pub fn looks(wanted: Sight) -> impl Fn(&Deed) -> bool {
    move |deed| matches!(deed, Deed::Does(Action::Look { at, .. }) if *at == wanted)
}

/// The deed is a turn of a nut.
pub const fn turns_nut(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::TurnNut { .. }))
}

/// The deed is a turn of the knob.
pub const fn turns_knob(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::TurnKnob { .. }))
}

/// The deed puts something there.
pub fn puts(wanted: PartPlace) -> impl Fn(&Deed) -> bool {
    does(Action::Put { place: wanted })
}

/// The deed takes a part.
pub fn takes(wanted: RigPart) -> impl Fn(&Deed) -> bool {
    does(Action::Take { part: wanted })
}

/// A turn of the line's switch.
pub const fn line(to: OnOff) -> Action {
    Action::SwitchLine { to }
}

/// A turn of the timer's switch.
pub const fn timer(to: TimerSwitch) -> Action {
    Action::SwitchTimer { to }
}

/// The blower's plug put somewhere.
pub const fn plug(into: BlowerPlug) -> Action {
    Action::PlugBlower { into }
}

/// A look with the eye at the level of what is read.
pub const fn look(at: Sight) -> Action {
    Action::Look { at, eye_mm: 0.0 }
}

impl Script {
    /// Place of the last look at something before a field is written.
    #[track_caller]
    pub fn look_before(&self, field: Field, at: Sight) -> usize {
        self.back(self.written(field), looks(at))
    }

    /// Leaves points out: readings and sums.
    pub fn without_points(&mut self, numbers: &[u8]) {
        let points: Vec<_> = numbers.iter().map(|&number| point(number)).collect();
        self.without(|deed| {
            use Field::{Chart, ChartTerm, DeltaH, Down, PointFlow, Up};
            match deed.field() {
                Some(Up(p) | Down(p) | DeltaH(p) | Chart(p) | PointFlow(p) | ChartTerm(p)) => {
                    points.contains(&p)
                }
                _ => false,
            }
        });
    }

    /// Turns the knob to other openings, one after another.
    pub fn opens(&mut self, openings: &[f64]) {
        let mut place = self.written(Field::Chart(point(1)));
        for &opening in openings {
            place = self.from(place + 1, turns_knob);
            self.steps[place].deed = Deed::Does(Action::TurnKnob { opening });
        }
    }

    /// Takes points that are as close to each other as they may be, where 1.5 m3/min are ordered.
    pub fn crowds(&mut self) {
        self.on("target_flow_std_m3_min: 1.2", "target_flow_std_m3_min: 1.5");
        self.opens(&[0.6, 0.57, 0.55, 0.52, 0.5, 0.28]);
    }

    /// Leaves out so many of the taps before the pen is read at a point.
    pub fn taps_less(&mut self, number: u8, taps: usize) {
        for _ in 0..taps {
            let place = self.back(self.written(Field::Chart(point(number))), does(Action::Tap));
            self.drop_at(place);
        }
    }

    /// Looks at a place and reports a fault there, before the sums.
    pub fn reports_kind(&mut self, kind: FaultKind, sight: Sight, response: Response) {
        let (place, cause) = (kind.place(), SuspectedCause::Known(kind));
        let seen = "seen on the roof".to_owned();
        let report = FaultReport { place, cause, seen, shown_by: Vec::new(), response };
        let sums = self.written(Field::PointFlow(point(1)));
        self.insert(sums, [look(sight), Action::Report(report)]);
    }

    /// Looks at a place and reports something there, before the sums.
    pub fn reports(&mut self, place: FaultPlace, sight: Sight, response: Response) {
        let (cause, seen) = (SuspectedCause::NotKnownYet, "seen on the roof".to_owned());
        let remark = FaultReport { place, cause, seen, shown_by: Vec::new(), response };
        let sums = self.written(Field::PointFlow(point(1)));
        self.insert(sums, [look(sight), Action::Report(remark)]);
    }

    /// Refuses the calibration, which then needs no set point.
    pub fn refuses(&mut self) {
        self.decides(Decision::CalibrationRefused, "it cannot stand");
        self.without(|deed| matches!(deed.field(), Some(Field::TargetFlow | Field::SetPoint)));
    }

    /// Copies slope and intercept from the first paper.
    pub fn copies_top_paper(&mut self) {
        let paper = self.certificates().swap_remove(0);
        self.says(Field::CertificateSerial, &paper.serial);
        self.says(Field::CertificateDate, &paper.date.to_string());
        self.says(Field::CertificateSlope, &format!("{:.4}", paper.standard.slope));
        self.says(Field::CertificateIntercept, &format!("{:.4}", paper.standard.intercept));
    }

    /// Moves the deed at a place to just before another, at the other's time.
    pub fn moves(&mut self, from: usize, before: usize) {
        assert!(from < before, "only to later");
        let Deed::Does(action) = self.drop_at(from) else { panic!("no plain deed") };
        self.insert(before - 1, [action]);
    }
}
