//! What an operator regards as usual, and which instrument is suspected if something is unusual.

use super::memory::{Memory, ReadPoint};
use super::{Observation, Practice};
use crate::air::DRY_AIR_J_KG_K;
use crate::calibration::{AirConditions, RecorderScale};
use crate::math;
use crate::rig::recorder::CHART_DIVISIONS;
use crate::session::action::{FaultKind, FaultPlace, Response};
use crate::session::view::OrificeEdge;

/// Flow that such a sampler draws through a fully open calibrator in air of 1.2 kg/m3, at ambient
/// conditions, m3/min (the bench's own design).
const USUAL_OPEN_M3_MIN: f64 = 1.782;
/// That flow varies as the density to this power (the bench's own design, computed).
const USUAL_DENSITY_EXPONENT: f64 = -0.259;
/// From this strength on, as felt, the wind moves a column of water.
pub(super) const GUSTY: f64 = 0.12;
/// Time from switching off until the rotor can no longer be heard, s (the bench's own design).
const USUAL_RUN_DOWN_S: f64 = 59.0;
/// If the run-down takes less than this fraction of that time, the bearings drag.
const SHORT: f64 = 0.87;
/// A column that moves the same way in this many looks does not do so by chance.
const CREEPS: usize = 4;
/// Below this fraction of the usual flow a blower is weak.
const WEAK: f64 = 0.955;

/// Flow at standard conditions that usually passes a fully open calibrator, m3/min.
fn usual_open_std_m3_min(air: AirConditions) -> f64 {
    let density_kg_m3 = air.pressure().pa() / (DRY_AIR_J_KG_K * air.temperature().k());
    let actual = USUAL_OPEN_M3_MIN * math::pow(density_kg_m3 / 1.2, USUAL_DENSITY_EXPONENT);
    actual * air.to_standard()
}

/// Which of two instruments differs more from the usual flow with the calibrator fully open.
///
/// `flow` is the flow by the manometer, `chart_flow` the flow by the recorder and the last line,
/// both at standard conditions, m3/min.
pub(super) fn further_off(flow: f64, chart_flow: f64, air: AirConditions) -> FaultPlace {
    let usual = usual_open_std_m3_min(air);
    if (flow - usual).abs() >= (chart_flow - usual).abs() {
        FaultPlace::Manometer
    } else {
        FaultPlace::Recorder
    }
}

/// Gives up the calibration if the edge of the orifice, which is in focus, is damaged or dirty.
pub(super) fn edge(observed: &Observation<'_>, memory: &mut Memory) {
    let (what, why) = match observed.view.calibrator.edge {
        Some(OrificeEdge::Nicked) => {
            (FaultKind::OrificeNicked, "the edge of the calibrator's orifice is nicked")
        }
        Some(OrificeEdge::Dirty) => {
            (FaultKind::OrificeFouled, "the edge of the calibrator's orifice is dirty")
        }
        Some(OrificeEdge::Sharp) => {
            memory.thinks("The edge of the calibrator's orifice is clean and sharp.");
            return;
        }
        None => return,
    };
    memory
        .thinks("The edge of the orifice is not what was certified: its flow is no longer known.");
    memory.rejects(what, why);
}

/// Last division printed on the charts that belong on the recorder, according to its plate.
const PRINTED_TO: f64 = CHART_DIVISIONS;

/// Reports charts whose print does not belong on the recorder.
pub(super) fn chart(observed: &Observation<'_>, memory: &mut Memory) {
    let printed_to = observed.view.recorder.printed_to;
    if memory.habits.tapping == Practice::Skipped || (printed_to - PRINTED_TO).abs() < 1.0 {
        return;
    }
    memory.thinks(format!(
        "The charts are printed to {printed_to:.0}; the recorder's plate asks for {PRINTED_TO:.0}."
    ));
    memory.chart_scale = PRINTED_TO / printed_to;
    memory.reports(
        FaultKind::ChartOfAnotherRange,
        Response::Corrected,
        "the charts in the box are of another range; allowed for where the last line is compared",
    );
}

/// Reports gusts that can be felt, and a blower whose sound wavers.
pub(super) fn air_and_sound(observed: &Observation<'_>, memory: &mut Memory) {
    let (wavers, wind) = (observed.view.blower.wavering, observed.view.sky.wind);
    memory.thinks(format!(
        "The blower sounds {}; the wind feels like {wind:.2} between 0, calm, and 1, gusts (from {GUSTY:.2} on it moves the water).",
        if wavers { "unsteady" } else { "even" }
    ));
    if observed.view.blower.wavering && memory.habits.blower_check == Practice::Kept {
        memory.reports(
            FaultKind::WanderingVoltage,
            Response::Noted,
            "the blower's sound wavers: worn brushes or wandering mains",
        );
    }
    if observed.view.sky.wind > GUSTY {
        restless(memory);
    }
}

/// The change of the column that is large enough to tell whether it follows the flow, in; and the same
/// where something else moves it as well.
const FOLLOWS_IN: f64 = 0.3;
const FOLLOWS_MOVED_IN: f64 = 0.8;

