//! What the manometer's water shows.

use sim_core::rig::manometer::IceLook;
use sim_core::rig::parts::{Leg, PartPlace, RigPart};
use sim_core::session::action::Action;
use sim_core::session::view::{EYE_LEG_IN, EYE_MARK_MM};

use crate::faults::bench::range;
use crate::faults::probe::{Probe, number, word};

pub const COLUMN: Probe = number!("the column, fully open", "in", EYE_LEG_IN, |bench| {
    bench.running(310.0);
    bench.column_in()
});

pub const SINKS: Probe = number!(
    "how far the column sinks within 15 s behind the closed left valve",
    "in",
    EYE_LEG_IN,
    |bench| {
        bench.running(60.0);
        let stood_in = bench.view().manometer.left.meniscus_in;
        bench.act(Action::TurnValve { leg: Leg::Left, quarter_turns: -4 });
        bench.wait(15.0);
        stood_in - bench.view().manometer.left.meniscus_in
    }
);

pub const DIPS: Probe =
    number!("how far the water dips under a breath", "in", EYE_LEG_IN, |bench| {
        bench.hung();
        bench.wait(5.0);
        bench.act(Action::BlowThrough);
        bench.wait(0.4);
        0.5 * bench.column_in().abs()
    });

pub const LEGS: Probe =
    number!("left leg above the right one, both ends open", "in", EYE_LEG_IN, |bench| {
        bench.hung();
        bench.column_in()
    });

pub const PLUMB: Probe =
    number!("the manometer against its plumb line, as it comes to hang", "degrees", 0.5, |bench| {
        bench.act(Action::Take { part: RigPart::Manometer });
        bench.act(Action::Put { place: PartPlace::Hook });
        bench.view().manometer.tilt_deg
    });

pub const ZERO: Probe = number!(
    "the menisci above the scale's zero after it was slid, both ends open",
    "in",
    EYE_LEG_IN,
    |bench| {
        bench.hung();
        let seen = bench.view().manometer;
        0.5 * (seen.left.meniscus_in + seen.right.meniscus_in)
    }
);

pub const RISE_AND_FALL: Probe = number!(
    "fall of the right leg less rise of the left one, fully open",
    "in",
    EYE_LEG_IN,
    |bench| {
        bench.running(310.0);
        let seen = bench.view().manometer;
        -seen.right.meniscus_in - seen.left.meniscus_in
    }
);

pub const CREEPS: Probe = number!(
    "how far the column still falls between 15 s and 2 min after the knob was turned",
    "in",
    EYE_LEG_IN,
    |bench| {
        bench.running(310.0);
        bench.act(Action::TurnKnob { opening: 0.3 });
        bench.wait(15.0);
        let early_in = bench.column_in();
        bench.wait(105.0);
        early_in - bench.column_in()
    }
);

pub const SWINGS: Probe =
    number!("how far the left leg moves within 30 s, both ends open", "in", EYE_LEG_IN, |bench| {
        bench.hung();
        range(bench, 30, |bench| bench.view().manometer.left.meniscus_in)
    });

pub const GLASS: Probe = word!("the water in the glass, as it comes to hang", |bench| {
    bench.act(Action::Take { part: RigPart::Manometer });
    bench.act(Action::Put { place: PartPlace::Hook });
    let seen = bench.view().manometer;
    match seen.ice {
        IceLook::Solid => "white and cracked",
        IceLook::Slush => "slush",
        IceLook::None if seen.dirty => "cloudy",
        IceLook::None => "clear",
    }
    .to_owned()
});

pub const MARK: Probe =
    number!("the level below the fill mark, both ends open", "mm", EYE_MARK_MM, |bench| {
        bench.hung();
        bench.view().manometer.below_mark_mm
    });
