//! The station as a whole, the sky, the edge, the watch.

use sim_core::session::SitePapers;
use sim_core::session::view::View;

use super::mounting::{elsewhere, inlet, lid, on_holder};
use super::power::{blower, blower_plug, outlet, sampler_cord};
use super::scale::steps;
use crate::prose::sentence;

/// The whole station, a sentence for each thing.
pub(super) fn whole(view: &View, papers: &SitePapers) -> String {
    let mut said = vec![sentence(lid(view.mounting.lid_open)), sentence(&on_holder(view))];
    said.extend(elsewhere(view).iter().map(|text| sentence(text)));
    said.push(sentence(sampler_cord(view.power.sampler_cord_in)));
    said.push(sentence(blower_plug(view.power.blower_plug)));
    said.extend(outlet(view).into_iter().map(sentence));
    said.extend(inlet(view).as_deref().map(sentence));
    said.push(blower(view));
    said.push(sky(view));
    format!("{}\n{}\n{}", super::papers::station_card(papers), watch(view), said.join(" "))
}

/// The sky and the wind.
pub(super) fn sky(view: &View) -> String {
    let seen = &view.sky;
    let sun = if seen.sunny { "the sun shines on the roof" } else { "the sky is overcast" };
    let wind = if seen.wind < 0.15 {
        "the air is calm"
    } else if seen.wind < 0.5 {
        "a light wind blows"
    } else if seen.wind < 0.8 {
        "the wind is gusty"
    } else {
        "the wind blows in strong gusts"
    };
    let thunder = match seen.thunder_since_s {
        Some(since) if since < 60.0 => " You hear thunder.".to_owned(),
        Some(since) => {
            format!(" You first heard thunder about {} min ago.", steps(since, 60.0))
        }
        None => String::new(),
    };
    format!("{}{thunder}", sentence(&format!("{sun} and {wind}")))
}

/// The edge of the roof.
pub(super) fn roof_edge() -> String {
    "The ladder is at the edge of the roof. The station stands back from the edge.".to_owned()
}

/// The watch.
pub(super) fn watch(view: &View) -> String {
    let left = view.seconds_left.map_or_else(String::new, |left| {
        format!(" You have {} min left.", (left / 60.0).floor().max(0.0) as u64)
    });
    format!("It is {} on {}.{left}", view.time, view.date)
}
