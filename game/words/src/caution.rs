//! Cautions: one table for the words, the window and the report. Each stands beside what can hurt, and
//! is shown before it is done where that can be; what belongs to the roof itself is said on arrival.
//!
//! How well the sources are known: 29 CFR 1910.333(a)(1), 1910.147(a)(2)(iii)(A) and 1910.28(b)(13) are
//! read second-hand. 29 CFR 1910.23(b), 1910.28(b)(3) and 1910.95, and the 30 minutes of the National
//! Weather Service, are from memory. The site's own rules come first.

use sim_core::rig::parts::{BlowerPlug, GaugeFluid, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight};

/// A caution.
#[derive(Debug)]
pub struct Caution {
    /// What can hurt, in a word or two.
    pub about: &'static str,
    /// What to do about it, without its source and the last full stop.
    pub words: &'static str,
    /// Its source, as it is cited.
    pub source: &'static str,
    /// All of it: the words with their source.
    pub whole: &'static str,
    when: When,
    /// The actions before which it is shown.
    before: fn(&Action) -> bool,
}

/// When a caution is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum When {
    /// On arrival, and before its actions.
    OnArrival,
    /// Only before its actions.
    Before,
}

macro_rules! caution {
    ($about:literal, $words:literal, $source:literal, $when:ident, $before:expr) => {
        Caution {
            about: $about,
            words: $words,
            source: $source,
            whole: concat!($words, " (", $source, ")."),
            when: When::$when,
            before: $before,
        }
    };
}

