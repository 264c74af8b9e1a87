//! Questions that can be asked of the rig, none of which changes it.

use super::{Counters, Rig};
use crate::air::Ambient;
use crate::rig::flow::filter::Filter;
use crate::rig::flow::flow_solution::FlowSolution;
use crate::rig::manometer::electronic::ManometerKind;
use crate::rig::parts::{Hiss, Nut, PartPlace, RigPart};
use crate::rig::power::Feed;
use crate::rig::power::timer::WeekTime;
use crate::rig::recorder::RecorderInputs;
use crate::rig::station::Surroundings;
use crate::time::TICKS_PER_SECOND;

/// A leak smaller than this cannot be heard, mm2 (CHOSEN).
const HEARD_MM2: f64 = 1.5;

impl Rig {
    /// The filter of the run: the one that is handled, until another one is taken for the next run.
    pub const fn run_filter(&self) -> &Filter {
        match &self.kept_filter {
            Some(kept) => kept,
            None => &self.filter,
        }
    }

    /// How many ticks the next step may take at most: one while rotor or controller move fast, a
    /// quarter of a second while the rotor settles slowly, otherwise a second.
    pub fn step_ticks(&self) -> u64 {
        if self.disturbed {
            return 1;
        }
        match self.feed() {
            Feed::Controlled if self.is_held() => TICKS_PER_SECOND,
            Feed::Controlled => 1,
            _ if !self.blower.is_settling() => TICKS_PER_SECOND,
            _ if self.blower.is_settling_slowly() => TICKS_PER_SECOND / 4,
            _ => 1,
        }
    }

    /// Whether the controller holds the flow and the rotor has settled.
    pub(super) fn is_held(&self) -> bool {
        !self.disturbed
            && !self.blower.is_settling()
            && self.blower.speed_rad_s > 0.0
            && self
                .flow_controller
                .is_at_rest(&self.parameters.flow_controller, self.around.mains_v)
    }

    /// From which supply the blower is fed.
    pub fn feed(&self) -> Feed {
        self.feed_at(self.around.week)
    }

    /// From which supply the blower would be fed at another moment, with the mains as it is now.
    pub fn feed_at(&self, week: WeekTime) -> Feed {
        match self.power.feed(self.timer.output(week)) {
            feed if self.outlet_is_live() => feed,
            _ => Feed::Dead,
        }
    }

    /// Whether timer and controller are on the mains: the sampler's cord is in and there is power.
    pub(in crate::rig) fn timer_has_mains(&self) -> bool {
        self.power.sampler_cord_in && self.outlet_is_live()
    }

    /// Whether the outlet on the roof has power.
    fn outlet_is_live(&self) -> bool {
        self.around.mains_v > 0.0 && !self.ground_fault.is_tripped()
    }

    /// The surroundings of the rig.
    pub(in crate::rig) const fn around(&self) -> &Surroundings {
        &self.around
    }

    /// Whether the blower has power.
    pub fn is_powered(&self) -> bool {
        self.feed() != Feed::Dead
    }

    /// Whether the controller's lamp is lit.
    pub fn controller_live(&self) -> bool {
        !self.ground_fault.is_tripped()
            && self.power.controller_live(self.timer.output(self.around.week))
    }

    /// Whether blowing was seen to move the water since the manometer was hung.
    pub const fn blown_through(&self) -> bool {
        self.blown_through
    }

    /// Times and counts since certain events.
    pub const fn counters(&self) -> &Counters {
        &self.counters
    }

    /// The present flow.
    pub const fn flow(&self) -> &FlowSolution {
        &self.flow
    }

    /// Suction at the calibrator's pressure tap, Pa: the drop across the measuring orifice. Covered
    /// from outside, the orifice lets nothing in, and the suction of the blower stands on the tap as
    /// long as the knob leaves an opening (40 CFR Part 50 App. B, 9.2.3, READ: the line is
    /// disconnected before the leak check "to avoid fluid loss").
    pub fn tap_suction_pa(&self) -> f64 {
        let covered = self.calibrator.blocked && self.mounting.calibrator_mounted();
        if covered && self.calibrator.opening > 0.0 {
            self.flow.plenum_suction_pa
        } else {
            self.flow.orifice_drop_pa
        }
    }

    /// Hour of the day, 0 to 24.
    pub const fn hour_of_day(&self) -> f64 {
        self.around.week.hours
    }

    /// The ambient air.
    pub const fn ambient(&self) -> &Ambient {
        &self.ambient
    }

    /// What drives the recorder.
    pub fn recorder_inputs(&self) -> RecorderInputs {
        RecorderInputs::from(&self.flow)
    }

    /// What the barometer's pointer shows, mmHg.
    pub fn barometer_mmhg(&self) -> f64 {
        self.barometer.pointer_mmhg(self.around.pressure_pa)
    }

    /// The leak that can be heard hissing from close by: the largest one.
    pub fn hiss(&self) -> Option<Hiss> {
        if self.flow.plenum_suction_pa < 100.0 || !self.mounting.clamped() {
            return None;
        }
        let under = self.mounting.calibrator_leak_mm2();
        let edge = self.mounting.edge_leak_mm2();
        let nuts = Nut::ALL.map(|nut| (Hiss::AtNut(nut.number()), self.mounting.nut_leak_mm2(nut)));
        [(Hiss::UnderCalibrator, under), (Hiss::PlateEdge, edge)]
            .into_iter()
            .chain(nuts)
            .filter(|&(_, leak_mm2)| leak_mm2 > HEARD_MM2)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(hiss, _)| hiss)
    }

    /// Whether the manometer hangs on its hook.
    pub fn manometer_hangs(&self) -> bool {
        self.mounting.place(RigPart::Manometer) == PartPlace::Hook
    }

    /// Whether the manometer is an electronic one.
    pub fn is_electronic(&self) -> bool {
        self.parameters.manometer_kind == ManometerKind::Electronic
    }

    /// Whether every value that drives the simulation is finite.
    pub fn is_finite(&self) -> bool {
        let [left, right] = self.manometer.levels_in();
        [
            self.blower.speed_rad_s,
            self.blower.warmth.winding_k,
            self.flow.mass_flow_kg_s,
            self.flow.orifice_drop_pa,
            self.flow.exit_pressure_pa,
            left,
            right,
            self.electronic.reading_in(),
            self.recorder.pen(),
            self.thermometer.column_c(),
        ]
        .iter()
        .all(|value| value.is_finite())
    }
}
