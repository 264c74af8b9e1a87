//! "Show me": the next step is shown in the scene on a copy of the session, under a caption that says
//! so, and then the present state is back. The session itself stands still meanwhile and is not
//! touched.

use std::collections::VecDeque;

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use hands::{How, Spot, Step, in_hands, spot_of};
use sim_core::field_book::Field;
use sim_core::session::action::Action;
use sim_core::session::preview::Preview;
use sim_core::session::view::View;

use super::Screen;
use super::access::spoken;
use super::controls::{Ask, Choice, Verdict};
use super::desk::{Desk, Seen};
use super::spots::{AtHand, SpotControl};
use super::theme::{self, Theme};
use crate::field_book::{EntryField, OpenPage, Page};

/// Ticks before the first deed: the eye finds the thing and its name.
const LEAD: u32 = 30;
/// Ticks after the last deed, to see what came of it.
const TAIL: u32 = 60;
/// Most ticks that all deeds of a step take together, and most and fewest of one.
const ALL: u32 = 200;
const MOST: u32 = 24;
const FEWEST: u32 = 8;

/// What stands over the scene while something is shown.
pub const CAPTION: &str = "Shown on a copy: nothing is done yet. Esc ends it.";

/// A step that is being shown.
#[derive(Debug)]
pub struct Show {
    copy: Preview,
    deeds: VecDeque<Action>,
    every: u32,
    /// Ticks until the next deed, or until the end.
    wait: u32,
    words: String,
    at: Option<Spot>,
    first: Option<Spot>,
}

impl Show {
    /// A show of a step on a copy.
    pub fn new(copy: Preview, step: &Step) -> Self {
        let deeds: VecDeque<Action> = match &step.how {
            How::Hands(deeds) => deeds.iter().cloned().collect(),
            How::Wait(_) | How::Write(_) | How::Sign => VecDeque::new(),
        };
        let count = u32::try_from(deeds.len()).unwrap_or(u32::MAX).max(1);
        let every = (ALL / count).clamp(FEWEST, MOST);
        let words = match &step.how {
            How::Hands(_) => {
                deeds.front().map_or_else(String::new, |deed| in_hands(&copy.view(), deed))
            }
            How::Wait(seconds) if *seconds >= 60.0 => {
                format!("on the watch: let {:.0} min pass", seconds / 60.0)
            }
            How::Wait(seconds) => format!("on the watch: let {seconds:.0} s pass"),
            How::Write(_) => "in the field book: your own value goes into this field".to_owned(),
            How::Sign => "in the field book: sign on the remarks page".to_owned(),
        };
        let wait = if deeds.is_empty() { LEAD + TAIL } else { LEAD };
        Self { copy, deeds, every, wait, words, at: step.at, first: step.at }
    }

    /// The thing at which the step begins.
    pub const fn first(&self) -> Option<Spot> {
        self.first
    }

    /// What can be seen on the copy.
    pub fn view(&self) -> View {
        self.copy.view()
    }

    /// Lets a tick pass. `false` when the show is over.
    pub fn tick(&mut self) -> bool {
        self.copy.advance(1);
        self.wait = self.wait.saturating_sub(1);
        if self.wait > 0 {
            return true;
        }
        let Some(deed) = self.deeds.pop_front() else { return false };
        let view = self.copy.view();
        self.at = spot_of(&view, &deed).or(self.at);
        self.words = in_hands(&view, &deed);
        if let Err(error) = self.copy.act(deed) {
            self.words = format!("{}. Not as things stand: {error}", self.words);
            self.deeds.clear();
        }
        self.wait = if self.deeds.is_empty() { TAIL } else { self.every };
        true
    }
}

/// The strip over the scene.
#[derive(Component)]
struct Strip;
/// What it says.
#[derive(Component)]
struct StripWords;

/// Where the focus is to go once it is there.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GoTo {
    /// Nowhere.
    #[default]
    Nowhere,
    /// To a field of the book.
    Field(Field),
    /// To the signature.
    Signature,
    /// To the watch's longest wait that is not longer than so many seconds.
    Watch(u32),
}

pub struct ShowingPlugin;

