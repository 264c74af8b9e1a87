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
use crate::scene::next_reading::read_at;
use crate::scene::places::carried_by;
use crate::scene::spot_reader::SpotControl;
use crate::scene::spots::AtHand;
use crate::scene::take_up::{TakeUp, TakingUp, Which};
use crate::scene::write_reading::WriteReading;
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, face};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::services::Speech;
use crate::ui::settings::{Hints, Settings};
use crate::ui::theme;
use crate::ui::tone::{Border, Surface, TextTone, Tone};

/// The last key that an offer may have.
const MOST: char = '9';

/// Asks for the offer on the card to be taken up that has this key.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub struct HandRequest(pub char);

/// On the button that goes to the field for what is read.
pub const TO_WRITE: &str = "=: read and write it";

/// The card itself: to a reader its value is the thing that it is about.
#[derive(Component)]
struct Card;
#[derive(Component)]
struct Title;
#[derive(Component)]
struct State;
#[derive(Component)]
struct Slot(char);
#[derive(Component)]
struct SlotText(char);
#[derive(Component)]
struct ToWrite;
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
                (turn_over, show, show_to_write, show_said).chain().in_set(Frame::Show),
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
            card.spawn(Node { column_gap: px(12), ..default() }).with_children(|halves| {
                halves.spawn(half(58.0)).with_children(spawn_deeds);
                halves.spawn(half(42.0)).with_children(spawn_words);
            });
        });
}

/// One of the two halves of the card, so many percent of it.
fn half(wide: f32) -> Node {
    Node {
        flex_direction: FlexDirection::Column,
        row_gap: px(4),
        flex_basis: percent(wide),
        flex_grow: 1.0,
        min_width: px(0),
        ..default()
    }
}

/// The thing at hand and what can be done to it: nothing that is said moves the buttons.
fn spawn_deeds(deeds: &mut ChildSpawnerCommands) {
    deeds.spawn((Title, theme::bold("", theme::BODY, Tone::Ink)));
    deeds
        .spawn(Node { column_gap: px(6), row_gap: px(4), flex_wrap: FlexWrap::Wrap, ..default() })
        .with_children(|row| {
            for key in '1'..=MOST {
                row.spawn((Slot(key), face("", HandRequest(key), Tone::PaperShade))).with_children(
                    |button| {
                        let number = key.to_string();
                        button.spawn(theme::bold(number, theme::SMALL, Tone::CopperType));
                        button.spawn((SlotText(key), theme::text("", theme::BODY, Tone::Ink)));
                    },
                );
            }
            row.spawn((ToWrite, face(TO_WRITE, WriteReading, Tone::PaperShade))).with_children(
                |button| {
                    button.spawn(theme::bold("=", theme::SMALL, Tone::CopperType));
                    button.spawn(theme::text("read and write it", theme::BODY, Tone::Ink));
                },
            );
        });
}

