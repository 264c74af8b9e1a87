//! What is still undone before the field book is signed: blank entries, and what is not put back. Only
//! what anybody would see who looks around once more.

use sessions::LiveSession;
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::scenario::setup::LessonPhase;
use sim_core::session::action::OnOff;
use sim_core::session::view::{NutFeel, View};

use super::form::lacking;
use crate::say::power::HEARD;

/// The answer to somebody who asks what is still undone.
pub(super) fn answer(session: &dyn LiveSession) -> String {
    undone(session).unwrap_or_else(|| "Nothing that can be seen is left undone.".to_owned())
}

/// Everything that is undone, in sentences; nothing where all is done.
pub(super) fn undone(session: &dyn LiveSession) -> Option<String> {
    let order = session.papers().work_order;
    let phases = session.papers().terms.phases;
    // A lesson that ends before the station is restored leaves everything as it is.
    let restored = phases.is_none_or(|phases| {
        [LessonPhase::Restoring, LessonPhase::Recovery].iter().any(|phase| phases.to >= *phase)
    });
    let standing = if session.is_away() || !restored {
        Vec::new()
    } else {
        standing(&session.view(), order.next_run().is_some())
    };
    let lacking = lacking(session.book(), order, phases);
    let mut said = Vec::new();
    if !standing.is_empty() {
        said.push(format!("Still undone: {}.", standing.join("; ")));
    }
    if !lacking.is_empty() {
        said.push(format!("The field book lacks: {}.", lacking.join("; ")));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

/// What is not put back, in the order of the work. Where the next run is set up, the pen stays down.
fn standing(view: &View, next_run: bool) -> Vec<&'static str> {
    let place = |part| view.mounting.place(part);
    let nuts = || view.mounting.nuts.iter();
    let frame_on = place(RigPart::Frame) == PartPlace::Holder;
    let checks = [
        (view.blower.loudness >= HEARD && !next_run, "the blower is running"),
        (
            view.power.blower_plug == BlowerPlug::LineOutlet,
            "the blower is plugged into the mains outlet and not into the flow controller",
        ),
        (view.power.blower_plug == BlowerPlug::Loose, "the blower is not plugged in"),
        (view.power.line_switch == OnOff::On, "the mains outlet is switched on"),
        (view.calibrator.blocked, "the calibrator's openings are covered"),
        (view.tube.on_tap, "the tubing is on the pressure tap"),
        (place(RigPart::Calibrator) == PartPlace::Adapter, "the calibrator is mounted"),
        (place(RigPart::Adapter) == PartPlace::Holder, "the adapter plate is on the holder"),
        (place(RigPart::Manometer) == PartPlace::Hook, "the manometer is on its hook"),
        (place(RigPart::Calibrator) == PartPlace::Ground, "the calibrator lies on the roof"),
        (place(RigPart::Adapter) == PartPlace::Ground, "the adapter plate lies on the roof"),
        (place(RigPart::Manometer) == PartPlace::Ground, "the manometer lies on the roof"),
        (place(RigPart::Filter) == PartPlace::Ground, "the filter lies on the roof"),
        (!frame_on, "the hold-down frame is not back on the holder"),
        (
            frame_on && nuts().any(|nut| matches!(nut.feel, NutFeel::Free)),
            "a nut of the hold-down frame is loose",
        ),
        (view.hand.is_some(), "you have something in your hand"),
        (!view.recorder.capped && !next_run, "the pen is uncapped"),
        (next_run && (view.recorder.capped || !view.recorder.on_paper), "the pen is not down"),
        (view.recorder.door_open, "the recorder's door is open"),
        (view.mounting.lid_open, "the lid is open"),
    ];
    checks.into_iter().filter(|(undone, _)| *undone).map(|(_, words)| words).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use content::sample;

    #[test]
    fn what_is_not_put_back_is_told() {
        let mut view = sample::view();
        let told = standing(&view, false);
        for words in [
            "the blower is plugged into the mains outlet and not into the flow controller",
            "the tubing is on the pressure tap",
            "the calibrator is mounted",
            "the hold-down frame is not back on the holder",
            "the pen is uncapped",
            "the lid is open",
        ] {
            assert!(told.contains(&words), "{words}: {told:?}");
        }
        view.power.blower_plug = BlowerPlug::Controller;
        view.tube.on_tap = false;
        view.mounting.places =
            [PartPlace::Holder, PartPlace::Case, PartPlace::Case, PartPlace::Case, PartPlace::Case];
        view.recorder.capped = true;
        view.recorder.door_open = false;
        view.mounting.lid_open = false;
        assert_eq!(standing(&view, false), Vec::<&str>::new());
        assert_eq!(standing(&view, true), ["the pen is not down"]);
    }
}