/// Every caution. Of several that stand beside one action, the most important comes first.
pub static CAUTIONS: &[Caution] = &[
    caution!(
        "roof edge",
        "Within 6 ft of the roof edge, work behind a guard or tied off; beyond that, other duties apply",
        "29 CFR 1910.28(b)(13)",
        OnArrival,
        |action| matches!(action, Action::Look { at: Sight::RoofEdge, .. })
    ),
    caution!(
        "fragile roof",
        "Skylights, old sheeting and rotten decking may not carry you: walk only where the roof is \
         known to",
        "29 CFR 1910.28(b)(3)",
        OnArrival,
        |_| false
    ),
    caution!(
        "ladder",
        "Face the ladder, keep three points of contact, and carry tools in a bag and not in your hand",
        "29 CFR 1910.23(b)",
        OnArrival,
        |action| matches!(action, Action::LeaveRoof | Action::LeaveSite)
    ),
    caution!(
        "lightning",
        "At the first thunder leave the roof, and stay off it until 30 minutes after the last",
        "US National Weather Service",
        OnArrival,
        |action| matches!(action, Action::Look { at: Sight::Sky, .. })
    ),
    caution!(
        "weather",
        "Heat, cold, wind, wet and ice make a roof dangerous: stop while you still stand, grip and \
         think well",
        "common practice",
        OnArrival,
        |_| false
    ),
    caution!(
        "working alone",
        "If you work alone, tell somebody where you are and when you will be back, and carry a telephone",
        "common practice",
        OnArrival,
        |_| false
    ),
    caution!(
        "site",
        "Watch for traffic and for other work on the site, and report to whoever runs it",
        "common practice",
        OnArrival,
        |_| false
    ),
    caution!(
        "electricity",
        "Put hands in only when all is off, the sampler is unplugged with its plug in your keeping, and \
         the blower is in no live outlet. If wiring is damaged, stop, and leave it to a licensed \
         electrician and the local code",
        "29 CFR 1910.333(a)(1) and 1910.147(a)(2)(iii)(A)",
        Before,
        |action| {
            matches!(
                action,
                Action::OpenLid
                    | Action::Take { part: RigPart::Frame }
                    | Action::TurnNut { quarter_turns: i8::MIN..=-1, .. }
                    | Action::FitGasket { .. }
                    | Action::TakeOutPlate
                    | Action::PutInPlate { .. }
                    | Action::ChangeBrushes
            )
        }
    ),
    caution!(
        "mains",
        "At a mains outlet, have dry hands, a sound cord, ground-fault protection and the switch off; \
         pull the plug, never the cord. If anything looks damaged, stop, and leave it to a licensed \
         electrician and the local code",
        "common practice",
        Before,
        |action| matches!(
            action,
            Action::PlugSampler | Action::UnplugSampler | Action::ResetOutlet | Action::ChangeCord
        ) || plugs_blower(action)
    ),
    caution!(
        "brushes",
        "The motor's brushes spark and give off ozone and carbon dust: run it in open air, away from \
         flammable vapours, and do not breathe the dust",
        "common practice",
        Before,
        plugs_blower
    ),
    caution!(
        "rotating motor",
        "Before the motor runs up, have hands, cords and sleeves clear, and the lid and plates in place",
        "common practice",
        Before,
        starts
    ),
    caution!(
        "noise",
        "A running blower is loud: wear hearing protection beside it",
        "29 CFR 1910.95",
        Before,
        starts
    ),
    caution!(
        "manometer",
        "Before you cover the openings, shut the manometer's valves or pull its tube off: the whole \
         suction of the blower stands on it then, and pulls its water over. And no air cools the \
         blower: cover them for 30 s at most",
        "40 CFR Part 50, App. B, 9.2.3, and common practice",
        Before,
        |action| matches!(action, Action::BlockOpenings)
    ),
    caution!(
        "antifreeze",
        "Antifreeze is harmful if it is swallowed: wear gloves, and wipe up what you spill",
        "common practice",
        Before,
        |action| matches!(action, Action::ChangeFluid { to: GaugeFluid::Antifreeze })
    ),
    caution!(
        "blower without air",
        "With the openings covered no air cools the blower: cover them for 30 s at most",
        "common practice",
        Before,
        |action| matches!(action, Action::BlockOpenings)
    ),
    caution!(
        "hot blower",
        "The blower stays hot long after it stops: look, and do not touch",
        "common practice",
        Before,
        |action| matches!(action, Action::Look { at: Sight::Blower, .. })
    ),
    caution!(
        "insects",
        "Wasps and spiders nest in shelters: open the lid slowly, and look before you reach in",
        "common practice",
        Before,
        |action| matches!(action, Action::OpenLid | Action::ClearOpening { .. })
    ),
    caution!(
        "glass fibres",
        "Hold a glass-fibre filter by its edges with gloves or tweezers: its fibres irritate skin and \
         eyes",
        "common practice",
        Before,
        |action| matches!(
            action,
            Action::Take { part: RigPart::Filter } | Action::TakeFilter { .. }
        )
    ),
    caution!(
        "dust on a filter",
        "An exposed filter carries the dust of a whole day: fold the dirty side in, and keep the dust \
         off your skin and out of your lungs",
        "common practice",
        Before,
        |action| matches!(action, Action::FoldFilter { .. })
    ),
    caution!(
        "lifting",
        "Lift with both feet firm and the load close to your body, away from the edge",
        "common practice",
        Before,
        |action| match action {
            Action::Take { part } => !matches!(part, RigPart::Filter),
            Action::Put { place } =>
                matches!(place, PartPlace::Holder | PartPlace::Adapter | PartPlace::Hook),
            _ => false,
        }
    ),
    caution!(
        "glass",
        "The manometer and the thermometer are made of glass: carry them upright, and pick up broken \
         glass with gloves",
        "common practice",
        Before,
        |action| {
            matches!(
                action,
                Action::Take { part: RigPart::Manometer }
                    | Action::SwingManometer { .. }
                    | Action::PlaceThermometer { .. }
            )
        }
    ),
];

/// Whether an action connects the blower's motor to power.
const fn plugs_blower(action: &Action) -> bool {
    matches!(action, Action::PlugBlower { into: BlowerPlug::Controller | BlowerPlug::LineOutlet })
}

/// Whether an action may start the motor.
const fn starts(action: &Action) -> bool {
    matches!(
        action,
        Action::SwitchLine { to: OnOff::On } | Action::SwitchTimer { to: TimerSwitch::On }
    )
}

/// The cautions that belong beside an action, the most important first.
pub fn cautions(action: &Action) -> impl Iterator<Item = &'static Caution> {
    let action = action.clone();
    CAUTIONS.iter().filter(move |caution| (caution.before)(&action))
}

/// The most important caution beside an action, with its source in brackets.
pub fn caution(action: &Action) -> Option<&'static str> {
    cautions(action).next().map(|caution| caution.whole)
}

