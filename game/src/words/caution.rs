//! Cautions that stand beside the steps that can hurt.

use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, OnOff, Sight};

/// The caution that belongs beside an action, with its source in brackets.
///
/// Sources: 29 CFR 1910.333(a)(1), 1910.147(a)(2)(iii)(A) and 1910.28(b)(13), read second-hand; the
/// 30 minutes after thunder from memory of the US National Weather Service; the others are common
/// practice with no source. The site's own rules come first.
pub const fn caution(action: &Action) -> Option<&'static str> {
    match action {
        Action::OpenLid
        | Action::Take { part: RigPart::Frame }
        | Action::TurnNut { quarter_turns: i8::MIN..=-1, .. }
        | Action::FitGasket { .. } => Some(DEAD_FIRST),
        Action::PlugSampler
        | Action::UnplugSampler
        | Action::PlugBlower { into: BlowerPlug::Controller | BlowerPlug::LineOutlet } => {
            Some(MAINS_PLUG)
        }
        Action::SwitchLine { to: OnOff::On } | Action::SwitchTimer { to: TimerSwitch::On } => {
            Some(ROTATING)
        }
        Action::BlockOpenings => Some(HOT_BLOWER),
        Action::Take { part: RigPart::Filter }
        | Action::TakeFilter { .. }
        | Action::FoldFilter { .. } => Some(GLASS_FIBRE),
        Action::Take { part: RigPart::Calibrator | RigPart::Adapter }
        | Action::Put { place: PartPlace::Holder | PartPlace::Adapter } => Some(LIFTING),
        Action::Look { at: Sight::RoofEdge, .. } => Some(ROOF_EDGE),
        Action::Look { at: Sight::Sky, .. } => Some(LIGHTNING),
        Action::Look { at: Sight::Blower, .. } => Some(TOUCH_BLOWER),
        Action::LeaveRoof | Action::LeaveSite => Some(LADDER),
        _ => None,
    }
}

const DEAD_FIRST: &str = "hands go in only when all is switched off, the sampler's cord is out of \
    the mains and in your own keeping, and the blower's plug is in no live outlet (29 CFR 1910.333(a)(1) and 1910.147(a)(2)(iii)(A), read \
    second-hand).";
const MAINS_PLUG: &str = "mains: dry hands, a sound cord, an outlet with earth-fault \
    protection, the switch off; pull the plug, never the cord (common practice).";
const ROTATING: &str = "rotating motor: hands, cords and sleeves clear before it runs up; \
    lid and plates in place (common practice).";
const HOT_BLOWER: &str = "hot blower: covered, it has no air to cool it: 30 s at most \
    (common practice).";
const TOUCH_BLOWER: &str = "hot blower: it stays hot long after it stops; look, do not \
    touch (common practice).";
const GLASS_FIBRE: &str = "glass-fibre filter: hold it by its edges with gloves or \
    tweezers; its fibres irritate skin and eyes (common practice).";
const LIFTING: &str = "lifting: both feet firm, close to the body, away from the edge \
    (common practice).";
const ROOF_EDGE: &str = "roof edge: within 6 feet of it only behind a guard or tied on; \
    farther off the duties are less (29 CFR 1910.28(b)(13), read second-hand).";
const LADDER: &str = "ladder: face it, three points of contact, tools in a bag and not in \
    the hand (common practice).";
const LIGHTNING: &str = "lightning: at the first thunder leave the roof, and stay off until \
    30 minutes have passed since the last (from memory, US National Weather Service).";