impl Plugin for ShowingPlugin {
    fn build(&self, app: &mut App) {
        app.init_resource::<GoTo>().add_systems(
            Update,
            (follow, strip, go_to)
                .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Puts the strip, hidden, over the scene.
pub fn spawn(panel: &mut ChildSpawnerCommands, theme: &Theme) {
    let mut live = spoken(Role::Status, "shown on a copy", "");
    live.set_live(Live::Polite);
    panel
        .spawn((
            Strip,
            live,
            Node {
                position_type: PositionType::Absolute,
                display: Display::None,
                width: percent(100),
                height: percent(100),
                flex_direction: FlexDirection::Column,
                align_items: AlignItems::Center,
                border: UiRect::all(px(4)),
                ..default()
            },
            BorderColor::all(theme.copper),
            ZIndex(65),
            Pickable::IGNORE,
        ))
        .with_children(|strip| {
            strip
                .spawn((
                    Node {
                        flex_direction: FlexDirection::Column,
                        align_items: AlignItems::Center,
                        max_width: percent(96),
                        padding: UiRect::axes(px(14), px(4)),
                        border: UiRect { bottom: px(2), left: px(2), right: px(2), top: px(0) },
                        ..default()
                    },
                    BackgroundColor(theme.caution_wash),
                    BorderColor::all(theme.copper),
                    Pickable::IGNORE,
                ))
                .with_children(|sheet| {
                    sheet.spawn(theme::bold(CAPTION, theme::BODY, theme.ink));
                    sheet.spawn((StripWords, theme::text("", theme::BODY, theme.ink)));
                });
        });
}

/// The thing at which something is shown comes to hand.
fn follow(
    desk: Res<Desk>,
    spots: Query<(Entity, &SpotControl)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
    mut at_hand: ResMut<AtHand>,
    mut last: Local<Option<Spot>>,
) {
    // Afterwards the thing at which the step begins is at hand, for the trainee to do it.
    let at = match desk.showing() {
        Some(show) => show.at,
        None => last.is_some().then(|| desk.shown_last()).flatten(),
    };
    if let Some(spot) = at
        && *last != Some(spot)
    {
        at_hand.set_if_neq(AtHand(spot));
        if let Some((entity, _)) = spots.iter().find(|(_, control)| control.0 == spot) {
            focus.set(entity, FocusCause::Navigated);
            visible.0 = true;
        }
    }
    *last = if desk.showing().is_some() { at } else { None };
}

/// Shows the strip while something is shown.
fn strip(
    desk: Res<Desk>,
    mut strips: Query<(&mut Node, &mut AccessibilityNode), With<Strip>>,
    mut texts: Query<&mut Text, With<StripWords>>,
) {
    let (Ok((mut node, mut access)), Ok(mut text)) = (strips.single_mut(), texts.single_mut())
    else {
        return;
    };
    let show = desk.showing();
    let display = if show.is_some() { Display::Flex } else { Display::None };
    if node.display != display {
        node.display = display;
    }
    let words = show.map_or("", |show| show.words.as_str());
    if text.0 != words {
        text.0 = words.to_owned();
        access.set_value(format!("{CAPTION} {words}"));
    }
}

/// Opens the page that a step is written on.
pub fn open_for(step: &Step, open: &mut OpenPage, go: &mut GoTo) {
    *go = match &step.how {
        How::Hands(_) => GoTo::Nowhere,
        How::Wait(seconds) => GoTo::Watch(*seconds as u32),
        How::Write(field) => {
            open.0 = Page::of(*field);
            GoTo::Field(*field)
        }
        How::Sign => {
            open.0 = Page::Remarks;
            GoTo::Signature
        }
    };
}

/// Brings the focus to where it was to go, as soon as that is there.
fn go_to(
    mut go: ResMut<GoTo>,
    desk: Res<Desk>,
    fields: Query<(Entity, &EntryField)>,
    controls: Query<(Entity, &Ask)>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
) {
    let found = match *go {
        GoTo::Nowhere => return,
        // The decision is chosen, not typed.
        GoTo::Field(Field::Decision) => {
            let first = Ask::Choose(Choice::Accepted(Verdict::Accepted));
            controls.iter().find(|(_, ask)| **ask == first).map(|(entity, _)| entity)
        }
        GoTo::Field(field) => {
            fields.iter().find(|(_, entry)| entry.0 == field).map(|(entity, _)| entity)
        }
        GoTo::Signature => {
            controls.iter().find(|(_, ask)| **ask == Ask::Sign).map(|(entity, _)| entity)
        }
        GoTo::Watch(seconds) => controls
            .iter()
            .filter_map(|(entity, ask)| match ask {
                Ask::Pass(by) if *by <= f64::from(seconds) => Some((entity, *by)),
                _ => None,
            })
            .max_by(|(_, a), (_, b)| a.total_cmp(b))
            .map(|(entity, _)| entity),
    };
    if let Some(entity) = found {
        focus.set(entity, FocusCause::Navigated);
        visible.0 = true;
    }
    // What is not there by the end of the show is looked for no longer.
    if found.is_some() || desk.showing().is_none() {
        *go = GoTo::Nowhere;
    }
}
