//! Filter, timer, chart of a run, and leaving the site.

use sim_core::rig::parts::{FilterSide, Trip};
use sim_core::session::action::{Action, OnOff};

use super::form::{Form, form, one};
use super::trouble::but;
use crate::moves::set_dial_to_watch;

pub(super) const FORMS: &[Form] = &[
    form(
        &[
            "take|pick|lift|grab|remove|get|hold up|out? fresh|new? filter up|out? by its|two|both? <grip>",
            "take|pick|lift|grab|get fresh|new? filter out|from? from? folder by its|two|both? <grip>",
        ],
        &["take filter by its edges"],
        "from the folder, the next fresh one",
        |caught, _| one(Action::TakeFilter { grip: caught.grip()? }),
    ),
    form(
        &[
            "hold filter to|against|up light",
            "hold filter up to|against light",
            "check|look|inspect at? filter against|through|in light",
        ],
        &["hold filter to light"],
        "to look for pinholes",
        |_, _| one(Action::HoldToLight),
    ),
    form(
        &["set|move|put <on-off> tripper to|at|on <weekday> at|on? <clock>"],
        &["set on tripper to monday at 0:00", "set off tripper to tuesday at 0:00"],
        "to a day and hour of the timer's dial",
        |caught, _| {
            let hours = caught.number()?;
            let (trip, weekday) = (trip(caught.on_off()?), caught.weekday()?);
            one(Action::SetTripper { trip, weekday, hours })
        },
    ),
    form(
        &[
            "leave|quit site",
            "leave for night|run",
            "go|drive home|back|away to? office?",
            "go|drive home",
        ],
        &["leave site"],
        "the timer runs the sampler until you come back",
        |_, _| one(Action::LeaveSite),
    ),
    form(
        &["turn|flip filter over?", "turn|flip over filter"],
        &["turn filter over"],
        "",
        |_, _| one(Action::TurnFilter),
    ),
    form(
        &["centre|center filter on? holder?"],
        &["centre filter"],
        "on the holder, while the frame is off",
        |_, _| one(Action::CentreFilter),
    ),
    form(
        &[
            "add|lay|put another|second|third|extra|clean clean? filter on? top? holder?",
            "add filter on? top?",
        ],
        &["add another filter"],
        "on the one on the holder, to test the controller; while the frame is off",
        |_, _| one(Action::AddFilter),
    ),
    form(
        &["take|lift|remove|get added|extra|top|topmost|upper filter off|out?"],
        &["take added filter off"],
        "the topmost of those that were added",
        |_, _| one(Action::RemoveAddedFilter),
    ),
    form(
        &["fold filter in? half? with? <side> side? out|outwards|outside"],
        &["fold filter smooth side out", "fold filter rough side out"],
        "in half",
        |caught, _| one(Action::FoldFilter { out: caught.side()? }),
    ),
    form(
        &[
            "fold filter in? half? with? <side> side? in|inwards|inside",
            "fold filter in? half? with? dust in|inwards|inside",
        ],
        &["fold filter dirty side in"],
        "the same, by the side that is inside",
        |caught, _| {
            let inside = caught.side().unwrap_or(FilterSide::Rough);
            let out = match inside {
                FilterSide::Rough => FilterSide::Smooth,
                FilterSide::Smooth => FilterSide::Rough,
            };
            one(Action::FoldFilter { out })
        },
    ),
    form(&["fold filter"], &[], "", |_, _| {
        but("say which side is out: `fold filter smooth side out` keeps the dust inside")
    }),
    form(
        &["tighten|fasten|screw screw|down? <on-off> tripper screw|down?"],
        &["tighten off tripper"],
        "its screw",
        |caught, _| one(Action::FastenTripper { trip: trip(caught.on_off()?) }),
    ),
    form(
        &["set|turn timer? dial to|by|from watch|clock", "set timer to|by|from watch|clock"],
        &["set dial to watch"],
        "day and hour as on your watch",
        |_, known| one(set_dial_to_watch(known.view)),
    ),
    form(
        &["set|turn timer? dial to|at|on <weekday> at? <clock>"],
        &["set dial to monday at 8:15"],
        "of the timer",
        |caught, _| one(Action::SetDial { weekday: caught.weekday()?, hours: caught.number()? }),
    ),
    form(
        &[
            "take old|used? chart off|out and? keep? it?",
            "take off|out old|used? chart",
            "keep chart",
            "remove old|used? chart and? keep? it?",
        ],
        &["take chart off"],
        "after a run; a fresh one goes on",
        |_, _| one(Action::TakeChart),
    ),
];

/// The tripper of that name.
const fn trip(to: OnOff) -> Trip {
    match to {
        OnOff::On => Trip::On,
        OnOff::Off => Trip::Off,
    }
}
