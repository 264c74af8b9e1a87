//! The strip under the scene: what is at hand, how it stands, what can be done to it and with
//! which key, what to beware of, and what the bench last said.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::Key;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;
use content::SpeechService;
use hands::{Grain, Offer, Spot, is_away, offers, state_of, turn};
use sim_core::session::view::View;

use crate::desk::{Said, Seen};
use crate::scene::places::carried_by;
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::AtHand;
use crate::scene::take_up::{TakeUp, TakingUp};
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, face};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::services::Speech;
use crate::ui::settings::{Hints, Settings};
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, TextTone, Tone};

/// Most offers that a thing has.
const MOST: usize = 9;

/// Asks for one of the offers on the card to be taken up, counted from 0.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct HandRequest(pub usize);

/// The card itself: to a reader its value is the thing that it is about.
#[derive(Component)]
struct Card;
#[derive(Component)]
struct Title;
#[derive(Component)]
struct State;
#[derive(Component)]
struct Slot(usize);
#[derive(Component)]
struct SlotText(usize);
#[derive(Component)]
struct Caution;
#[derive(Component)]
struct CautionText;
#[derive(Component)]
struct SaidText;
#[derive(Component)]
struct Hint;

pub struct HandCardPlugin;

impl Plugin for HandCardPlugin {
    fn build(&self, app: &mut App) {
        let on_bench = || in_state(Screen::Bench).and_then(resource_exists::<Seen>);
        app.add_request::<HandRequest>().add_observer(on_key.run_if(on_bench())).add_systems(
            Update,
            (
                hand_on.in_set(Frame::Obey).before(TakingUp),
                (turn_over, show, show_said).chain().in_set(Frame::Show),
            )
                .run_if(on_bench()),
        );
    }
}

/// Puts the card into the foot of the window.
pub fn spawn(foot: &mut ChildSpawnerCommands) {
    let card = Node {
        flex_direction: FlexDirection::Column,
        flex_grow: 1.0,
        flex_basis: px(0),
        min_width: px(0),
        padding: UiRect::axes(px(10), px(6)),
        row_gap: px(4),
        overflow: Overflow::scroll_y(),
        ..default()
    };
    foot.spawn((theme::sheet(card), ScrollArea, spoken(Role::Group, "hand card", ""), Card))
        .with_children(|card| {
            card.spawn(Node { column_gap: px(10), flex_wrap: FlexWrap::Wrap, ..default() })
                .with_children(|row| {
                    row.spawn((Title, theme::bold("", theme::BODY, Tone::Ink)));
                    row.spawn((State, theme::italic("", theme::BODY, Tone::InkSoft)));
                });
            // Above all that may not find room: why something did not happen has to be seen.
            let mut live = spoken(Role::Status, "message", "");
            live.set_live(Live::Polite);
            card.spawn((SaidText, live, theme::bold("", theme::BODY, Tone::Caution)));
            // Before the deeds of which it warns, so that it is read first and never below the fold.
            card.spawn((
                Caution,
                Node {
                    display: Display::None,
                    column_gap: px(8),
                    padding: UiRect::axes(px(8), px(4)),
                    border: UiRect::all(px(1.5)),
                    border_radius: BorderRadius::all(px(4)),
                    align_items: AlignItems::Center,
                    ..default()
                },
                Surface(Tone::CautionWash),
                Border(Tone::Caution),
            ))
            .with_children(|row| {
                row.spawn(theme::sign());
                row.spawn((CautionText, theme::text("", theme::SMALL, Tone::Ink)));
            });
            card.spawn(Node {
                column_gap: px(6),
                row_gap: px(4),
                flex_wrap: FlexWrap::Wrap,
                ..default()
            })
            .with_children(|row| {
                for number in 0..MOST {
                    row.spawn((Slot(number), face("", HandRequest(number), Tone::PaperShade)))
                        .with_children(|button| {
                            let key = (number + 1).to_string();
                            button.spawn(theme::bold(key, theme::SMALL, Tone::CopperType));
                            button
                                .spawn((SlotText(number), theme::text("", theme::BODY, Tone::Ink)));
                        });
                }
            });
            card.spawn((Hint, theme::text("", theme::SMALL, Tone::InkSoft)));
        });
}

/// A card of another thing is seen from its head, and says nothing of the thing before.
fn turn_over(
    at_hand: Res<AtHand>,
    mut said: ResMut<Said>,
    mut cards: Query<&mut ScrollPosition, With<Card>>,
) {
    if !at_hand.is_changed() {
        return;
    }
    for mut position in &mut cards {
        if position.0 != Vec2::ZERO {
            position.0 = Vec2::ZERO;
        }
    }
    if said.is_of_thing() {
        *said = Said::Nothing;
    }
}

/// Controls that are neither things of the scene nor offers on the card.
type Elsewhere = (With<TabIndex>, Without<SpotControl>, Without<Slot>);

/// A digit takes up the offer beside which it stands, while the focus is in the scene or on the card:
/// on a page of the book a digit is the beginning of a number.
fn on_key(
    press: On<KeyPress>,
    elsewhere: Query<(), Elsewhere>,
    mut requests: MessageWriter<HandRequest>,
) {
    if press.typing || elsewhere.contains(press.on) {
        return;
    }
    if let Key::Character(typed) = &press.key
        && let Some(digit @ '1'..='9') = typed.chars().next()
    {
        requests.write(HandRequest(digit as usize - '1' as usize));
    }
}

/// Takes up an offer of the thing that is at hand.
fn hand_on(
    mut requests: MessageReader<HandRequest>,
    at_hand: Res<AtHand>,
    mut take_ups: MessageWriter<TakeUp>,
) {
    for HandRequest(number) in requests.read() {
        take_ups.write(TakeUp { spot: at_hand.0, number: *number });
    }
}

