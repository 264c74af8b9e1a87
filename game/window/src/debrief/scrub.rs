//! The session to go through again: the station as it stood at any moment, what could be seen then,
//! and what was true, if it is asked for.

mod scene;
mod slider;
mod told;

use bevy::input_focus::{FocusCause, InputFocus, InputFocusVisible};
use bevy::prelude::*;
use paint::strip::ShowTruth;
use report::review::SessionReview;
use sim_core::session::view::View;
use sim_core::time::{TICKS_PER_SECOND, Tick};

use super::Outcome;
use super::table;
use crate::Screen;
use crate::controls::{Ask, button};
use crate::overlay;
use crate::settings::Settings;
use crate::theme::{self, Theme};

pub use slider::Slider;

/// A session that is gone through again.
#[derive(Resource)]
pub struct Scrubbed {
    scrub: SessionReview,
    truth: ShowTruth,
}

impl Scrubbed {
    /// At its first mark, with the truth hidden.
    pub const fn new(scrub: SessionReview) -> Self {
        Self { scrub, truth: ShowTruth::Hidden }
    }

    /// What could be seen at the moment that is shown.
    pub const fn view(&self) -> &View {
        &self.scrub.glimpse().view
    }

    /// The moment that is shown, and the ways from it.
    pub const fn scrub(&self) -> &Scrub {
        &self.scrub
    }
}

/// A way to another moment, or to what was true in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moment {
    /// To this tick.
    At(Tick),
    /// On by so many ticks, or back.
    By(i64),
    /// On to the next mark.
    Next,
    /// Back to the mark before.
    Previous,
    /// Show what was true, or hide it.
    Truth,
}

impl Moment {
    /// On by so many seconds, or back.
    pub const fn by_seconds(seconds: i64) -> Self {
        Self::By(seconds * TICKS_PER_SECOND as i64)
    }
}

pub struct ScrubPlugin;

impl Plugin for ScrubPlugin {
    fn build(&self, app: &mut App) {
        app.add_plugins((scene::ScenePlugin, slider::SliderPlugin, told::ToldPlugin)).add_systems(
            Update,
            obey.run_if(in_state(Screen::Debrief).and_then(resource_exists::<Scrubbed>)),
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
            row.spawn(button(theme, "mark before", Ask::Moment(Moment::Previous)));
            row.spawn(button(theme, "next mark", Ask::Moment(Moment::Next)));
            row.spawn((told::TruthButton, button(theme, told::SHOW, Ask::Moment(Moment::Truth))));
        });
        slider::spawn(sheet, theme);
        sheet.spawn(theme::italic(slider::KEYS, theme::SMALL, theme.ink_soft));
        sheet.spawn(theme::italic(slider::KEY_TO_MARKS, theme::SMALL, theme.ink_soft));
    });
}

/// Goes where it is asked to.
fn obey(
    mut asks: MessageReader<Ask>,
    mut scrubbed: ResMut<Scrubbed>,
    sliders: Query<Entity, With<Slider>>,
    mut focus: ResMut<InputFocus>,
    mut visible: ResMut<InputFocusVisible>,
) {
    for ask in asks.read() {
        let Ask::Moment(moment) = ask else { continue };
        match moment {
            Moment::At(tick) => {
                scrubbed.scrub.go(*tick);
                // Asked for from elsewhere on the page: there the moment is shown.
                if let Ok(slider) = sliders.single() {
                    focus.set(slider, FocusCause::Navigated);
                    visible.0 = true;
                }
            }
            Moment::By(ticks) => scrubbed.scrub.by(*ticks),
            Moment::Next => scrubbed.scrub.next(),
            Moment::Previous => scrubbed.scrub.previous(),
            Moment::Truth => {
                scrubbed.truth = match scrubbed.truth {
                    ShowTruth::Hidden => ShowTruth::Shown,
                    ShowTruth::Shown => ShowTruth::Hidden,
                };
            }
        }
    }
}

/// Lays the session of an outcome out to be gone through again.
pub(super) fn lay_out(outcome: &Outcome, commands: &mut Commands) {
    if let Ok(told) = &outcome.0 {
        let scrub = SessionReview::of(&told.ended.signed, &told.ended.marks);
        commands.insert_resource(Scrubbed::new(scrub));
    }
}
