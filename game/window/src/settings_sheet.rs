//! The sheet on which size of text, units, contrast and motion are set.

use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use words::units::{FlowUnit, PressureUnit, TemperatureUnit, Units};

use super::controls::{Ask, UnitChoice, button, chosen_button};
use super::overlay::{self, Overlay};
use super::settings::{Contrast, Hints, Kept, Motion, Settings, write};
use super::theme::{self, Theme};

/// Sizes of text that are offered, percent.
const SIZES: [u16; 5] = [100, 125, 150, 175, 200];

pub struct SettingsSheetPlugin;

impl Plugin for SettingsSheetPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(
            Update,
            (obey, open.run_if(resource_changed::<Overlay>.or_else(resource_changed::<Settings>)))
                .chain(),
        );
    }
}

fn obey(mut asks: MessageReader<Ask>, mut settings: ResMut<Settings>, mut kept: ResMut<Kept>) {
    for ask in asks.read() {
        let mut next = settings.clone();
        match ask {
            Ask::TextPercent(percent) => next.text_percent = *percent,
            Ask::Unit(UnitChoice::Temperature(unit)) => next.units.temperature = *unit,
            Ask::Unit(UnitChoice::Pressure(unit)) => next.units.pressure = *unit,
            Ask::Unit(UnitChoice::Flow(unit)) => next.units.flow = *unit,
            Ask::Contrast => {
                next.contrast = match next.contrast {
                    Contrast::Normal => Contrast::High,
                    Contrast::High => Contrast::Normal,
                };
            }
            Ask::Motion => {
                next.motion = match next.motion {
                    Motion::Full => Motion::Reduced,
                    Motion::Reduced => Motion::Full,
                };
            }
            Ask::Hints => {
                next.hints = match next.hints {
                    Hints::Keyboard => Hints::Pointer,
                    Hints::Pointer => Hints::Keyboard,
                };
            }
            Ask::Sound => next.sound = !next.sound,
            _ => continue,
        }
        write(&next, &mut kept);
        *settings = next;
    }
}

fn open(
    overlay: Res<Overlay>,
    settings: Res<Settings>,
    kept: Res<Kept>,
    veils: Query<Entity, With<overlay::Veil>>,
    (focus, controls): (Res<InputFocus>, Query<&Ask>),
    mut again: ResMut<overlay::Again>,
    mut commands: Commands,
) {
    if *overlay != Overlay::Settings {
        return;
    }
    if !overlay.is_changed() {
        // Shown again as it is now set, the focus where it was.
        again.0 = focus.get().and_then(|entity| controls.get(entity).ok()).cloned();
        for veil in &veils {
            commands.entity(veil).despawn();
        }
    }
    // The theme follows the settings only in the next frame.
    let theme = Theme::of(settings.contrast);
    overlay::lay(&mut commands, &theme, "Settings", |sheet| {
        let row = || Node {
            column_gap: px(8),
            row_gap: px(6),
            flex_wrap: FlexWrap::Wrap,
            align_items: AlignItems::Center,
            ..default()
        };
        sheet.spawn(row()).with_children(|row| {
            row.spawn(theme::text("Size of text", theme::BODY, theme.ink));
            for size in SIZES {
                let (words, ask) = (format!("{size} %"), Ask::TextPercent(size));
                if size == settings.text_percent {
                    row.spawn(chosen_button(&theme, &words, ask));
                } else {
                    row.spawn(button(&theme, &words, ask));
                }
            }
        });
        units(sheet, &theme, settings.units);
        let contrast = match settings.contrast {
            Contrast::Normal => "Contrast: normal",
            Contrast::High => "Contrast: high",
        };
        let motion = match settings.motion {
            Motion::Full => "Motion: full",
            Motion::Reduced => "Motion: reduced, only what is read",
        };
        let hints = match settings.hints {
            Hints::Keyboard => "Hints: keyboard",
            Hints::Pointer => "Hints: pointer, with keys to point at",
        };
        sheet.spawn(row()).with_children(|row| {
            row.spawn(button(&theme, contrast, Ask::Contrast));
            row.spawn(button(&theme, motion, Ask::Motion));
            row.spawn(button(&theme, hints, Ask::Hints));
            if cfg!(feature = "sound") {
                let sound = if settings.sound { "Sound: on" } else { "Sound: off" };
                row.spawn(button(&theme, sound, Ask::Sound));
            }
        });
        if let Some(trouble) = &kept.trouble {
            sheet.spawn(theme::bold(trouble.clone(), theme::BODY, theme.caution));
        }
        sheet.spawn(Node::default()).with_children(|row| {
            row.spawn(button(&theme, "close", Ask::Settings));
        });
    });
}

/// The units in which the program itself speaks, a row for each quantity.
fn units(sheet: &mut ChildSpawnerCommands, theme: &Theme, set: Units) {
    let temperatures = [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit];
    let pressures = [PressureUnit::MmHg, PressureUnit::HPa, PressureUnit::InHg];
    let flows = [FlowUnit::M3Min, FlowUnit::Ft3Min];
    let rows: [(&str, Vec<(&str, UnitChoice, bool)>); 3] = [
        (
            "Temperatures are said in",
            temperatures
                .map(|unit| (unit.name(), UnitChoice::Temperature(unit), unit == set.temperature))
                .to_vec(),
        ),
        (
            "Pressures are said in",
            pressures
                .map(|unit| (unit.name(), UnitChoice::Pressure(unit), unit == set.pressure))
                .to_vec(),
        ),
        (
            "Flows are said in",
            flows.map(|unit| (unit.name(), UnitChoice::Flow(unit), unit == set.flow)).to_vec(),
        ),
    ];
    for (words, choices) in rows {
        sheet
            .spawn(Node {
                column_gap: px(8),
                row_gap: px(6),
                flex_wrap: FlexWrap::Wrap,
                align_items: AlignItems::Center,
                ..default()
            })
            .with_children(|row| {
                row.spawn(theme::text(words, theme::BODY, theme.ink));
                for (name, choice, chosen) in choices {
                    if chosen {
                        row.spawn(chosen_button(theme, name, Ask::Unit(choice)));
                    } else {
                        row.spawn(button(theme, name, Ask::Unit(choice)));
                    }
                }
            });
    }
    let note = "Instruments, papers and the field book keep their own units.";
    sheet.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
}
