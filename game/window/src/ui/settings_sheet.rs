//! The sheet on which size of text, units, contrast and motion are set.

use accesskit::Role;
use bevy::input::keyboard::Key;
use bevy::prelude::*;
use content::units::{FlowUnit, PressureUnit, TemperatureUnit};

use crate::ui::access::{Unspoken, spoken};
use crate::ui::controls::{AddRequest as _, Caption, Choice, Chosen, Request, button, choice};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::overlay::{self, Overlay, Sheet, SheetRequest};
use crate::ui::settings::{Contrast, HAS_SOUND, Hints, Kept, Motion, Settings, write};
use crate::ui::store::Store;
use crate::ui::theme;
use crate::ui::tone::Tone;

/// The sheet with the settings.
pub const SETTINGS: Sheet = Sheet("settings");

/// Asks for a setting to be changed.
#[derive(Message, Debug, Clone, Copy, PartialEq, Eq)]
pub enum SettingsChange {
    /// The size of text, percent.
    TextPercent(u16),
    /// The unit in which temperatures are said.
    Temperature(TemperatureUnit),
    /// The unit in which the air's pressure is said.
    Pressure(PressureUnit),
    /// The unit in which flows are said.
    Flow(FlowUnit),
    /// The other contrast.
    Contrast,
    /// The other motion.
    Motion,
    /// The other hints.
    Hints,
    /// Sound on or off: there is a control for it where sound is built in.
    Sound,
    /// Readings in words on or off.
    ReadingsInWords,
}

/// Sizes of text that are offered, percent.
const SIZES: [u16; 5] = [100, 125, 150, 175, 200];

pub struct SettingsSheetPlugin;

impl Plugin for SettingsSheetPlugin {
    fn build(&self, app: &mut App) {
        app.add_request::<SettingsChange>().add_observer(on_key).add_systems(
            Update,
            (
                obey.in_set(Frame::Obey),
                open.in_set(Frame::Lay).run_if(resource_changed::<Overlay>),
                show.in_set(Frame::Show).run_if(resource_changed::<Settings>),
            ),
        );
    }
}

fn on_key(press: On<KeyPress>, mut requests: MessageWriter<SheetRequest>) {
    if press.key == Key::F2 {
        requests.write(SheetRequest(SETTINGS));
    }
}

fn obey(
    mut changes: MessageReader<SettingsChange>,
    mut settings: ResMut<Settings>,
    (store, mut kept): (Res<Store>, ResMut<Kept>),
) {
    for change in changes.read() {
        let mut next = settings.clone();
        match change {
            SettingsChange::TextPercent(percent) => next.text_percent = *percent,
            SettingsChange::Temperature(unit) => next.units.temperature = *unit,
            SettingsChange::Pressure(unit) => next.units.pressure = *unit,
            SettingsChange::Flow(unit) => next.units.flow = *unit,
            SettingsChange::Contrast => {
                next.contrast = match next.contrast {
                    Contrast::Normal => Contrast::High,
                    Contrast::High => Contrast::Normal,
                };
            }
            SettingsChange::Motion => {
                next.motion = match next.motion {
                    Motion::Full => Motion::Reduced,
                    Motion::Reduced => Motion::Full,
                };
            }
            SettingsChange::Hints => {
                next.hints = match next.hints {
                    Hints::Keyboard => Hints::Pointer,
                    Hints::Pointer => Hints::Keyboard,
                };
            }
            SettingsChange::Sound => next.sound = !next.sound,
            SettingsChange::ReadingsInWords => next.readings_in_words = !next.readings_in_words,
        }
        write(&next, &**store, &mut kept);
        *settings = next;
    }
}

/// Where it is said that settings cannot be kept.
#[derive(Component)]
struct Trouble;

fn row() -> Node {
    Node { align_items: AlignItems::Center, ..overlay::choices() }
}

fn open(
    overlay: Res<Overlay>,
    (settings, kept): (Res<Settings>, Res<Kept>),
    mut commands: Commands,
) {
    if !overlay.is(SETTINGS) {
        return;
    }
    overlay::lay(&mut commands, "Settings", |sheet| {
        sheet.spawn((row(), spoken(Role::RadioGroup, "Text size", ""))).with_children(|row| {
            row.spawn((theme::text("Text size", theme::BODY, Tone::Ink), Unspoken));
            for size in SIZES {
                let change = SettingsChange::TextPercent(size);
                put_choice(row, &format!("{size} %"), change, &settings);
            }
        });
        units(sheet, &settings);
        sheet.spawn(row()).with_children(|row| {
            use SettingsChange::{Contrast, Hints, Motion, ReadingsInWords, Sound};
            let sound = HAS_SOUND.then_some(Sound);
            let switches = [Contrast, Motion, Hints, ReadingsInWords].into_iter().chain(sound);
            for change in switches {
                let words = switch_words(change, &settings);
                row.spawn((button(words, change), Caption::new(words)));
            }
        });
        let words = "Readings in words are for those who cannot see a scale: what you look at is read out to \
            your screen reader as a sharp eye reads it. Each reading is logged. A scenario may rule them out.";
        sheet.spawn(theme::italic(words, theme::SMALL, Tone::InkSoft));
        sheet.spawn((Trouble, trouble(&kept)));
        sheet.spawn(Node::default()).with_children(|row| {
            row.spawn(button("close", SheetRequest(SETTINGS)));
        });
    });
}

