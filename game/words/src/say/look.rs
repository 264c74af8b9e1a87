//! What is seen, heard and read of each thing.

use sim_core::rig::parts::Leg;
use sim_core::session::SitePapers;
use sim_core::session::action::Sight;
use sim_core::session::view::View;

use super::{air, calibrator, display, manometer, mounting, papers, power, recorder, run, station};
use crate::printable::printable;

/// What is seen when looking at something. `view` is as it is with the eyes on it: things that only
/// show in focus are left out otherwise.
pub fn look(view: &View, at: Sight, papers: &SitePapers) -> String {
    match at {
        Sight::Station => station::whole(view, papers),
        Sight::WorkOrder => papers::work_order(papers),
        Sight::Certificate(index) => papers::certificate(papers, index),
        Sight::Sky => station::sky(view),
        Sight::RoofEdge => station::roof_edge(),
        Sight::Watch => station::watch(view),
        Sight::WeatherSheet => run::weather(view),
        Sight::Barometer => air::barometer(view),
        Sight::Thermometer => air::thermometer(view),
        Sight::Holder => mounting::holder(view),
        Sight::Filter => match &view.run {
            Some(run) => run::filter(view, run),
            None => mounting::filter(view),
        },
        Sight::Calibrator => calibrator::calibrator(view),
        Sight::Tube => calibrator::tube(view),
        Sight::Manometer => match view.manometer.display {
            Some(seen) => display::whole(view, seen),
            None => manometer::whole(view),
        },
        Sight::LeftLeg => manometer::leg(view, Leg::Left),
        Sight::RightLeg => manometer::leg(view, Leg::Right),
        Sight::Display => display::display(view),
        Sight::Recorder => recorder::whole(view),
        Sight::Pen => recorder::pen(view),
        Sight::Controller => power::controller(view),
        Sight::Timer => power::timer(view),
        Sight::Plugs => power::plugs(view),
        Sight::Blower => power::blower(view),
    }
}

/// What you hear when you listen.
pub fn listen(view: &View) -> String {
    power::heard(view)
}

/// A paper as it is printed; empty for anything else.
pub fn paper(at: Sight, papers: &SitePapers) -> String {
    match at {
        Sight::WorkOrder => papers::work_order(papers),
        Sight::Certificate(index) => papers::certificate(papers, index),
        _ => String::new(),
    }
}

/// Says that the bench does not let something be done, and why.
pub fn refused(reason: &dyn std::fmt::Display) -> String {
    format!("That cannot be done: {}.", printable(&reason.to_string()))
}