/// Reports why a column does not come to rest, from its height every few seconds, in: gusts move it
/// to and fro; a valve that hardly opens lets it creep one way.
pub(super) fn unrest(seen_in: &[f64], memory: &mut Memory) {
    // Gusts and wandering mains move it one way for a while as well.
    let is_moved = is_moved_by_itself(memory);
    let steps = || seen_in.iter().zip(seen_in.iter().skip(1)).map(|(before, now)| now - before);
    let one_way = steps().all(|step| step > 0.0) || steps().all(|step| step < 0.0);
    if let (Some(first), Some(last)) = (seen_in.first(), seen_in.last()) {
        memory.thinks(format!(
            "The column does not come to rest: in {} looks it went from {first:.2} to {last:.2} in, {} ({}).",
            seen_in.len(),
            if one_way { "always the same way" } else { "to and fro" },
            if is_moved { "gusts or the mains move it" } else { "more than four looks in one direction are not chance" }
        ));
    }
    if seen_in.len() > CREEPS && one_way && !is_moved {
        let why = "the column creeps: a valve does not open";
        memory.rejects(FaultKind::ManometerValveBarelyOpens, why);
    } else {
        restless(memory);
    }
}

/// Whether the column is known to move although nobody turns the knob.
fn is_moved_by_itself(memory: &Memory) -> bool {
    memory.has_reported(FaultKind::Gusts) || memory.has_reported_at(FaultPlace::Blower)
}

/// Gives up the calibration if the column stays where it was although the pen shows that the flow
/// has changed.
///
/// Where gusts or the mains move it as well, the change since the first point is looked at, which is
/// larger than what they do.
pub(super) fn follows(last: ReadPoint, now: ReadPoint, memory: &mut Memory) {
    let is_moved = is_moved_by_itself(memory);
    let first = memory.points.first().copied().filter(|_| is_moved);
    let (last, enough_in) = first.map_or((last, FOLLOWS_IN), |first| (first, FOLLOWS_MOVED_IN));
    if last.chart < 1.0 {
        return;
    }
    // The column is proportional to the square of the reading, or to the reading itself on a chart
    // that is linear in pressure.
    let part = now.chart / last.chart;
    let part = match memory.expression.recorder {
        RecorderScale::LinearInPressure => part,
        RecorderScale::SquareRoot | RecorderScale::MassFlow => part * part,
    };
    let expected_in = last.delta_h_in * (part - 1.0);
    let seen_in = now.delta_h_in - last.delta_h_in;
    memory.thinks(format!(
        "By the pen the column should have changed by {expected_in:+.2} in (judged above {enough_in:.1} in); it changed \
         by {seen_in:+.2} in."
    ));
    if expected_in.abs() > enough_in && seen_in.abs() < 0.25 * expected_in.abs() {
        memory.rejects(FaultKind::ManometerValveShut, "the column does not follow the flow");
    }
}

/// Reports gusts that are felt, or seen in a column that does not come to rest.
fn restless(memory: &mut Memory) {
    memory.reports(FaultKind::Gusts, Response::Noted, "gusts press on the open leg");
}

/// Reports a blower that draws too little, if both instruments agree that it does.
pub(super) fn weak_blower(flow: f64, air: AirConditions, memory: &mut Memory) {
    // What was heard of the blower before explains why it is weak.
    let is_explained = memory.has_reported_at(FaultPlace::Blower);
    let usual = usual_open_std_m3_min(air);
    let is_weak = flow < WEAK * usual;
    memory.thinks(format!(
        "Fully open, the calibrator passes {flow:.3} m3/min; {usual:.3} m3/min is usual, and below {:.3} m3/min the \
         blower is weak.",
        WEAK * usual
    ));
    if memory.habits.blower_check == Practice::Kept && is_weak && !is_explained {
        memory.reports(
            FaultKind::LowVoltage,
            Response::Noted,
            "the blower draws less than it should: low mains or dragging bearings",
        );
    }
}

/// Reports a rotor that stops too soon after it was switched off, s.
pub(super) fn run_down(seconds: f64, memory: &mut Memory) {
    memory.thinks(format!(
        "The rotor was heard for {seconds:.0} s after the switch; {USUAL_RUN_DOWN_S:.0} s is usual, and below {:.0} s the \
         bearings drag.",
        USUAL_RUN_DOWN_S * SHORT
    ));
    if seconds < USUAL_RUN_DOWN_S * SHORT {
        memory.reports(
            FaultKind::BearingDrag,
            Response::Noted,
            "the rotor stands soon after the switch: the bearings drag",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::{further_off, usual_open_std_m3_min};
    use crate::calibration::AirConditions;
    use crate::session::action::FaultPlace;

    #[test]
    fn the_usual_flow_holds_at_both_reference_sites() {
        for (mmhg, celsius, flow) in [(760.0, 20.0, 1.811), (626.5, 5.0, 1.632)] {
            let air = AirConditions::as_read(mmhg, celsius).unwrap();
            assert!((usual_open_std_m3_min(air) - flow).abs() < 0.01);
        }
    }

    #[test]
    fn a_short_column_points_to_the_manometer_and_a_low_pen_to_the_recorder() {
        let air = AirConditions::as_read(760.0, 20.0).unwrap();
        assert_eq!(further_off(1.65, 1.73, air), FaultPlace::Manometer);
        assert_eq!(further_off(1.73, 1.60, air), FaultPlace::Recorder);
    }
}
