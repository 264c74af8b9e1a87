//! Backdrop, shelter, lid and rotor; power, timer and cords.

use resvg::tiny_skia::Transform;
use sim_core::rig::parts::TimerSwitch;
use sim_core::session::action::OnOff;
use sim_core::session::view::View;
use sim_core::session::view::run::RunView;

use super::super::live_parts;
use super::super::scene::{anchor, number};
use super::list::{Layer, SceneList, about};

pub(super) fn set(list: &mut SceneList, view: &View) {
    let still = Layer::Still;
    for name in [
        "backdrop",
        "roof_edge",
        "service_post",
        "thermometer_screen",
        "shelter",
        "blower",
        "hook",
        "filter_holder",
        "recorder",
        "flow_controller",
        "timer",
        "mains_outlet",
        "barometer",
        "work_order",
        "carrying_case",
        "case_front",
        "certificate",
    ] {
        list.piece(still, name);
    }
    if view.sky.sunny {
        list.piece(still, "sun");
    }
    if view.sky.thunder_since_s.is_some() {
        list.piece(still, "storm");
    }
    list.piece(still, if view.mounting.lid_open { "lid_open" } else { "lid_closed" });
    let here = Transform::identity();
    list.live(still, ("in the exhaust", 31.0), here, live_parts::in_the_exhaust);
    list.live(still, ("in the inlet", 31.0), here, live_parts::in_the_inlet);
    list.live(still, ("reset button", 45.0), here, live_parts::reset_button);
    list.live(still, ("cut in the cord", 45.0), here, live_parts::cut_in_the_cord);
    list.live(still, ("recorder's tubing", 45.0), here, live_parts::recorder_line);
    list.live(Layer::Rotor, ("rotor", 26.0), here, live_parts::rotor);
    list.live(Layer::Air, ("air", 42.5), here, live_parts::air);
    power(list, view);
}

/// What is there if a run is ordered.
fn run_parts(list: &mut SceneList, run: &RunView) {
    let still = Layer::Still;
    list.piece(still, "timer_meter");
    list.piece(still, "logger");
    if !run.weather.is_empty() {
        list.piece(still, "logger_sheet");
    }
    if run.kept_chart.is_some() {
        list.piece(still, "kept_chart");
    }
    if run.fresh_filters > 0 {
        list.piece(still, "case_folder");
    }
}

fn power(list: &mut SceneList, view: &View) {
    let power = &view.power;
    if power.controller_lamp {
        list.piece(Layer::Still, "flow_controller_lamp");
    }
    let turned = (power.trim_turns * 360.0) as f32;
    list.moved(Layer::Still, "trim_screw", about(anchor("trim_screw", "axis"), turned));
    let throw = number("mains_outlet", "switch_throw");
    let up = if power.line_switch == OnOff::On { -throw } else { throw };
    list.moved(Layer::Still, "line_switch", Transform::from_translate(0.0, up));
    let throw = number("timer", "switch_throw");
    let up = match power.timer_switch {
        TimerSwitch::On => -throw,
        TimerSwitch::Auto => 0.0,
        TimerSwitch::Off => throw,
    };
    list.moved(Layer::Still, "timer_switch", Transform::from_translate(0.0, up));
    // If no run is ordered, the dial is right and its trippers are at midnight.
    let dial = view.run.as_deref().map(|run| &run.timer);
    let hours = dial.map_or_else(|| view.time.hours(), |dial| dial.hours);
    let trippers = dial.map_or((0.0, 0.0), |dial| (dial.on.hours, dial.off.hours));
    let per_hour = f64::from(number("timer_dial", "degrees_per_hour"));
    for (name, back) in
        [("timer_dial", 0.0), ("timer_tripper_on", trippers.0), ("timer_tripper_off", trippers.1)]
    {
        let turned = (per_hour * (hours - back)) as f32;
        list.moved(Layer::Timer, name, about(anchor("timer_dial", "centre"), turned));
    }
    if let Some(run) = &view.run {
        run_parts(list, run);
    }
    let here = Transform::identity();
    list.live(Layer::Cords, ("sampler's cord", 58.0), here, live_parts::sampler_cord);
    list.live(Layer::Cords, ("blower's cord", 58.0), here, live_parts::blower_cord);
    list.moved(Layer::Cords, "plug_sampler", live_parts::sampler_plug(view));
    list.moved(Layer::Cords, "plug_blower", live_parts::blower_plug(view));
}
