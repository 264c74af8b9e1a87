//! Back at the site: meter, chart, end reading, filter; then the calculations of the run.

use sim_core::field_book::Field;
use sim_core::rig::parts::{FilterSide, Grip, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::Action;
use sim_core::session::view::run::RunView;

use super::goal::Goal;
use super::next::{Advice, Blank, act, acts, by_season, enter, first_blank};
use super::scene::Scene;
use super::{mount, screw};

/// Meter, chart, end reading, filter.
pub(super) fn recover(scene: &Scene<'_>, run: &RunView) -> Option<Advice> {
    let (power, recorder) = (&scene.view.power, &scene.view.recorder);
    if !scene.has(Field::MeterAfter) {
        return enter("meter-after", Field::MeterAfter);
    }
    if run.kept_chart.is_none() {
        let action = match (recorder.door_open, recorder.on_paper) {
            (false, _) => Action::OpenDoor,
            (true, true) => Action::LiftPen,
            (true, false) => Action::TakeChart,
        };
        return act("chart-kept", Goal::ChartKept, action);
    }
    if !scene.has(Field::EndChart) {
        return match (recorder.on_paper, power.timer_switch == TimerSwitch::On) {
            (false, _) => act("end-reading", Goal::EndReading, Action::LowerPen),
            (true, false) => {
                let on = Action::SwitchTimer { to: TimerSwitch::On };
                act("end-reading", Goal::EndReading, on)
            }
            (true, true) => screw::warm(scene)
                .or_else(|| screw::tapped(scene))
                .or_else(|| enter("end-reading", Field::EndChart)),
        };
    }
    let seen = &run.filter;
    if run.sample.is_some() || seen.folded_out.is_some() && seen.in_envelope {
        return match scene.has(Field::Custody) {
            true => None,
            false => enter("custody-written", Field::Custody),
        };
    }
    mount::dead(scene).or_else(|| filter_out(scene, run))
}

/// The filter with its sample: out, folded, in its envelope.
fn filter_out(scene: &Scene<'_>, run: &RunView) -> Option<Advice> {
    let mounting = &scene.view.mounting;
    if !mounting.lid_open {
        return act("dead-before-hands", Goal::AsDone, Action::OpenLid);
    }
    if mounting.place(RigPart::Frame) == PartPlace::Holder {
        return acts("filter-folded", Goal::FrameOff, mount::frame_off(scene));
    }
    let action = match (mounting.place(RigPart::Filter), run.filter.folded_out) {
        (PartPlace::Hand, None) => Action::FoldFilter { out: FilterSide::Smooth },
        (PartPlace::Hand, Some(_)) => Action::Put { place: PartPlace::Case },
        _ => Action::TakeFilter { grip: Grip::Edges },
    };
    act("filter-folded", Goal::SampleRecovered, action)
}

/// The calculations of the run.
pub(super) fn volume(scene: &Scene<'_>, run: &RunView) -> Option<Advice> {
    let fields = [
        (Field::RunMinutes, "run-minutes"),
        (Field::MeanChart, "mean-chart"),
        (Field::RunPressure, "run-air"),
        (Field::RunTemperature, "run-air"),
        (Field::RunFlow, "run-volume"),
        (Field::Volume, "run-volume"),
        (Field::Concentration, "concentration"),
        (Field::Validity, "validity-judged"),
    ];
    let weighed = |(field, _): &Blank| *field != Field::Concentration || run.masses.is_some();
    let step = first_blank(scene, fields.into_iter().filter(weighed))?;
    Some(by_season(scene, step))
}
