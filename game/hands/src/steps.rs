//! The advice as actions by hand: where the next step is done, and what is done for it. What is to be
//! done and why is decided and said by whoever gives the [`AdvisedStep`].

use content::SpeechService;
use content::advice::{AdvisedStep, Deed, first_actions};
use sim_core::field_book::Field;
use sim_core::rig::parts::AirOpening;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use crate::carried::{part_of, spot_of_place};
use crate::grain::Grain;
use crate::offers::offers;
use crate::spot::Spot;
use crate::turning::turn;

/// A step of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What to do.
    pub now: String,
    /// Why, with the source in brackets.
    pub why: String,
    /// How it is done.
    pub how: How,
    /// Where; `None` for the field book and the watch.
    pub at: Option<Spot>,
    /// What to beware of, with its source.
    pub caution: Option<&'static str>,
}

/// How a step is done.
#[derive(Debug, Clone, PartialEq)]
pub enum How {
    /// By hand or by looking, in this order.
    Hands(Vec<Action>),
    /// By letting this many seconds pass.
    Wait(f64),
    /// By writing your own value into this field.
    Write(Field),
    /// By signing the field book.
    Sign,
}

/// An advised step as it is done by hand, with the caution beside it.
pub fn step_by_hand(view: &View, advised: AdvisedStep, speech: &dyn SpeechService) -> Step {
    let AdvisedStep { now, why, deeds } = advised;
    let how = how(&deeds);
    let (at, caution) = match &how {
        How::Hands(actions) => (
            actions.iter().find_map(|action| spot_of(view, action)),
            actions.iter().find_map(|action| speech.caution(action)),
        ),
        How::Wait(_) | How::Write(_) | How::Sign => (None, None),
    };
    Step { now, why, how, at, caution }
}

/// What a piece of advice begins with: something by hand, a wait, a value of your own, or the
/// signature.
fn how(deeds: &[Deed]) -> How {
    match deeds.first() {
        Some(Deed::Wait(seconds)) => How::Wait(*seconds),
        Some(Deed::Write(field) | Deed::Do(Action::Write { field, .. })) => How::Write(*field),
        Some(Deed::Do(Action::Decide { decision, .. })) => How::Write(decision.field()),
        Some(Deed::Do(Action::Sign)) => How::Sign,
        _ => How::Hands(first_actions(deeds).cloned().collect()),
    }
}

/// The thing at which an action is done.
pub fn spot_of(view: &View, action: &Action) -> Option<Spot> {
    Some(match action {
        Action::Look { at, .. } => return seen_at(*at),
        Action::Listen if view.calibrator.blocked => Spot::Openings,
        Action::Listen | Action::FitGasket { .. } => Spot::Holder,
        Action::OpenLid | Action::CloseLid => Spot::Lid,
        Action::TurnNut { nut, .. } | Action::SetWasher { nut, .. } => Spot::Nut(*nut),
        Action::Take { part } => {
            return Spot::all().into_iter().find(|&spot| part_of(spot) == Some(*part));
        }
        Action::Put { place } => return spot_of_place(*place),
        Action::TurnValve { leg, .. } => Spot::Valve(*leg),
        Action::SlideScale { .. } => Spot::Scale,
        Action::SwingManometer { .. }
        | Action::AddFluid { .. }
        | Action::ChangeFluid { .. }
        | Action::SwitchManometer { .. }
        | Action::ZeroManometer
        | Action::ChangeBattery => Spot::Manometer,
        Action::ConnectTube
        | Action::DisconnectTube
        | Action::StraightenTube
        | Action::DrainTube
        | Action::BlowThrough => Spot::Tube,
        Action::PlugSampler | Action::UnplugSampler => Spot::Cord,
        Action::PlugBlower { .. } => Spot::BlowerPlug,
        Action::SwitchLine { .. } => Spot::LineOutlet,
        Action::SwitchTimer { .. } => Spot::Timer,
        Action::TurnTrim { .. } => Spot::Controller,
        Action::TurnKnob { .. } => Spot::Knob,
        Action::TakeOutPlate | Action::PutInPlate { .. } => Spot::Plates,
        Action::BlockOpenings | Action::FreeOpenings => Spot::Openings,
        Action::OpenDoor | Action::CloseDoor => Spot::Door,
        Action::UncapPen | Action::CapPen | Action::LowerPen | Action::LiftPen => Spot::Pen,
        Action::FitChart | Action::TurnChart { .. } | Action::MarkChart { .. } => Spot::Chart,
        Action::SetPenZero { .. } => Spot::ZeroScrew,
        Action::Tap => Spot::Recorder,
        Action::PlaceThermometer { .. } => Spot::Thermometer,
        Action::SetBarometer { .. } => Spot::Barometer,
        Action::LeaveRoof | Action::LeaveSite => Spot::RoofEdge,
        Action::TakeFilter { .. }
        | Action::HoldToLight
        | Action::TurnFilter
        | Action::CentreFilter
        | Action::FoldFilter { .. }
        | Action::AddFilter
        | Action::RemoveAddedFilter => Spot::Filter,
        Action::SetTripper { trip, .. } | Action::FastenTripper { trip } => Spot::Tripper(*trip),
        Action::SetDial { .. } => Spot::Dial,
        Action::TakeChart => Spot::Chart,
        Action::ClearOpening { opening: AirOpening::Inlet } => Spot::Lid,
        Action::ClearOpening { opening: AirOpening::Exhaust } => Spot::Blower,
        Action::TendRecorderLine { .. } => Spot::Recorder,
        Action::ResetOutlet => Spot::LineOutlet,
        Action::ChangeCord => Spot::Cord,
        Action::ChangeBrushes => Spot::BlowerPlug,
        Action::Write { .. }
        | Action::Strike { .. }
        | Action::Decide { .. }
        | Action::Report(_)
        | Action::AskHelp { .. }
        | Action::ReadInWords
        | Action::MarkChecklist { .. }
        | Action::Wait { .. }
        | Action::Sign => return None,
    })
}

