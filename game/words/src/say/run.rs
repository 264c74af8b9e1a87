//! Filter, timer, chart and weather of a run.

use content::names::weekday;
use sim_core::rig::parts::{FilterSide, RigPart, Seat, Trip};
use sim_core::scenario::setup::AddedFiltersOrder;
use sim_core::session::SitePapers;
use sim_core::session::view::View;
use sim_core::session::view::run::{Holes, RunStanding, RunView, TripperView};

use super::mounting::part_lies;
use super::scale::{steps, whole as divisions};
use crate::names::name;
use crate::parse::vocabulary::{SIDES, TRIPS};
use crate::printable::printable;
use crate::prose::{capital, sentences};

/// A pen below this drew no run, chart divisions.
const DRAWS: f64 = 10.0;

/// The timer's dial, trippers and elapsed-time meter.
pub(super) fn timer(run: &RunView) -> Vec<String> {
    let seen = &run.timer;
    vec![
        format!("its dial shows {} {}", day(seen.weekday), clock(seen.hours)),
        tripper(Trip::On, &seen.on),
        tripper(Trip::Off, &seen.off),
        format!("its elapsed-time meter shows {} min", tenths(seen.meter_min)),
    ]
}

fn tripper(trip: Trip, seen: &TripperView) -> String {
    let day = seen.weekday.map_or_else(|| "every day".to_owned(), day);
    let loose = if seen.loose == Some(true) { ", and slips under your finger" } else { "" };
    format!("the {} tripper is at {day} {}{loose}", name(TRIPS, &trip), clock(seen.hours))
}

/// The filter.
pub(super) fn filter(view: &View, run: &RunView) -> String {
    let seen = &run.filter;
    let mut said = vec![format!(
        "the filter {}",
        part_lies(RigPart::Filter, view.mounting.place(RigPart::Filter))
    )];
    if let Some(number) = &seen.number {
        said.push(format!("the number on its edge is {}", printable(number)));
    }
    if let Some(out) = seen.folded_out {
        said.push(format!("it is folded with its {} side out", side(out)));
    } else {
        said.push(format!("its {} side is up", side(seen.up)));
    }
    said.push(
        match steps(seen.grey, 0.1) {
            0 => "it is white",
            1..=3 => "it is light grey",
            4..=7 => "it is grey",
            _ => "it is dark grey",
        }
        .to_owned(),
    );
    if seen.damp {
        said.push("it feels damp".to_owned());
    }
    match seen.holes {
        Some(Holes::Sound) => said.push("no hole was visible against the light".to_owned()),
        Some(Holes::Pinholes) => {
            said.push("points of light showed through it".to_owned());
        }
        Some(Holes::Tear) => said.push("it is torn".to_owned()),
        None => {}
    }
    match seen.seat {
        Some(Seat::Centred) => said.push("its margins are even".to_owned()),
        Some(Seat::Shifted) => said.push("it lies off centre: one margin is bare".to_owned()),
        None => {}
    }
    match run.added_filters {
        0 => {}
        1 => said.push("another clean filter lies on it".to_owned()),
        count => said.push(format!("{count} more clean filters lie on it")),
    }
    if run.fresh_filters > 0 {
        said.push(match run.fresh_filters {
            1 => "there is 1 fresh filter in the folder".to_owned(),
            count => format!("there are {count} fresh filters in the folder"),
        });
    }
    if let Some(masses) = run.masses {
        let (before, after) = (masses.before_g, masses.after_g);
        let of = run
            .sample
            .as_ref()
            .map_or_else(String::new, |sample| format!(" for filter {}", printable(sample)));
        said.push(format!("the laboratory reports{of}: before {before:.4} g, after {after:.4} g"));
    }
    sentences(&said)
}

/// The trace of the run as it is read off the chart: one reading for each hour; empty without one.
pub(super) fn trace(run: &RunView) -> String {
    let Some(trace) = &run.kept_chart else { return String::new() };
    let mut said = String::from("The chart of the run, read at the middle of each hour:");
    for hour in 0..24_u32 {
        let middle = f64::from(hour) + 0.5;
        let drawn = |&&(at, pen): &&(f64, f64)| (at - middle).abs() < 0.06 && pen > DRAWS;
        let pen = trace.iter().find(drawn);
        let reading = pen.map_or("no trace".to_owned(), |&(_, pen)| divisions(pen));
        said.push_str(&format!("\n  {hour:02}:30  {reading}"));
    }
    said
}

