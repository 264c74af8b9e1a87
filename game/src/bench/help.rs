//! Help for those who ask: the keys, what to do now, why, and where. Each asking is in the journal.

use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use sim_core::session::action::{Action, HelpTopic};

use super::Screen;
use super::controls::{Ask, button};
use super::desk::{Book, Desk, Seen};
use super::hands::{Step, next_step, offers};
use super::overlay::{self, Overlay};
use super::spots::{AtHand, SpotControl};
use super::theme::{self, Theme};

const KEYS: &str = "Tab and Shift+Tab go from thing to thing, in the order of the work. Enter does \
    the first thing on the hand card, 1 to 9 do the others. Arrows turn and slide, with Shift \
    finely. L looks at what has the focus, Page Up and Page Down raise and lower the eye. F6 goes \
    from the scene to the field book and to the watch. F2 opens the settings. Esc stops time and \
    closes this sheet.";
const POINTER: &str = "With the pointer: click to look; click lid, door and recorder to move or tap \
    them; double-click does the first thing on the hand card. The wheel turns and slides, and so \
    does a drag. Parts, plugs and the end of the tube are dragged to where they go: the places are \
    outlined. Drag in the loupe to raise or lower the eye.";

/// Where the answer stands.
#[derive(Component)]
struct Answer;

pub struct HelpPlugin;

impl Plugin for HelpPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            (
                open.run_if(resource_changed::<Overlay>),
                answer.run_if(resource_exists::<Desk>.and_then(resource_exists::<Seen>)),
            ),
        );
    }
}

fn open(
    overlay: Res<Overlay>,
    theme: Res<Theme>,
    screen: Res<State<Screen>>,
    desk: Option<Res<Desk>>,
    mut commands: Commands,
) {
    if *overlay != Overlay::Help {
        return;
    }
    let allowed = *screen.get() == Screen::Bench && desk.is_some_and(|desk| desk.papers.terms.help);
    overlay::lay(&mut commands, &theme, "Help", |sheet| {
        if allowed {
            sheet
                .spawn(Node {
                    column_gap: px(8),
                    row_gap: px(6),
                    flex_wrap: FlexWrap::Wrap,
                    ..default()
                })
                .with_children(|row| {
                    row.spawn(button(&theme, "what now", Ask::Topic(HelpTopic::WhatNow)));
                    row.spawn(button(&theme, "why", Ask::Topic(HelpTopic::Why)));
                    row.spawn(button(&theme, "show me", Ask::Topic(HelpTopic::ShowMe)));
                });
            sheet.spawn((Answer, theme::bold("", theme::BODY, theme.hand_ink)));
            let note = "Asking is written into the journal.";
            sheet.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
        } else if *screen.get() == Screen::Bench {
            let note = "This scenario is done without help. The keys:";
            sheet.spawn(theme::italic(note, theme::BODY, theme.ink_soft));
        }
        sheet.spawn(theme::text(KEYS, theme::BODY, theme.ink));
        sheet.spawn(theme::text(POINTER, theme::BODY, theme.ink));
        sheet.spawn(Node::default()).with_children(|row| {
            row.spawn(button(&theme, "close", Ask::Help));
        });
    });
}

fn answer(
    mut asks: MessageReader<Ask>,
    (seen, book): (Res<Seen>, Res<Book>),
    mut desk: ResMut<Desk>,
    mut overlay: ResMut<Overlay>,
    mut texts: Query<&mut Text, With<Answer>>,
    spots: Query<(Entity, &SpotControl)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
    mut at_hand: ResMut<AtHand>,
) {
    for ask in asks.read() {
        let Ask::Topic(topic) = ask else { continue };
        desk.ask(Action::AskHelp { topic: *topic });
        if !desk.papers.terms.help {
            continue;
        }
        let step = next_step(&seen.0, &book.0, desk.papers.work_order.points);
        let words = match topic {
            HelpTopic::WhatNow => step.now.to_owned(),
            HelpTopic::Why => step.why.to_owned(),
            HelpTopic::ShowMe => show_me(&seen, step),
            HelpTopic::Sums | HelpTopic::Plot => continue,
        };
        if let Ok(mut text) = texts.single_mut() {
            text.0 = words;
        }
        if let (HelpTopic::ShowMe, Some(spot)) = (topic, step.at) {
            // The thing itself comes to hand, with its keys on the card, under a ring.
            at_hand.set_if_neq(AtHand(spot));
            if let Some((entity, _)) = spots.iter().find(|(_, control)| control.0 == spot) {
                *overlay = Overlay::None;
                focus.set(entity, FocusCause::Navigated);
                visible.0 = true;
            }
        }
    }
}

/// Where, and with which key.
fn show_me(seen: &Seen, step: Step) -> String {
    let Some(spot) = step.at else { return format!("In the field book. {}", step.now) };
    match offers(&seen.0, spot).first() {
        Some(first) => format!("At the {}: key {}, {}.", spot.name(), first.key, first.words),
        None => format!("At the {}.", spot.name()),
    }
}