/// The thing that a sight belongs to.
const fn seen_at(sight: Sight) -> Option<Spot> {
    use sim_core::rig::parts::Leg;
    Some(match sight {
        Sight::Station => Spot::Ground,
        Sight::WorkOrder => Spot::WorkOrder,
        Sight::Certificate(_) => Spot::Certificates,
        Sight::Sky => Spot::Sky,
        Sight::RoofEdge => Spot::RoofEdge,
        Sight::Barometer => Spot::Barometer,
        Sight::Thermometer => Spot::Thermometer,
        Sight::Holder => Spot::Holder,
        Sight::Filter => Spot::Filter,
        Sight::Calibrator => Spot::Calibrator,
        Sight::Tube => Spot::Tube,
        Sight::Manometer => Spot::Manometer,
        Sight::Display => Spot::Display,
        Sight::LeftLeg => Spot::Leg(Leg::Left),
        Sight::RightLeg => Spot::Leg(Leg::Right),
        Sight::Recorder => Spot::Recorder,
        Sight::Pen => Spot::Pen,
        Sight::Controller => Spot::Controller,
        Sight::Timer => Spot::Timer,
        Sight::Plugs => Spot::Cord,
        Sight::Blower => Spot::Blower,
        Sight::WeatherSheet => Spot::WeatherSheet,
        Sight::Watch => return None,
    })
}

/// An action in the words of the hand card, with its key: `at the timer, key 1: switch the timer
/// off`. An action that is not among the offers is done by turning or sliding, or said in plain words.
pub fn in_hands(view: &View, action: &Action, speech: &dyn SpeechService) -> String {
    let Some(spot) = spot_of(view, action) else { return speech.action(action) };
    let name = spot.name();
    if let Some(offer) = offers(view, spot).into_iter().find(|offer| offer.action == *action) {
        return format!("at the {name}, key {}: {}", offer.key, offer.words);
    }
    let plain = speech.action(action);
    if turn(view, spot, 1, Grain::Coarse).is_some() {
        return format!("at the {name}, with the arrows or the wheel: {plain}");
    }
    format!("at the {name}: {plain}")
}

#[cfg(test)]
mod tests {
    use content::sample;

    use super::*;

    #[test]
    fn every_thing_is_where_its_own_offers_are_done() {
        // Whatever the hand card offers at a thing is done at that thing, or at the part and place
        // that it is about.
        let view = sample::view();
        for spot in Spot::all() {
            for offer in offers(&view, spot) {
                let at = spot_of(&view, &offer.action);
                assert!(at.is_some(), "{} is done nowhere", offer.words);
            }
        }
    }
}