/// The weather sheet.
pub(super) fn weather(view: &View) -> String {
    let lines = view.run.as_deref().map_or(&[][..], |run| &run.weather[..]);
    if lines.is_empty() {
        return "There is no weather sheet.".to_owned();
    }
    let mut said = String::from("The weather of the run, hour by hour: mmHg, degrees Celsius");
    for line in lines {
        let (date, time) = (line.date, line.time);
        said.push_str(&format!(
            "\n  {date} {time}  {:.1}  {:.1}",
            line.pressure_mmhg, line.temperature_c
        ));
    }
    said
}

/// What the work order says of the run.
pub(super) fn order(papers: &SitePapers) -> Vec<String> {
    let Some(run) = &papers.work_order.run else { return Vec::new() };
    let today = papers.station.date;
    let at = |moment: sim_core::scenario::run::ScheduledTime| {
        let date = today.later(i64::from(moment.day));
        format!("{} {date} {}", day(date.weekday()), moment.at)
    };
    let mut said = vec![
        format!("Run: on {}, off {}", at(run.on), at(run.off)),
        format!("Return: {}", at(run.back)),
    ];
    if let Some(next) = run.next {
        said.push(format!("Next run, to be set up: on {}, off {}", at(next.on), at(next.off)));
    }
    if let Some(AddedFiltersOrder { sheets, within_pct }) = run.added_filters {
        let more = match sheets {
            1 => "lay a second clean filter on the first",
            _ => "lay a second clean filter on the first, and then a third",
        };
        said.push(format!(
            "Test of the flow controller: once it is trimmed, {more}. Read the pen each time, and write by how \
             many percent the flow changed and with how many filters it is held: a change of at most \
             {within_pct} % counts as held. Take the added filters off before the run"
        ));
    }
    for filter in &run.filters {
        said.push(format!("Filter {}, {:.4} g", printable(&filter.number), filter.mass_g));
    }
    said
}

/// What is noticed of a run between two moments.
pub(super) fn notice(before: &View, after: &View) -> Vec<String> {
    let (Some(was), Some(is)) = (&before.run, &after.run) else { return Vec::new() };
    let mut said = Vec::new();
    if was.standing != RunStanding::Back && is.standing == RunStanding::Back {
        said.push(format!(
            "you are back at the site: it is {} {} {}",
            day(after.date.weekday()),
            after.date,
            after.time
        ));
    }
    if was.added_filters != is.added_filters {
        said.push(match is.added_filters {
            0 => "the filter on the holder lies alone again".to_owned(),
            count => format!("{} filters lie on each other", count + 1),
        });
    }
    let (was, is) = (&was.filter, &is.filter);
    if was.holes != is.holes && is.holes.is_some() {
        said.push(
            match is.holes {
                Some(Holes::Pinholes) => "points of light show through the filter",
                Some(Holes::Tear) => "the filter is torn",
                _ => "no light comes through the filter",
            }
            .to_owned(),
        );
    }
    if was.up != is.up {
        said.push(format!("the filter's {} side is up", side(is.up)));
    }
    said
}

fn side(side: FilterSide) -> &'static str {
    name(SIDES, &side)
}

/// A day of the week as it stands in a sentence, 0 for Monday.
fn day(day: u8) -> String {
    capital(weekday(day))
}

/// An hour of the dial to five minutes: `08:15`.
fn clock(hours: f64) -> String {
    let fives = steps(hours, 1.0 / 12.0).rem_euclid(288);
    format!("{:02}:{:02}", fives / 12, fives % 12 * 5)
}

/// A number with one decimal.
fn tenths(value: f64) -> String {
    let tenths = steps(value, 0.1);
    format!("{}.{}", tenths / 10, tenths.unsigned_abs() % 10)
}
