//! Buttons, and what every control of the bench asks for.

use accesskit::Role;
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::picking::hover::Hovered;
use bevy::prelude::*;
use bevy::ui_widgets::{Activate, Button};
use hands::Grain;
use sim_core::session::action::{Action, HelpTopic};
use words::units::{FlowUnit, PressureUnit, TemperatureUnit};

use super::access::spoken;
use super::debrief::Moment;
use super::desk::Lapse;
use super::theme::{self, Pressable, Theme};
use crate::field_book::Page;

/// What a control asks for. One component says it, one observer passes it on.
#[derive(Component, Message, Debug, Clone, PartialEq)]
pub enum Ask {
    /// Do something on the bench.
    Do(Action),
    /// Take up one of the offers on the hand card, counted from 0.
    Offer(usize),
    /// Turn to a page of the field book.
    Page(Page),
    /// Let so many seconds pass.
    Pass(f64),
    /// Let time pass until what is typed in the watch's field.
    PassUntil,
    /// Stop letting time pass.
    Stop,
    /// Begin a session of the scenario with this number in the list.
    Begin(usize),
    /// Go on with the journal with this number in the list.
    Resume(usize),
    /// Open or close the help.
    Help,
    /// Open or close the settings.
    Settings,
    /// Ask for help on something.
    Topic(HelpTopic),
    /// Set the size of text, percent.
    TextPercent(u16),
    /// Change the contrast.
    Contrast,
    /// Change the motion.
    Motion,
    /// Set a unit in which the program itself speaks.
    Unit(UnitChoice),
    /// Change between keyboard and pointer hints.
    Hints,
    /// Turn sound on or off: there is a control for it where sound is built in.
    Sound,
    /// Raise or lower the eye, mm.
    Eye(f64),
    /// Bring another hour of the chart of the run under the loupe, so many hours on.
    ChartHour(f64),
    /// Let the hours of a run go by otherwise.
    Lapse(Lapse),
    /// Stop the hours of a run, or let them go on.
    StopOrGo,
    /// Say what would be seen at the site now.
    WhatIsSeen,
    /// Choose a row of a choice on the remarks page.
    Choose(Choice),
    /// Put the report into the book.
    Report,
    /// Put the decision into the book.
    Decide,
    /// Sign; asks once more first.
    Sign,
    /// Back to the list of scenarios.
    Leave,
    /// Open the debrief of the session with this number in the list of those that have ended.
    Debrief(usize),
    /// In the debrief, go to another moment of the session.
    Moment(Moment),
    /// Write the report into the folder that the debrief names.
    SaveReport,
}

/// Hours of the chart of the run that come under the loupe by steps.
pub fn chart_hour(steps: i32, grain: Grain) -> Ask {
    let hours = match grain {
        Grain::Coarse => 1.0,
        Grain::Fine => 0.25,
    };
    Ask::ChartHour(hours * f64::from(steps))
}

/// A unit that is chosen on the settings sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitChoice {
    /// Of temperatures.
    Temperature(TemperatureUnit),
    /// Of the air's pressure.
    Pressure(PressureUnit),
    /// Of flows.
    Flow(FlowUnit),
}

/// Something chosen on the remarks page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choice {
    /// Where a fault sits, counted as in the list.
    Place(usize),
    /// What was done about it, counted as in the list.
    Response(usize),
    /// Whether the calibration is accepted.
    Accepted(Verdict),
}

/// Accepted or refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// The calibration is good.
    Accepted,
    /// It is not.
    Refused,
}

pub struct ControlsPlugin;

impl Plugin for ControlsPlugin {
    fn build(&self, app: &mut App) {
        app.add_message::<Ask>().add_observer(pass_on);
    }
}

fn pass_on(activate: On<Activate>, controls: Query<&Ask>, mut asks: MessageWriter<Ask>) {
    if let Ok(ask) = controls.get(activate.entity) {
        asks.write(ask.clone());
    }
}

/// A button that asks for something.
pub fn button(theme: &Theme, words: &str, ask: Ask) -> impl Bundle {
    (
        face(theme, words, ask, theme.paper_shade),
        children![theme::text(words, theme::BODY, theme.ink)],
    )
}

/// A button shown as the chosen one: told by its heavy type and its mark, not by colour alone.
pub fn chosen_button(theme: &Theme, words: &str, ask: Ask) -> impl Bundle {
    (
        face(theme, words, ask, theme.page),
        children![theme::bold(format!("\u{2022} {words}"), theme::BODY, theme.ink)],
    )
}

/// A button without anything in it yet.
pub fn face(theme: &Theme, label: &str, ask: Ask, rest: Color) -> impl Bundle {
    (
        Button,
        spoken(Role::Button, label, ""),
        ask,
        TabIndex(0),
        Hovered::default(),
        Pressable { rest, over: theme.page },
        Node {
            padding: UiRect::axes(px(9), px(4)),
            border: UiRect::all(px(1.5)),
            border_radius: BorderRadius::all(px(4)),
            align_items: AlignItems::Center,
            column_gap: px(6),
            ..default()
        },
        BackgroundColor(rest),
        BorderColor::all(theme.ink),
        theme::ring(),
    )
}
