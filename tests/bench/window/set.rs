//! The units in which the program speaks are set, kept and used; instruments and book keep theirs.

use bevy::input::keyboard::{Key, KeyCode};
use sim_core::field_book::Field;
use window::ui::settings::Settings;
use words::units::{FlowUnit, PressureUnit, TemperatureUnit, Units};

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
    let config = bench.folder().join("config");
    let (kept, _) = window::ui::settings::read(Some(&config));
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
    bench.click("sign the field book");
    bench.click("sign the field book");
    bench.rest(8);
    let shown = bench.on_screen();
    for both in ["764.0 mmHg (1018.6 hPa)", "12.0 \u{b0}C (53.6 \u{b0}F)"] {
        assert!(shown.contains(both), "{shown}");
    }
}
