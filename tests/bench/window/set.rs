//! The units in which the program speaks are set, kept and used; instruments and book keep theirs.

use bevy::input::keyboard::{Key, KeyCode};
use content::units::{FlowUnit, PressureUnit, TemperatureUnit, Units};
use sessions::LocalStorage;
use sim_core::field_book::Field;
use sim_core::session::action::{
    Action, Decision, FaultPlace, FaultReport, Response, SuspectedCause,
};
use window::desk::ActRequest;
use window::panels::field_book::{SIGN, SIGN_AGAIN};
use window::ui::settings::Settings;
use window::ui::settings_sheet::SettingsChange;

use super::harness::Bench;

#[test]
fn units_are_chosen_on_the_sheet_and_kept() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.press(Key::F2, KeyCode::F2);
    bench.rest(3);
    for unit in ["\u{b0}F", "hPa", "ft\u{b3}/min"] {
        bench.click(unit);
        bench.rest(2);
    }
    let wanted = Units {
        temperature: TemperatureUnit::Fahrenheit,
        pressure: PressureUnit::HPa,
        flow: FlowUnit::Ft3Min,
    };
    assert_eq!(bench.app.world().resource::<Settings>().units, wanted);
    assert_eq!(bench.label_of_focus().as_deref(), Some("ft\u{b3}/min"), "the focus stays there");
    let config = Some(bench.folder().join("config"));
    let storage = LocalStorage { config, ..LocalStorage::default() };
    let (kept, _) = window::ui::settings::read(&storage);
    assert_eq!(kept.units, wanted);
    bench.press(Key::F2, KeyCode::F2);
    bench.rest(3);
    // The book is asked for what the instruments show.
    bench.click("air");
    bench.click("Air temperature, \u{b0}C");
    bench.type_text("13.5");
    bench.press(Key::Tab, KeyCode::Tab);
    assert!(bench.is_there("Station pressure, mmHg"));
    bench.type_text("761");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("761"));
    // The debrief has the units that were set beside those of the instruments.
    bench.click("remarks");
    bench.click(SIGN);
    bench.click(SIGN_AGAIN);
    bench.rest(8);
    let shown = bench.on_screen();
    for both in ["764.0 mmHg (1018.6 hPa)", "12.0 \u{b0}C (53.6 \u{b0}F)"] {
        assert!(shown.contains(both), "{shown}");
    }
}

#[test]
fn what_the_trainee_wrote_keeps_its_own_values() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let words = "reads 2 \u{b0}C high beside 21 \u{b0}C";
    for unit in [
        SettingsChange::Temperature(TemperatureUnit::Fahrenheit),
        SettingsChange::Pressure(PressureUnit::HPa),
    ] {
        bench.app.world_mut().write_message(unit);
    }
    let report = FaultReport {
        place: FaultPlace::Thermometer,
        cause: SuspectedCause::SomethingElse(words.to_owned()),
        seen: String::new(),
        shown_by: Vec::new(),
        response: Response::Noted,
    };
    let written = |field| Action::Write { field, text: words.to_owned() };
    for action in [
        Action::Report(report),
        written(Field::Remarks),
        Action::Decide { decision: Decision::CalibrationRefused, reason: words.to_owned() },
    ] {
        bench.app.world_mut().write_message(ActRequest(action));
    }
    bench.rest(3);
    bench.sign();
    let shown = bench.on_screen();
    let quoted: Vec<&str> = shown.lines().filter(|line| line.contains(words)).collect();
    assert!(!quoted.is_empty(), "nothing of it is on the debrief: {shown}");
    for converted in ["2 \u{b0}C (", "21 \u{b0}C ("] {
        let changed: Vec<&str> = shown.lines().filter(|line| line.contains(converted)).collect();
        assert!(changed.is_empty(), "the trainee's words were converted: {changed:?}");
    }
    // The program's own values are said in both.
    assert!(shown.contains("\u{b0}F)"), "{shown}");
}