fn put_choice(
    row: &mut ChildSpawnerCommands,
    words: &str,
    change: SettingsChange,
    settings: &Settings,
) {
    row.spawn(choice(words, theme::BODY, change, in_force(change, settings)));
}

/// What is said where settings cannot be kept.
fn trouble(kept: &Kept) -> impl Bundle {
    theme::bold(kept.trouble.clone().unwrap_or_default(), theme::BODY, Tone::Caution)
}

/// Whether a change would leave everything as it is.
fn in_force(change: SettingsChange, settings: &Settings) -> Chosen {
    let units = settings.units;
    match change {
        SettingsChange::TextPercent(percent) => Chosen::when(percent, settings.text_percent),
        SettingsChange::Temperature(unit) => Chosen::when(unit, units.temperature),
        SettingsChange::Pressure(unit) => Chosen::when(unit, units.pressure),
        SettingsChange::Flow(unit) => Chosen::when(unit, units.flow),
        // These are switched to and fro.
        SettingsChange::Contrast
        | SettingsChange::Motion
        | SettingsChange::Hints
        | SettingsChange::Sound
        | SettingsChange::ReadingsInWords => Chosen::No,
    }
}

/// What stands on the button of something that is one way or the other.
const fn switch_words(change: SettingsChange, settings: &Settings) -> &'static str {
    match change {
        SettingsChange::Contrast => match settings.contrast {
            Contrast::Normal => "Contrast: normal",
            Contrast::High => "Contrast: high",
        },
        SettingsChange::Motion => match settings.motion {
            Motion::Full => "Motion: full",
            Motion::Reduced => "Motion: reduced to what is read",
        },
        SettingsChange::Hints => match settings.hints {
            Hints::Keyboard => "Hints: keyboard",
            Hints::Pointer => "Hints: pointer, with an on-screen keypad",
        },
        SettingsChange::Sound => match settings.sound {
            true => "Sound: on",
            false => "Sound: off",
        },
        SettingsChange::ReadingsInWords => match settings.readings_in_words {
            true => "Readings in words: on",
            false => "Readings in words: off",
        },
        SettingsChange::TextPercent(_)
        | SettingsChange::Temperature(_)
        | SettingsChange::Pressure(_)
        | SettingsChange::Flow(_) => "",
    }
}

/// The units in which the program itself speaks, a row for each quantity.
fn units(sheet: &mut ChildSpawnerCommands, settings: &Settings) {
    let temperatures = [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit]
        .map(|unit| (unit.name(), SettingsChange::Temperature(unit)));
    let pressures = [PressureUnit::MmHg, PressureUnit::HPa, PressureUnit::InHg]
        .map(|unit| (unit.name(), SettingsChange::Pressure(unit)));
    let flows =
        [FlowUnit::M3Min, FlowUnit::Ft3Min].map(|unit| (unit.name(), SettingsChange::Flow(unit)));
    let rows: [(&str, &[(&str, SettingsChange)]); 3] =
        [("Temperature", &temperatures), ("Pressure", &pressures), ("Flow", &flows)];
    for (words, choices) in rows {
        sheet.spawn((row(), spoken(Role::RadioGroup, words, ""))).with_children(|row| {
            row.spawn((theme::text(words, theme::BODY, Tone::Ink), Unspoken));
            for (name, change) in choices {
                put_choice(row, name, *change, settings);
            }
        });
    }
    let note = "Instruments, certificates and the field book keep their own units.";
    sheet.spawn(theme::italic(note, theme::SMALL, Tone::InkSoft));
}

/// Shows on the sheet what is now set. The sheet itself stays, and so does the focus.
fn show(
    (settings, kept): (Res<Settings>, Res<Kept>),
    mut choices: Query<(&Request<SettingsChange>, &mut Choice)>,
    mut switches: Query<(&Request<SettingsChange>, &mut Caption)>,
    mut troubles: Query<&mut Text, With<Trouble>>,
) {
    for (request, mut choice) in &mut choices {
        Choice::set(&mut choice, in_force(request.0, &settings));
    }
    for (request, mut caption) in &mut switches {
        Caption::set(&mut caption, switch_words(request.0, &settings));
    }
    for mut text in &mut troubles {
        text.set_if_neq(Text::new(kept.trouble.clone().unwrap_or_default()));
    }
}
