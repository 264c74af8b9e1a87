//! Averages of the season: whether they are built into the line, and the line as it is used in some
//! air.

use super::memory::Memory;
use super::{AveragesUsed, Observation, arithmetic};
use crate::calibration::{
    AVERAGES_PRESSURE_WINDOW_MMHG, AVERAGES_TEMPERATURE_WINDOW_K, AirConditions, Basis, Curve,
    Expression,
};
use crate::scenario::setup::{LastLine, SeasonAverages, WorkOrder};

/// Chooses the expression for the day, if the order asks for averages to be built in.
pub(super) fn chosen(air: AirConditions, observed: &Observation<'_>, memory: &mut Memory) {
    let Some(averages) = observed.papers.work_order.averages else { return };
    let Some(built_in) = averages.air() else { return };
    let plain = Expression::actual(memory.expression.recorder);
    let allowed = averages.built_into(plain, air);
    memory.thinks(format!(
        "The air is {:+.1} mmHg and {:+.1} °C from the averages of the order (at most {AVERAGES_PRESSURE_WINDOW_MMHG:.0} \
         mmHg and {AVERAGES_TEMPERATURE_WINDOW_K:.0} °C): {}.",
        (air.pressure() - built_in.pressure()).mmhg(),
        air.temperature().k() - built_in.temperature().k(),
        if allowed == plain { "they must not be built in" } else { "they may be built in" }
    ));
    memory.expression = match memory.habits.averages {
        AveragesUsed::AsAllowed => allowed,
        AveragesUsed::Never => plain,
        AveragesUsed::Regardless => Expression { basis: Basis::Averages(built_in), ..plain },
    };
}

/// What the operator writes where the order asks for averages that the day does not allow.
pub(super) fn remark(observed: &Observation<'_>, memory: &Memory) -> Option<&'static str> {
    let left_out = memory.expression.basis == Basis::Actual
        && memory.habits.averages == AveragesUsed::AsAllowed
        && memory.line.is_some();
    observed.papers.work_order.averages.filter(|_| left_out)?;
    Some(
        " The day is too far from the averages of the season: they are not built in, and each reading is corrected \
         with its own pressure and temperature.",
    )
}

/// The operator's line as it is used in this air, with its rounding.
pub(super) fn line_in(air: AirConditions, memory: &Memory) -> Option<Curve> {
    let line = memory.line?;
    let [slope, intercept] =
        [line.slope, line.intercept].map(|number| arithmetic::rounded(number, 3));
    let curve = Curve::new(slope, intercept, memory.expression).ok()?;
    Some(used_in(curve, air, memory))
}

/// A curve as this operator uses it in some air.
pub(super) fn used_in(curve: Curve, air: AirConditions, memory: &Memory) -> Curve {
    match memory.habits.averages {
        AveragesUsed::Regardless => curve,
        AveragesUsed::AsAllowed | AveragesUsed::Never => curve.in_air(air),
    }
}

/// The last line in the form in which the operator's line is made.
pub(super) fn last_line(order: &WorkOrder, memory: &Memory) -> Option<LastLine> {
    let last = order.last_line.clone()?;
    let built_in = order.averages.and_then(SeasonAverages::air);
    let (Some(averages), Basis::Actual) = (built_in, memory.expression.basis) else {
        return Some(last);
    };
    let basis = Basis::Averages(averages);
    let printed = Expression { basis, ..memory.expression };
    let plain = Curve::new(last.slope, last.intercept, printed).ok()?.without_averages();
    Some(LastLine { slope: plain.slope(), intercept: plain.intercept(), ..last })
}
