//! The part of the debrief in which the session is gone through again.

use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use paint::strip::ShowTruth;

use super::super::table;
use super::cursor::{ScrubRequest, Scrubbed};
use super::slider::{self, Slider};
use super::{play, scene, told};
use crate::scene::pictures;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::overlay;
use crate::ui::screen::Screen;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// The heading of this part.
pub const HEADING: &str = "Replay of the session";

pub struct ScrubPlugin;

impl Plugin for ScrubPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((
            scene::ScenePlugin,
            slider::SliderPlugin,
            told::ToldPlugin,
            play::PlayPlugin,
        ))
        .add_request::<ScrubRequest>()
        .add_systems(
            Update,
            (
                obey.in_set(Frame::Obey).run_if(in_state(Screen::Debrief)),
                pictures::paint::<Scrubbed>.in_set(Frame::Show),
            )
                .run_if(resource_exists::<Scrubbed>),
        );
    }
}

/// The part of the debrief in which the session is gone through again.
pub fn spawn(root: &mut ChildSpawnerCommands) {
    table::part(root, HEADING, |sheet| {
        sheet
            .spawn(Node {
                column_gap: px(14),
                row_gap: px(8),
                flex_wrap: FlexWrap::Wrap,
                flex_shrink: 0.0,
                width: percent(100),
                ..default()
            })
            .with_children(|row| {
                scene::spawn(row);
                told::spawn(row);
            });
        sheet.spawn(overlay::choices()).with_children(|row| {
            play::spawn(row);
            row.spawn(button("previous mark", ScrubRequest::Previous));
            row.spawn(button("next mark", ScrubRequest::Next));
            row.spawn((told::TruthButton, button(told::SHOW, ScrubRequest::Truth)));
        });
        slider::spawn(sheet);
        sheet.spawn(theme::italic(slider::KEYS, theme::SMALL, Tone::InkSoft));
        sheet.spawn(theme::italic(slider::KEY_TO_MARKS, theme::SMALL, Tone::InkSoft));
    });
}

/// Goes where it is asked to.
fn obey(
    mut requests: MessageReader<ScrubRequest>,
    mut scrubbed: ResMut<Scrubbed>,
    sliders: Query<Entity, With<Slider>>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
) {
    for request in requests.read() {
        match request {
            ScrubRequest::At(tick) => {
                scrubbed.scrub.go(*tick);
                // Asked for from elsewhere on the page: there the moment is shown.
                if let Ok(slider) = sliders.single() {
                    focus.set(slider, FocusCause::Navigated);
                    visible.0 = true;
                }
            }
            ScrubRequest::By(ticks) => scrubbed.scrub.by(*ticks),
            ScrubRequest::Next => scrubbed.scrub.next(),
            ScrubRequest::Previous => scrubbed.scrub.previous(),
            ScrubRequest::Truth => {
                scrubbed.truth = match scrubbed.truth {
                    ShowTruth::Hidden => ShowTruth::Shown,
                    ShowTruth::Shown => ShowTruth::Hidden,
                };
            }
        }
    }
}