/// How the thing stands, what to beware of, what was said last, and which keys work: beside the deeds, so
/// that a caution is read before them.
fn spawn_words(words: &mut ChildSpawnerCommands) {
    words.spawn((State, theme::italic("", theme::BODY, Tone::InkSoft)));
    // Above all that may not find room: why something did not happen has to be seen.
    let mut live = spoken(Role::Status, "message", "");
    live.set_live(Live::Polite);
    words.spawn((SaidText, live, theme::bold("", theme::BODY, Tone::Caution)));
    words
        .spawn((
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
    words.spawn((Hint, theme::text("", theme::SMALL, Tone::InkSoft)));
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
type Elsewhere = (With<TabIndex>, Without<SpotControl>, Without<Slot>, Without<ToWrite>);

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
        requests.write(HandRequest(digit));
    }
}

/// Takes up an offer of the thing that is at hand.
fn hand_on(
    mut requests: MessageReader<HandRequest>,
    at_hand: Res<AtHand>,
    mut take_ups: MessageWriter<TakeUp>,
) {
    for HandRequest(key) in requests.read() {
        take_ups.write(TakeUp { spot: at_hand.0, which: Which::Key(*key) });
    }
}

/// Sets a text if it says something else.
fn say(text: &mut Mut<Text>, words: &str) {
    if text.0 != words {
        text.0 = words.to_owned();
    }
}

/// The thing that the card is of, and which of its deeds have stood on it. A deed that cannot be done now
/// keeps its place, in grey, so that no other comes under a hand that presses twice.
#[derive(Debug, Default)]
struct CardOf {
    spot: Option<Spot>,
    keys: Vec<char>,
}

impl CardOf {
    fn turn_to(&mut self, spot: Spot, list: &[Offer]) {
        if self.spot.replace(spot) != Some(spot) {
            self.keys.clear();
        }
        for offer in list {
            if !self.keeps(offer.key) {
                self.keys.push(offer.key);
            }
        }
    }

    fn keeps(&self, key: char) -> bool {
        self.keys.contains(&key)
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
    mut slot_texts: Query<(&SlotText, &mut Text, &mut TextTone), (Without<Title>, Without<State>)>,
    mut card_of: Local<CardOf>,
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
    card_of.turn_to(spot, &list);
    if let Ok(mut card) = cards.single_mut()
        && card.value() != Some(spot.name().as_str())
    {
        card.set_value(spot.name());
    }
    if let (Ok(mut title), Ok(mut state)) = (title.single_mut(), state.single_mut()) {
        say(&mut title, &capital(&spot.name()));
        say(&mut state, &state_of(&seen.0, spot));
    }
    for (Slot(key), mut node, mut tab, mut access) in &mut slots {
        let offer = list.iter().find(|offer| offer.key == *key);
        let kept = card_of.keeps(*key);
        let display = if offer.is_some() || kept { Display::Flex } else { Display::None };
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
        } else if kept {
            let label = format!("{key}: not now");
            if access.label() != Some(label.as_str()) {
                access.set_label(label);
            }
        }
    }
    for (SlotText(key), mut text, mut tone) in &mut slot_texts {
        let offer = list.iter().find(|offer| offer.key == *key);
        if let Some(offer) = offer {
            say(&mut text, &offer.words);
        }
        tone.set_if_neq(TextTone(if offer.is_some() { Tone::Ink } else { Tone::InkSoft }));
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

/// The button is there for what has a value to be read, while somebody is there to read it.
fn show_to_write(
    (seen, at_hand): (Res<Seen>, Res<AtHand>),
    mut buttons: Query<(&mut Node, &mut TabIndex), With<ToWrite>>,
) {
    let shown = read_at(at_hand.0).is_some() && !is_away(&seen.0);
    for (mut node, mut tab) in &mut buttons {
        let display = if shown { Display::Flex } else { Display::None };
        if node.display != display {
            node.display = display;
        }
        tab.set_if_neq(TabIndex(if shown { 0 } else { -1 }));
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
        let wheel =
            if turns { "The wheel or a drag moves it, with Shift in fine steps. " } else { "" };
        let goes = if carried_by(spot).is_some() { "Drag it to where it goes. " } else { "" };
        return format!(
            "{wheel}{goes}A click only looks; a numbered button does. Drag in the loupe to move the eye."
        );
    }
    let arrows =
        if turns { "The arrow keys or the wheel turn it, with Shift in fine steps. " } else { "" };
    let first = offers(view, spot).first().map_or('1', |offer| offer.key);
    format!(
        "{arrows}Enter does {first}, L looks, Page Up and Page Down move the eye, F1 opens help."
    )
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
        let heard = matches!(*said, Said::Heard(_) | Said::Read(_) | Said::Done(_));
        tone.set_if_neq(TextTone(if heard { Tone::Ink } else { Tone::Caution }));
        access.set_value(words.clone());
        text.0 = words;
    }
}
