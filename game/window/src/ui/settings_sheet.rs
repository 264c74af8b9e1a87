//! The sheet on which size of text, units, contrast and motion are set.

use bevy::input::keyboard::Key;
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use words::units::{FlowUnit, PressureUnit, TemperatureUnit, Units};

use crate::ui::controls::{AddRequest as _, Request, button, chosen_button};
use crate::ui::keys::KeyPress;
use crate::ui::order::Frame;
use crate::ui::overlay::{self, FocusHere, Overlay, Sheet, SheetRequest};
use crate::ui::settings::{Contrast, Hints, Kept, Motion, Settings, write};
use crate::ui::theme::{self, Theme};

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
                open.in_set(Frame::Lay)
                    .run_if(resource_changed::<Overlay>.or_else(resource_changed::<Settings>)),
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
    mut kept: ResMut<Kept>,
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
        }
        write(&next, &mut kept);
        *settings = next;
    }
}

/// The buttons of a sheet that is laid, one of which is to have the focus.
struct Buttons<'a> {
    theme: &'a Theme,
    focus: Option<SettingsChange>,
}

impl Buttons<'_> {
    fn put(&self, row: &mut ChildSpawnerCommands, words: &str, change: SettingsChange) {
        let button = row.spawn(button(self.theme, words, change));
        self.mark(button, change);
    }

    /// One of several, which may be the one that is chosen.
    fn choice(
        &self,
        row: &mut ChildSpawnerCommands,
        words: &str,
        change: SettingsChange,
        chosen: Chosen,
    ) {
        let button = match chosen {
            Chosen::Yes => row.spawn(chosen_button(self.theme, words, change)),
            Chosen::No => row.spawn(button(self.theme, words, change)),
        };
        self.mark(button, change);
    }

    fn mark(&self, mut button: EntityCommands, change: SettingsChange) {
        if self.focus == Some(change) {
            button.insert(FocusHere);
        }
    }
}

/// Whether a choice is the one in force.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Chosen {
    Yes,
    No,
}

impl Chosen {
    fn when<T: PartialEq>(one: T, other: T) -> Self {
        if one == other { Self::Yes } else { Self::No }
    }
}

fn row() -> Node {
    Node {
        column_gap: px(8),
        row_gap: px(6),
        flex_wrap: FlexWrap::Wrap,
        align_items: AlignItems::Center,
        ..default()
    }
}

fn open(
    overlay: Res<Overlay>,
    settings: Res<Settings>,
    kept: Res<Kept>,
    veils: Query<Entity, With<overlay::Veil>>,
    (focus, controls): (Res<InputFocus>, Query<&Request<SettingsChange>>),
    mut commands: Commands,
) {
    if !overlay.is(SETTINGS) {
        return;
    }
    let mut had = None;
    if !overlay.is_changed() {
        // Shown again as it is now set, the focus where it was.
        had = focus.get().and_then(|entity| controls.get(entity).ok()).map(|request| request.0);
        for veil in &veils {
            commands.entity(veil).despawn();
        }
    }
    // The theme follows the settings only in the next frame.
    let theme = Theme::of(settings.contrast);
    let buttons = Buttons { theme: &theme, focus: had };
    overlay::lay(&mut commands, &theme, "Settings", |sheet| {
        sheet.spawn(row()).with_children(|row| {
            row.spawn(theme::text("Size of text", theme::BODY, theme.ink));
            for size in SIZES {
                let change = SettingsChange::TextPercent(size);
                let chosen = Chosen::when(size, settings.text_percent);
                buttons.choice(row, &format!("{size} %"), change, chosen);
            }
        });
        units(sheet, &buttons, settings.units);
        sheet.spawn(row()).with_children(|row| switches(row, &buttons, &settings));
        if let Some(trouble) = &kept.trouble {
            sheet.spawn(theme::bold(trouble.clone(), theme::BODY, theme.caution));
        }
        sheet.spawn(Node::default()).with_children(|row| {
            row.spawn(button(&theme, "close", SheetRequest(SETTINGS)));
        });
    });
}

/// What is one way or the other.
fn switches(row: &mut ChildSpawnerCommands, buttons: &Buttons, settings: &Settings) {
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
    buttons.put(row, contrast, SettingsChange::Contrast);
    buttons.put(row, motion, SettingsChange::Motion);
    buttons.put(row, hints, SettingsChange::Hints);
    if cfg!(feature = "sound") {
        let sound = if settings.sound { "Sound: on" } else { "Sound: off" };
        buttons.put(row, sound, SettingsChange::Sound);
    }
}

/// The units in which the program itself speaks, a row for each quantity.
fn units(sheet: &mut ChildSpawnerCommands, buttons: &Buttons, set: Units) {
    let temperatures = [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit].map(|unit| {
        let chosen = Chosen::when(unit, set.temperature);
        (unit.name(), SettingsChange::Temperature(unit), chosen)
    });
    let pressures = [PressureUnit::MmHg, PressureUnit::HPa, PressureUnit::InHg].map(|unit| {
        let chosen = Chosen::when(unit, set.pressure);
        (unit.name(), SettingsChange::Pressure(unit), chosen)
    });
    let flows = [FlowUnit::M3Min, FlowUnit::Ft3Min]
        .map(|unit| (unit.name(), SettingsChange::Flow(unit), Chosen::when(unit, set.flow)));
    let rows: [(&str, &[(&str, SettingsChange, Chosen)]); 3] = [
        ("Temperatures are said in", &temperatures),
        ("Pressures are said in", &pressures),
        ("Flows are said in", &flows),
    ];
    let theme = buttons.theme;
    for (words, choices) in rows {
        sheet.spawn(row()).with_children(|row| {
            row.spawn(theme::text(words, theme::BODY, theme.ink));
            for (name, change, chosen) in choices {
                buttons.choice(row, name, *change, *chosen);
            }
        });
    }
    let note = "Instruments, papers and the field book keep their own units.";
    sheet.spawn(theme::italic(note, theme::SMALL, theme.ink_soft));
}