/// Sets a text if it says something else.
fn say(text: &mut Mut<Text>, words: &str) {
    if text.0 != words {
        text.0 = words.to_owned();
    }
}

type TextOf<'w, 's, T, O> = Query<'w, 's, &'static mut Text, (With<T>, Without<O>)>;

fn show(
    (seen, at_hand, settings, speech): (Res<Seen>, Res<AtHand>, Res<Settings>, Res<Speech>),
    added: Query<(), Added<Title>>,
    mut cards: Query<&mut AccessibilityNode, (With<Card>, Without<Slot>)>,
    mut title: Query<&mut Text, (With<Title>, Without<State>)>,
    mut state: TextOf<State, Title>,
    mut slots: Query<(&Slot, &mut Node, &mut TabIndex, &mut AccessibilityNode), Without<Caution>>,
    mut slot_texts: Query<(&SlotText, &mut Text), (Without<Title>, Without<State>)>,
    mut caution: Query<&mut Node, (With<Caution>, Without<Slot>)>,
    mut caution_text: Query<
        &mut Text,
        (With<CautionText>, Without<Title>, Without<State>, Without<SlotText>),
    >,
    mut hint: Query<
        &mut Text,
        (With<Hint>, Without<Title>, Without<State>, Without<SlotText>, Without<CautionText>),
    >,
) {
    if !seen.is_changed() && !at_hand.is_changed() && !settings.is_changed() && added.is_empty() {
        return;
    }
    let spot = at_hand.0;
    let list = offers(&seen.0, spot);
    if let Ok(mut card) = cards.single_mut()
        && card.value() != Some(spot.name().as_str())
    {
        card.set_value(spot.name());
    }
    if let (Ok(mut title), Ok(mut state)) = (title.single_mut(), state.single_mut()) {
        say(&mut title, &capital(&spot.name()));
        say(&mut state, &state_of(&seen.0, spot));
    }
    for (Slot(number), mut node, mut tab, mut access) in &mut slots {
        let offer = list.get(*number);
        let display = if offer.is_some() { Display::Flex } else { Display::None };
        if node.display != display {
            node.display = display;
        }
        // What is not shown is not gone to either.
        tab.set_if_neq(TabIndex(if offer.is_some() { 0 } else { -1 }));
        if let Some(offer) = offer {
            let label = format!("{}: {}", offer.key, offer.words);
            if access.label() != Some(label.as_str()) {
                access.set_label(label);
            }
        }
    }
    for (SlotText(number), mut text) in &mut slot_texts {
        if let Some(offer) = list.get(*number) {
            say(&mut text, &offer.words);
        }
    }
    let warning = first_caution(&list, &**speech);
    if let (Ok(mut node), Ok(mut text)) = (caution.single_mut(), caution_text.single_mut()) {
        let display = if warning.is_some() { Display::Flex } else { Display::None };
        if node.display != display {
            node.display = display;
        }
        let words = warning.map(|warning| format!("Caution: {warning}")).unwrap_or_default();
        say(&mut text, &words);
    }
    if let Ok(mut hint) = hint.single_mut() {
        say(&mut hint, &hint_for(&seen.0, spot, settings.hints));
    }
}

/// The caution of the likeliest thing that has one.
fn first_caution(list: &[Offer], speech: &dyn SpeechService) -> Option<&'static str> {
    list.iter().find_map(|offer| speech.caution(&offer.action))
}

/// Which keys work here, or what the pointer does.
fn hint_for(view: &View, spot: Spot, hints: Hints) -> String {
    if is_away(view) {
        return "Nobody is at the site. You can see how things stand, but you cannot handle them."
            .to_owned();
    }
    if spot == Spot::KeptChart {
        let moves = match hints {
            Hints::Pointer => "The wheel or a drag moves",
            Hints::Keyboard => "The arrow keys or the wheel move",
        };
        return format!(
            "{moves} the chart under the loupe by an hour, with Shift by a quarter of an hour."
        );
    }
    if spot == Spot::Filter && view.run.is_some() && hints == Hints::Pointer {
        return "Drag it by one end to hold it by its edges; in the middle, your thumb touches its face."
            .to_owned();
    }
    let turns = turn(view, spot, 1, Grain::Coarse).is_some();
    if hints == Hints::Pointer {
        let wheel = if turns { "The wheel or a drag turns it. " } else { "" };
        let goes = if carried_by(spot).is_some() { "Drag it to where it goes. " } else { "" };
        return format!(
            "{wheel}{goes}Click to look, double-click to do 1, drag in the loupe to move the eye."
        );
    }
    let arrows =
        if turns { "The arrow keys or the wheel turn it, with Shift in fine steps. " } else { "" };
    format!("{arrows}Enter does 1, L looks, Page Up and Page Down move the eye, F1 opens help.")
}

/// With its first letter large.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn show_said(
    said: Res<Said>,
    mut texts: Query<(&mut Text, &mut TextTone, &mut AccessibilityNode), With<SaidText>>,
) {
    let Ok((mut text, mut tone, mut access)) = texts.single_mut() else { return };
    let words = said.words();
    if text.0 != words {
        // A refusal interrupts; what was heard does not.
        let refused = matches!(*said, Said::Refused(_));
        access.set_role(if refused { Role::Alert } else { Role::Status });
        let heard = matches!(*said, Said::Heard(_) | Said::Read(_));
        tone.set_if_neq(TextTone(if heard { Tone::Ink } else { Tone::Caution }));
        access.set_value(words.clone());
        text.0 = words;
    }
}
