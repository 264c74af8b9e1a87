//! The run for which costs are calculated: the volume that a line gives for it, and the volume that is
//! actually sampled.

use serde::Serialize;

use crate::air::Ambient;
use crate::calibration::{AirConditions, Curve, Expression, RunPart, run_volume};
use crate::marking::TrueResponse;
use crate::marking::truth::true_response_in;
use crate::procedure::Evidence;
use crate::procedure::set_point::own_set_point;
use crate::rig::Rig;
use crate::units::{PA_PER_MMHG, Pressure, Temperature, ZERO_CELSIUS_K};

/// Length of the run, min (40 CFR Part 50 App. B, 8.15, READ).
const RUN_MIN: f64 = 1440.0;

/// The run: the recorder shows one chart reading for a day, in the air that the work order expects.
///
/// Every volume of the costs of a calibration comes from this type alone.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CostedRun {
    /// Chart reading that the recorder shows, divisions.
    pub chart: f64,
    /// Where that reading comes from.
    pub chart_from: ChartFrom,
    /// Length, min.
    pub minutes: f64,
    /// Station pressure, mmHg.
    pub pressure_mmhg: f64,
    /// Air temperature, degrees Celsius.
    pub temperature_c: f64,
}

/// Where the chart reading of the run comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ChartFrom {
    /// The trainee wrote it as the set point.
    Written,
    /// It follows from the trainee's line and target.
    OwnLine,
    /// Neither gives a reading that the pen of this rig can reach, so it is the one that really gives
    /// the ordered flow.
    OrderedFlow,
}

impl CostedRun {
    /// The run that follows a session; `None` if no chart reading of this rig gives the ordered flow.
    pub(super) fn after(evidence: &Evidence<'_>, rig: &Rig) -> Option<Self> {
        let order = &evidence.setup.work_order;
        let (pressure_mmhg, temperature_c) = (order.run_pressure_mmhg, order.run_temperature_c);
        let at = |chart, chart_from| Self {
            chart,
            chart_from,
            minutes: RUN_MIN,
            pressure_mmhg,
            temperature_c,
        };
        let response = at(0.0, ChartFrom::OrderedFlow).response(rig);
        let written = evidence.book.number(crate::field_book::Field::SetPoint);
        let own = own_set_point(evidence);
        [(written, ChartFrom::Written), (own, ChartFrom::OwnLine)]
            .into_iter()
            .find_map(|(chart, from)| Some(at(chart?, from)))
            .filter(|run| response.flow_at_chart(run.chart).is_some())
            .or_else(|| {
                let chart = response.chart_at_flow(order.target_flow_std_m3_min)?;
                Some(at(chart, ChartFrom::OrderedFlow))
            })
    }

    /// The same by a curve used as the method says: with averages built in only where the run is near
    /// enough to them.
    pub(super) fn read_rightly(&self, curve: Curve) -> Option<f64> {
        self.read_off(curve.in_air(self.conditions()?))
    }

    /// The volume that a curve gives for the chart reading, V = Q(I) t, standard m3.
    pub(super) fn read_off(&self, curve: Curve) -> Option<f64> {
        let part = RunPart { chart: self.chart, minutes: self.minutes };
        run_volume(curve, &[part], self.conditions()?).ok().map(|volume| volume.volume_std_m3)
    }

    /// The volume that a rig actually samples, standard m3.
    pub(super) fn drawn(&self, rig: &Rig) -> Option<f64> {
        self.response(rig).flow_at_chart(self.chart).map(|flow| flow * self.minutes)
    }

    /// The chart reading for a corrected chart reading in the air of the run.
    pub(super) fn chart_for(&self, term: f64, expression: Expression) -> Option<f64> {
        let air = self.conditions()?;
        let unit = Curve::new(1.0, 0.0, expression).ok()?.in_air(air);
        unit.expression().chart_for(unit.slope() * term, air).ok()
    }

    fn conditions(&self) -> Option<AirConditions> {
        let pressure = Pressure::from_mmhg(self.pressure_mmhg);
        AirConditions::new(pressure, Temperature::from_c(self.temperature_c)).ok()
    }

    /// The true response of a rig in the air of the run, with the humidity on the day of the
    /// calibration.
    fn response(&self, rig: &Rig) -> TrueResponse {
        let ambient = Ambient {
            pressure_pa: self.pressure_mmhg * PA_PER_MMHG,
            temperature_k: self.temperature_c + ZERO_CELSIUS_K,
            ..*rig.ambient()
        };
        true_response_in(rig, &ambient)
    }
}
