//! The advice as actions by hand: where the next step is done, and what is done for it. Only
//! [`advice`](words::advice) decides what is to be done and why.

use sim_core::field_book::{Field, FieldBook};
use sim_core::session::SitePapers;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;
use words::advice::{self, Advice, Deed, History};

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

/// The next step of the work, from what can be seen, the field book, the papers and what was done.
pub fn next_step(
    view: &View,
    book: &FieldBook,
    papers: &SitePapers<'_>,
    history: &History,
) -> Step {
    let advice = advice::what_now(view, book, papers, history);
    let how = how(&advice);
    let (at, caution) = match &how {
        How::Hands(deeds) => (
            deeds.iter().find_map(|deed| spot_of(view, deed)),
            deeds.iter().find_map(words::caution),
        ),
        How::Wait(_) | How::Write(_) | How::Sign => (None, None),
    };
    Step { now: advice::step(view, &advice), why: advice::why(&advice), how, at, caution }
}

/// What a piece of advice begins with: something by hand, a wait, a value of your own, or the
/// signature.
fn how(advice: &Advice) -> How {
    match advice.deeds.first() {
        Some(Deed::Wait(seconds)) => How::Wait(*seconds),
        Some(Deed::Write(field) | Deed::Do(Action::Write { field, .. })) => How::Write(*field),
        Some(Deed::Do(Action::Sign)) => How::Sign,
        _ => How::Hands(advice.actions().cloned().collect()),
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
        Action::SwingManometer { .. } => Spot::Manometer,
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
        | Action::FoldFilter { .. } => Spot::Filter,
        Action::SetTripper { trip, .. } | Action::FastenTripper { trip } => Spot::Tripper(*trip),
        Action::SetDial { .. } => Spot::Dial,
        Action::TakeChart => Spot::Chart,
        Action::Write { .. }
        | Action::Report(_)
        | Action::AskHelp { .. }
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
pub fn in_hands(view: &View, action: &Action) -> String {
    let Some(spot) = spot_of(view, action) else { return words::say_action(action) };
    let name = spot.name();
    if let Some(offer) = offers(view, spot).into_iter().find(|offer| offer.action == *action) {
        return format!("at the {name}, key {}: {}", offer.key, offer.words);
    }
    let plain = words::say_action(action);
    if turn(view, spot, 1, Grain::Coarse).is_some() {
        return format!("at the {name}, with the arrows or the wheel: {plain}");
    }
    format!("at the {name}: {plain}")
}

#[cfg(test)]
mod tests {
    use sim_core::session::Session;
    use sim_core::session::journal::NullSink;

    use super::*;
    const CLEAN: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    #[test]
    fn every_thing_is_where_its_own_offers_are_done() {
        // Whatever the hand card offers at a thing is done at that thing, or at the part and place
        // that it is about.
        let view = words::sample::view();
        for spot in Spot::all() {
            for offer in offers(&view, spot) {
                let at = spot_of(&view, &offer.action);
                assert!(at.is_some(), "{} is done nowhere", offer.words);
            }
        }
    }

    #[test]
    fn a_step_of_hands_says_where_and_with_which_key() {
        let session = Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session");
        let view = session.view();
        let history = History::default();
        let step = next_step(&view, session.book(), &session.papers(), &history);
        assert_eq!(step.at, Some(Spot::RoofEdge));
        assert!(step.caution.is_some_and(|words| words.contains("roof edge")), "{step:?}");
        let said = in_hands(&view, &Action::OpenLid);
        assert_eq!(said, "at the lid of the shelter, key 1: open the lid");
        let said = in_hands(&view, &Action::TurnKnob { opening: 0.42 });
        assert!(said.contains("arrows") && said.contains("0.42"), "{said}");
    }

    #[test]
    fn whatever_is_advised_can_be_shown() {
        // The way of the advice with readings as they happen to be: each step is one of hands at a
        // thing, a wait, a field or the signature, and never an empty one.
        let mut session = Session::begin(CLEAN, 1, Box::new(NullSink)).expect("a session");
        let (mut hands, mut waits, mut fields) = (0, 0, 0);
        for _ in 0..400 {
            let view = session.view();
            let history = History::of(session.done());
            let step = next_step(&view, session.book(), &session.papers(), &history);
            match &step.how {
                How::Hands(deeds) => {
                    assert!(!deeds.is_empty() && step.at.is_some(), "{step:?}");
                    let mut copy = session.preview();
                    for deed in deeds {
                        copy.act(deed.clone()).unwrap_or_else(|error| panic!("{deed:?}: {error}"));
                    }
                    hands += 1;
                }
                How::Wait(seconds) => {
                    assert!(*seconds > 0.0);
                    waits += 1;
                }
                How::Write(_) => fields += 1,
                How::Sign => break,
            }
            let advice = advice::what_now(&view, session.book(), &session.papers(), &history);
            for deed in advice.deeds {
                match deed {
                    Deed::Do(action) => session.act(action).expect("it is done"),
                    Deed::Wait(seconds) => session.wait(seconds).expect("time passes"),
                    Deed::Write(field) => {
                        let text = "1".to_owned();
                        session.act(Action::Write { field, text }).expect("it is written");
                    }
                }
            }
            session.advance(100).expect("time passes");
        }
        assert!(hands > 40 && waits > 2 && fields > 15, "{hands} {waits} {fields}");
    }
}