/// The cautions of the roof itself, which are said on arrival.
pub fn cautions_on_arrival() -> impl Iterator<Item = &'static Caution> {
    CAUTIONS.iter().filter(|caution| caution.when == When::OnArrival)
}

#[cfg(test)]
mod tests {
    use super::*;
    use sim_core::rig::parts::{AirOpening, FilterSide, Gasket, Grip, Nut};
    use sim_core::session::action::Exposure;

    fn about(action: &Action) -> Vec<&'static str> {
        cautions(action).map(|caution| caution.about).collect()
    }

    #[test]
    fn cautions_stand_beside_what_can_hurt() {
        let nut = Nut::ALL[0];
        for (action, wanted) in [
            (Action::PlugSampler, vec!["mains"]),
            (Action::UnplugSampler, vec!["mains"]),
            (Action::PlugBlower { into: BlowerPlug::Loose }, vec![]),
            (Action::PlugBlower { into: BlowerPlug::Controller }, vec!["mains", "brushes"]),
            (Action::SwitchLine { to: OnOff::On }, vec!["rotating motor", "noise"]),
            (Action::SwitchTimer { to: TimerSwitch::On }, vec!["rotating motor", "noise"]),
            (Action::SwitchLine { to: OnOff::Off }, vec![]),
            (Action::OpenLid, vec!["electricity", "insects"]),
            (Action::TurnNut { nut, quarter_turns: -1 }, vec!["electricity"]),
            (Action::TurnNut { nut, quarter_turns: 1 }, vec![]),
            (Action::FitGasket { gasket: Gasket::Holder }, vec!["electricity"]),
            (Action::BlockOpenings, vec!["manometer", "blower without air"]),
            (Action::ChangeFluid { to: GaugeFluid::Antifreeze }, vec!["antifreeze"]),
            (Action::ChangeFluid { to: GaugeFluid::Water }, vec![]),
            (Action::TakeOutPlate, vec!["electricity"]),
            (Action::Look { at: Sight::Blower, eye_mm: 0.0 }, vec!["hot blower"]),
            (Action::TakeFilter { grip: Grip::Edges }, vec!["glass fibres"]),
            (Action::FoldFilter { out: FilterSide::Smooth }, vec!["dust on a filter"]),
            (Action::Take { part: RigPart::Frame }, vec!["electricity", "lifting"]),
            (Action::Take { part: RigPart::Manometer }, vec!["lifting", "glass"]),
            (Action::Put { place: PartPlace::Hook }, vec!["lifting"]),
            (Action::PlaceThermometer { at: Exposure::Shade }, vec!["glass"]),
            (Action::Look { at: Sight::RoofEdge, eye_mm: 0.0 }, vec!["roof edge"]),
            (Action::Look { at: Sight::Sky, eye_mm: 0.0 }, vec!["lightning"]),
            (Action::LeaveRoof, vec!["ladder"]),
            (Action::LeaveSite, vec!["ladder"]),
            (Action::Tap, vec![]),
            (Action::ClearOpening { opening: AirOpening::Inlet }, vec!["insects"]),
            (Action::ResetOutlet, vec!["mains"]),
            (Action::ChangeCord, vec!["mains"]),
        ] {
            assert_eq!(about(&action), wanted, "{action:?}");
        }
    }

    #[test]
    fn edge_ladder_and_sky_are_said_on_arrival() {
        let about: Vec<_> = cautions_on_arrival().map(|caution| caution.about).collect();
        let roof = ["roof edge", "fragile roof", "ladder", "lightning", "weather", "working alone"];
        assert_eq!(about, [&roof[..], &["site"]].concat());
    }

    #[test]
    fn who_meets_electricity_is_sent_to_an_electrician() {
        for caution in CAUTIONS {
            let electric = ["electricity", "mains"].contains(&caution.about);
            let sends = caution.words.contains("stop, and leave it to a licensed electrician")
                && caution.words.contains("the local code");
            assert_eq!(electric, sends, "{}", caution.whole);
        }
    }

    #[test]
    fn a_caution_is_short_and_cites_its_source() {
        for caution in CAUTIONS {
            let Caution { words, source, whole, .. } = caution;
            assert!(words.len() < 300 && !words.ends_with('.'), "{words}");
            assert_eq!(*whole, format!("{words} ({source})."));
            assert!(!source.contains("memory") && !source.contains("hand"), "{source}");
        }
    }
}
