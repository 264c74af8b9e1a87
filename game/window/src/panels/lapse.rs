//! The hours of a run while nobody is at the site: seen to go by over the scene, stopped, asked about,
//! or skipped. Nothing can be read or done meanwhile.

use accesskit::{Live, Role};
use bevy::a11y::AccessibilityNode;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use hands::{day_and_time, seen_from_afar};
use paint::night;

use crate::desk::{Desk, Lapse, Said, Seen};
use crate::ui::access::spoken;
use crate::ui::controls::{AddRequest as _, Request, button, face};
use crate::ui::order::Frame;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::{Theme, Tone};

/// What is asked of the hours.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum LapseRequest {
    /// Stop them, or let them go on.
    StopOrGo,
    /// Let them go by as fast as they can, until the trainee is back.
    Skip,
    /// Say what would be seen at the site now.
    WhatIsSeen,
}

/// The sheet over the scene.
#[derive(Component)]
struct Sheet;
/// Day and time on it.
#[derive(Component)]
struct Moment;
/// What was asked about.
#[derive(Component)]
struct Asked;
/// The button that stops the hours and lets them go on.
#[derive(Component)]
struct StopButton;
#[derive(Component)]
struct StopWords;
/// The dark of the night, over the scene.
#[derive(Component)]
struct Dark;

pub struct LapsePlugin;

impl Plugin for LapsePlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<LapseRequest>().add_systems(
            Update,
            (obey.in_set(Frame::Obey), (come_and_go, show, darken).chain().in_set(Frame::Show))
                .run_if(in_state(Screen::Bench).and_then(resource_exists::<Seen>)),
        );
    }
}

/// Puts the night and the sheet, both hidden, over the scene.
pub fn spawn(panel: &mut ChildSpawnerCommands) {
    panel.spawn((
        Dark,
        Node {
            position_type: PositionType::Absolute,
            width: percent(100),
            height: percent(100),
            ..default()
        },
        BackgroundColor(Color::NONE),
        ZIndex(40),
        Pickable::IGNORE,
    ));
    panel
        .spawn((
            Sheet,
            spoken(Role::Group, "nobody is at the site", ""),
            Node {
                position_type: PositionType::Absolute,
                display: Display::None,
                width: percent(100),
                bottom: px(0),
                flex_direction: FlexDirection::Column,
                align_items: AlignItems::Center,
                ..default()
            },
            ZIndex(66),
            Pickable::IGNORE,
        ))
        .with_children(|row| {
            let sheet = Node {
                flex_direction: FlexDirection::Column,
                align_items: AlignItems::Center,
                max_width: percent(96),
                padding: UiRect::axes(px(16), px(6)),
                row_gap: px(5),
                ..default()
            };
            row.spawn(theme::sheet(sheet)).with_children(fill);
        });
}

fn fill(sheet: &mut ChildSpawnerCommands) {
    let said = "Nobody is at the site. The sampler runs on its timer.";
    sheet.spawn(theme::italic(said, theme::SMALL, Tone::InkSoft));
    let role = spoken(Role::Timer, "day and time", "");
    sheet.spawn((Moment, role, theme::bold("", theme::HEAD, Tone::Ink)));
    let mut live = spoken(Role::Status, "seen at a glance", "");
    live.set_live(Live::Polite);
    sheet.spawn((Asked, live, theme::text("", theme::BODY, Tone::Ink)));
    sheet
        .spawn(Node {
            column_gap: px(8),
            row_gap: px(4),
            flex_wrap: FlexWrap::Wrap,
            justify_content: JustifyContent::Center,
            ..default()
        })
        .with_children(|row| {
            row.spawn((StopButton, face(STOP, LapseRequest::StopOrGo, Tone::PaperShade)))
                .with_children(|button| {
                    button.spawn((StopWords, theme::text(STOP, theme::BODY, Tone::Ink)));
                });
            row.spawn(button("what is visible now", LapseRequest::WhatIsSeen));
            row.spawn(button("skip to the return", LapseRequest::Skip));
        });
}

const STOP: &str = "pause the hours";
const GO: &str = "resume the hours";

