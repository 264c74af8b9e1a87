//! Whether somebody is at the site, and which day it is there.

use content::names::weekday;
use sim_core::session::view::View;
use sim_core::session::view::run::RunStanding;

/// Whether a run is ordered and nobody has left the site for it yet.
pub(super) fn lies_ahead(view: &View) -> bool {
    view.run.as_ref().is_some_and(|run| run.standing == RunStanding::Before)
}

/// Whether nobody is at the site.
pub fn is_away(view: &View) -> bool {
    view.run.as_ref().is_some_and(|run| run.standing == RunStanding::Away)
}

/// Day and time of day: `Wednesday 2026-05-13, 03:12`.
pub fn day_and_time(view: &View) -> String {
    let time = view.time.to_string();
    let minutes = time.rsplit_once(':').map_or(time.as_str(), |(minutes, _)| minutes);
    format!("{}, {minutes}", day(view))
}

/// The day: `Wednesday 2026-05-13`.
pub fn day(view: &View) -> String {
    let name = weekday(view.date.weekday());
    let mut letters = name.chars();
    let capital = letters.next().map(|first| first.to_ascii_uppercase());
    let name: String = capital.into_iter().chain(letters).collect();
    format!("{name} {}", view.date)
}
