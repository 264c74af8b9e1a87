//! The controller tested with added filters: another clean filter on the first, and a third, with the
//! pen read each time; then both off again.

use super::memory::Memory;
use super::mount::TIGHT_QUARTERS;
use super::on_controller::power;
use super::running::stands_still;
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::warm::WARM_UP_S;
use super::{Observation, Outcomes, Practice, arithmetic, averages};
use crate::field_book::Field;
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::setup::AddedFiltersOrder;
use crate::session::action::{Action, Sight};

/// Time for which the blower runs where no warm-up is kept, s.
const SETTLED_S: f64 = 30.0;

/// How far the test has come.
#[derive(Debug, Default)]
pub(super) struct AddedFilters {
    stage: Stage,
    /// The pen with one filter, as written.
    start: f64,
    /// The pen with each added filter, as read.
    read: Vec<f64>,
}

#[derive(Debug, Default)]
enum Stage {
    /// The blower is to be stopped, for the next filter or to take them off.
    #[default]
    Stop,
    /// The frame is on again, and the blower runs.
    Reading(Tapping),
    /// The filters are off again.
    Over,
}

impl AddedFilters {
    /// The test after this start reading.
    pub fn after(start: f64) -> Self {
        Self { start, ..Self::default() }
    }

    /// Plans the next steps. True once the test is over.
    pub fn is_over(
        &mut self,
        order: AddedFiltersOrder,
        observed: &Observation<'_>,
        memory: &mut Memory,
    ) -> bool {
        match std::mem::take(&mut self.stage) {
            Stage::Stop => {
                if memory.stops_blower(observed) || !stands_still(observed) {
                    memory.waits(5.0);
                } else if self.read.len() < usize::from(order.sheets) {
                    stacks(&[Action::AddFilter], observed, memory);
                    power(observed, memory);
                    let warm = memory.habits.warm_up == Practice::Kept;
                    memory.waits(if warm { WARM_UP_S } else { SETTLED_S });
                    memory.looks_to_read(Sight::Pen);
                    self.stage = Stage::Reading(Tapping::default());
                } else {
                    let off = vec![Action::RemoveAddedFilter; self.read.len()];
                    stacks(&off, observed, memory);
                    memory.does(Action::PlugSampler);
                    self.judges(order, memory);
                    self.stage = Stage::Over;
                }
            }
            Stage::Reading(mut tapping) => {
                if tapping.rests(observed, memory) {
                    let pen = memory.compares_chart(observed.view.recorder.pen.unwrap_or_default());
                    let field = match self.read.len() {
                        0 => Field::SecondFilterChart,
                        _ => Field::ThirdFilterChart,
                    };
                    memory.writes(field, format!("{pen:.1}"));
                    self.read.push(pen);
                } else {
                    self.stage = Stage::Reading(tapping);
                }
            }
            Stage::Over => {
                self.stage = Stage::Over;
                return true;
            }
        }
        false
    }

    /// Works out the change of the flow with each filter, and with how many the flow is held.
    fn judges(&self, order: AddedFiltersOrder, memory: &mut Memory) {
        let Some(air) = memory.air() else { return };
        let Some(curve) = averages::line_in(air, memory) else { return };
        let flow = |chart: f64| curve.flow_std_m3_min(chart, air).unwrap_or_default();
        let start = flow(self.start);
        let fields = [Field::SecondFilterChange, Field::ThirdFilterChange];
        let mut changes = Vec::new();
        for (&pen, field) in self.read.iter().zip(fields) {
            let change = arithmetic::rounded(100.0 * (flow(pen) / start - 1.0), 1);
            if change.is_finite() {
                memory.writes(field, format!("{change:+.1}"));
                changes.push(change);
            }
        }
        let holds = |change: &&f64| {
            change.abs() <= order.within_pct || memory.habits.outcomes == Outcomes::AlwaysPassed
        };
        let held = 1 + changes.iter().take_while(holds).count();
        let told: Vec<String> = changes.iter().map(|change| format!("{change:+.1} %")).collect();
        memory.thinks(format!(
            "With the added filters the flow by the pen changed by {} (at most {:.1} % counts as held): it is held with \
             {held} filters.",
            told.join(" and "),
            order.within_pct
        ));
        memory.writes(Field::FiltersHeld, held.to_string());
    }
}

/// Takes the frame off, does this to the stack of filters, and makes everything tight again.
fn stacks(actions: &[Action], observed: &Observation<'_>, memory: &mut Memory) {
    if !observed.view.mounting.lid_open {
        memory.does(Action::OpenLid);
    }
    take_nuts_off(observed, memory);
    memory.moves(RigPart::Frame, PartPlace::Ground);
    for action in actions {
        memory.does(action.clone());
    }
    memory.moves(RigPart::Frame, PartPlace::Holder);
    let half = (TIGHT_QUARTERS / 2) as i8;
    memory.turns_nuts(half);
    memory.turns_nuts(half);
    memory.does(Action::CloseLid);
}
