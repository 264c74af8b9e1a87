//! What is in the manometer: ice, dirt and frost before it is hung, too little of it once it hangs.

use super::memory::Memory;
use super::{Observation, Practice};
use crate::rig::manometer::IceLook;
use crate::rig::parts::{GaugeFluid, PartPlace, RigPart};
use crate::session::action::{Action, FaultKind, Response, Sight};

/// Below this, water may freeze while the work lasts, degrees Celsius.
const FROST_C: f64 = 1.0;
/// Level below the fill mark from which the manometer is topped up, mm.
const LOW_MM: f64 = 3.0;
/// Most that the dropper gives at once, mm of level.
const AT_ONCE_MM: f64 = 20.0;

/// Looks the manometer over in its case, and fills it anew if it has to be.
pub(super) fn before_hanging(observed: &Observation<'_>, memory: &mut Memory) {
    let seen = &observed.view.manometer;
    let air_c = memory.arrival_c.unwrap_or(observed.view.thermometer.column_c);
    let frost = air_c < FROST_C && memory.habits.frost == Practice::Kept;
    let wanted = if frost { GaugeFluid::Antifreeze } else { GaugeFluid::Water };
    let ice = seen.ice != IceLook::None;
    if ice || seen.dirty {
        memory.looks(Sight::Manometer);
    }
    let looks_frozen = seen.ice == IceLook::Solid;
    if looks_frozen {
        memory
            .thinks("The legs are white and cracked: the water is ice, and nothing in them moves.");
    } else if seen.dirty {
        memory.thinks(
            "The water is cloudy, and drops cling to the glass: the menisci will not come to rest.",
        );
    } else if frost && seen.fluid == GaugeFluid::Water {
        memory.thinks(format!(
            "The air is at {air_c:.1} °C: water would freeze in the manometer. It is filled with antifreeze."
        ));
    }
    if seen.fluid == GaugeFluid::Water && (looks_frozen || seen.dirty || frost) {
        refills(wanted, observed, memory);
    }
    if looks_frozen {
        memory.reports(
            FaultKind::ManometerFrozen,
            Response::Repaired,
            "the water in the manometer was frozen; thawed in the van and filled anew",
        );
    } else if seen.dirty {
        memory.reports(
            FaultKind::ManometerDirtyWater,
            Response::Repaired,
            "the water in the manometer was dirty; changed",
        );
    }
    if (looks_frozen || seen.dirty) && seen.below_mark_mm > LOW_MM {
        memory.reports(
            FaultKind::ManometerLowWater,
            Response::Repaired,
            "the water stood below the fill mark; filled anew to the mark",
        );
    }
}

/// Empties the manometer in the van and fills it with this.
fn refills(to: GaugeFluid, observed: &Observation<'_>, memory: &mut Memory) {
    if observed.view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        memory.moves(RigPart::Manometer, PartPlace::Case);
    }
    let looks = memory.habits.tube_check == Practice::Kept;
    if observed.view.tube.drops && looks {
        memory.looks(Sight::Tube);
        memory.reports(
            FaultKind::TubeWet,
            Response::Repaired,
            "water stood in the tube; dried with the manometer",
        );
    }
    memory.does(Action::ChangeFluid { to });
    memory.density = match memory.habits.density {
        Practice::Kept => to.relative_density(),
        Practice::Skipped => 1.0,
    };
    if to == GaugeFluid::Antifreeze {
        memory.thinks(format!(
            "The bottle says {:.2} times as dense as water: both legs together are multiplied by that.",
            to.relative_density()
        ));
    }
}

/// Compares the level at rest with the fill mark. True if fluid is added, and the water has to come to
/// rest again.
pub(super) fn tops_up(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let below_mm = observed.view.manometer.below_mark_mm;
    if below_mm <= LOW_MM || memory.habits.zeroing == Practice::Skipped {
        return false;
    }
    memory.thinks(format!(
        "The level is {below_mm:.0} mm below the fill mark (at most {LOW_MM:.0} mm): it is topped up."
    ));
    let mut left_mm = below_mm;
    while left_mm > 0.5 {
        let by_mm = left_mm.min(AT_ONCE_MM).round();
        memory.does(Action::AddFluid { by_mm });
        left_mm -= by_mm;
    }
    memory.reports(
        FaultKind::ManometerLowWater,
        Response::Repaired,
        "the water stood below the fill mark; topped up and zeroed again",
    );
    memory.looks(Sight::Manometer);
    memory.waits(5.0);
    true
}
