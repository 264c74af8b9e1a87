//! What a thing offers is taken up: by a key, by the pointer or by a reader. What ends the work at the site
//! is asked for twice, and the second time counts only as long as nothing else was gone to.

use bevy::input::keyboard::Key;
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use hands::{Offer, Spot, offers};
use sim_core::session::action::Action;

use crate::desk::{Desk, Said, Seen};
use crate::scene::spots::AtHand;
use crate::ui::controls::AddRequest as _;
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;

/// Asks for an offer of a thing to be taken up.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct TakeUp {
    /// The thing.
    pub spot: Spot,
    /// Which of its offers.
    pub which: Which,
}

/// Which of the offers of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// The likeliest.
    First,
    /// The one with a key.
    Key(char),
}

impl TakeUp {
    /// What a thing offers first.
    pub const fn first_of(spot: Spot) -> Self {
        Self { spot, which: Which::First }
    }
}

/// When offers are taken up.
#[derive(SystemSet, Debug, Clone, PartialEq, Eq, Hash)]
pub struct TakingUp;

/// What was asked for once and is asked for once more before it is done.
#[derive(Resource, Debug, Clone, PartialEq, Default)]
struct AskedOnce(Option<(Spot, Action)>);

pub struct TakeUpPlugin;

impl Plugin for TakeUpPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<AskedOnce>().add_request::<TakeUp>().add_observer(on_key).add_systems(
            Update,
            (forget, take_up)
                .chain()
                .in_set(TakingUp)
                .in_set(Frame::Obey)
                .run_if(resource_exists::<Desk>.and_then(resource_exists::<Seen>)),
        );
    }
}

/// Whether the work at the site ends with an action.
const fn ends_the_work(action: &Action) -> bool {
    matches!(action, Action::LeaveRoof | Action::LeaveSite | Action::Sign)
}

/// Whoever has gone to something else meanwhile has to ask anew.
fn forget(
    (focus, at_hand): (Res<InputFocus>, Res<AtHand>),
    mut asked: ResMut<AskedOnce>,
    mut last: Local<Option<(Option<Entity>, Spot)>>,
) {
    let now = (focus.get(), at_hand.0);
    if last.replace(now) != Some(now) {
        asked.set_if_neq(AskedOnce(None));
    }
}

fn on_key(press: On<KeyPress>, mut asked: ResMut<AskedOnce>) {
    if press.key == Key::Escape {
        asked.set_if_neq(AskedOnce(None));
    }
}

/// Does what an offer stands for.
fn take_up(
    mut take_ups: MessageReader<TakeUp>,
    (mut desk, seen): (ResMut<Desk>, Res<Seen>),
    mut asked: ResMut<AskedOnce>,
    mut said: ResMut<Said>,
) {
    for TakeUp { spot, which } in take_ups.read() {
        let meant = |offer: &Offer| match which {
            Which::First => true,
            Which::Key(key) => offer.key == *key,
        };
        let Some(Offer { action, words, .. }) = offers(&seen.0, *spot).into_iter().find(meant)
        else {
            continue;
        };
        let this = Some((*spot, action.clone()));
        if ends_the_work(&action) && asked.0 != this {
            *said = Said::AskAgain(words);
            asked.0 = this;
            continue;
        }
        asked.set_if_neq(AskedOnce(None));
        desk.ask(action);
    }
}
