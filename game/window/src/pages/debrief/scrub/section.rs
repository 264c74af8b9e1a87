//! The part of the debrief in which the session is gone through again.

use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use paint::strip::ShowTruth;
use report::review::SessionReview;

use super::super::outcome::Outcome;
use super::super::table;
use super::cursor::{ScrubRequest, Scrubbed};
use super::slider::{self, Slider};
use super::{scene, told};
use crate::scene::pictures;
use crate::ui::controls::{AddRequest as _, button};
use crate::ui::order::Frame;
use crate::ui::overlay;
use crate::ui::screen::Screen;
use crate::ui::settings::Settings;
use crate::ui::theme::{self, Theme};

pub struct ScrubPlugin;

impl Plugin for ScrubPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((scene::ScenePlugin, slider::SliderPlugin, told::ToldPlugin))
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
pub fn spawn(root: &mut ChildSpawnerCommands, theme: &Theme, settings: &Settings) {
    let larger = settings.text_scale();
    table::part(root, theme, "The session again", |sheet| {
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
                scene::spawn(row, theme);
                told::spawn(row, theme, larger);
            });
        sheet.spawn(overlay::choices()).with_children(|row| {
            row.spawn(button(theme, "mark before", ScrubRequest::Previous));
            row.spawn(button(theme, "next mark", ScrubRequest::Next));
            row.spawn((told::TruthButton, button(theme, told::SHOW, ScrubRequest::Truth)));
        });
        slider::spawn(sheet, theme);
        sheet.spawn(theme::italic(slider::KEYS, theme::SMALL, theme.ink_soft));
        sheet.spawn(theme::italic(slider::KEY_TO_MARKS, theme::SMALL, theme.ink_soft));
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

/// Lays the session of an outcome out to be gone through again.
pub fn lay_out(outcome: &Outcome, commands: &mut Commands) {
    if let Ok(told) = &outcome.0 {
        let scrub = SessionReview::of(&told.ended.signed, &told.ended.marks);
        commands.insert_resource(Scrubbed::new(scrub));
    }
}