fn obey(
    mut requests: MessageReader<LapseRequest>,
    mut desk: ResMut<Desk>,
    seen: Res<Seen>,
    mut asked: Query<(&mut Text, &mut AccessibilityNode), With<Asked>>,
) {
    if !desk.is_away() {
        requests.clear();
        return;
    }
    for request in requests.read() {
        let said = match request {
            LapseRequest::StopOrGo => {
                let stopped = desk.lapse() == Lapse::Stopped;
                desk.set_lapse(if stopped { Lapse::Runs } else { Lapse::Stopped });
                String::new()
            }
            LapseRequest::Skip => {
                desk.set_lapse(Lapse::Skipped);
                String::new()
            }
            LapseRequest::WhatIsSeen => {
                // Whoever asks wants to look: the hours wait.
                desk.set_lapse(Lapse::Stopped);
                seen_from_afar(&seen.0)
            }
        };
        if let Ok((mut text, mut access)) = asked.single_mut() {
            access.set_value(said.clone());
            text.0 = said;
        }
    }
}

/// The sheet comes when the site is left, and goes when the trainee is back.
fn come_and_go(
    seen: Res<Seen>,
    mut desk: ResMut<Desk>,
    mut said: ResMut<Said>,
    mut sheets: Query<&mut Node, With<Sheet>>,
    stops: Query<Entity, With<StopButton>>,
    mut controls: Query<&mut TabIndex, With<Request<LapseRequest>>>,
    (mut focus, mut visible): (ResMut<InputFocus>, ResMut<InputFocusVisible>),
    mut was: Local<bool>,
    added: Query<(), Added<Sheet>>,
) {
    // The session itself: what is shown on a copy leaves nothing.
    let away = desk.is_away();
    if *was == away && added.is_empty() {
        return;
    }
    if let Ok(mut node) = sheets.single_mut() {
        node.display = if away { Display::Flex } else { Display::None };
    }
    for mut tab in &mut controls {
        tab.set_if_neq(TabIndex(if away { 0 } else { -1 }));
    }
    if away && !*was {
        desk.set_lapse(Lapse::Runs);
        said.set_if_neq(Said::Nothing);
        if let Ok(stop) = stops.single() {
            focus.set(stop, FocusCause::Navigated);
            visible.0 = true;
        }
    }
    if !away && *was {
        desk.set_lapse(Lapse::Runs);
        *said = Said::Notice(format!("You are back at the site: {}.", day_and_time(&seen.0)));
    }
    *was = away;
}

fn show(
    seen: Res<Seen>,
    desk: Res<Desk>,
    mut moments: Query<(&mut Text, &mut AccessibilityNode), (With<Moment>, Without<Asked>)>,
    mut asked: Query<(&mut Text, &mut AccessibilityNode), (With<Asked>, Without<Moment>)>,
    mut stops: Query<&mut AccessibilityNode, (With<StopButton>, Without<Moment>, Without<Asked>)>,
    mut words: Query<&mut Text, (With<StopWords>, Without<Moment>, Without<Asked>)>,
) {
    if !desk.is_away() {
        return;
    }
    let now = day_and_time(&seen.0);
    if let Ok((mut text, mut access)) = moments.single_mut()
        && text.0 != now
    {
        access.set_value(now.clone());
        text.0 = now;
    }
    let stopped = desk.lapse() == Lapse::Stopped;
    if let (false, Ok((mut text, mut access))) = (stopped, asked.single_mut())
        && !text.0.is_empty()
    {
        // What was seen then is not what is seen now.
        access.set_value("");
        text.0.clear();
    }
    let label = if stopped { GO } else { STOP };
    if let (Ok(mut access), Ok(mut text)) = (stops.single_mut(), words.single_mut())
        && text.0 != label
    {
        access.set_label(label);
        text.0 = label.to_owned();
    }
}

/// It grows dark at night, while nobody has a lamp on.
fn darken(
    (seen, desk): (Res<Seen>, Res<Desk>),
    theme: Res<Theme>,
    mut darks: Query<&mut BackgroundColor, With<Dark>>,
) {
    let Ok(mut color) = darks.single_mut() else { return };
    let dark = if desk.is_away() { night::dark(seen.0.time.hours()) } else { 0.0 };
    let wanted = if dark > 0.0 { theme.color(Tone::Ink).with_alpha(dark) } else { Color::NONE };
    if color.0 != wanted {
        color.0 = wanted;
    }
}
