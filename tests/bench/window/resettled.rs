//! A change of settings changes how a screen looks, and nothing else: what is half typed, the caret,
//! what is scrolled and what has the focus stay.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use bevy::text::EditableText;
use bevy::ui_widgets::ScrollArea;
use content::units::{FlowUnit, PressureUnit, TemperatureUnit};
use sim_core::field_book::Field;
use window::desk::Seen;
use window::ui::settings_sheet::SettingsChange;

use super::debriefed::debrief;
use super::harness::Bench;

/// Everything that can be set and is seen.
const CHANGES: [SettingsChange; 7] = [
    SettingsChange::TextPercent(125),
    SettingsChange::Contrast,
    SettingsChange::Motion,
    SettingsChange::Hints,
    SettingsChange::Temperature(TemperatureUnit::Fahrenheit),
    SettingsChange::Pressure(PressureUnit::HPa),
    SettingsChange::Flow(FlowUnit::Ft3Min),
];

/// Sets everything otherwise, one after the other.
fn set_all(bench: &mut Bench) {
    for change in CHANGES {
        bench.app.world_mut().write_message(change);
        bench.rest(3);
    }
}

fn focus(bench: &Bench) -> Entity {
    bench.app.world().resource::<InputFocus>().get().expect("something has the focus")
}

/// The text of the field that has the focus, and where its caret stands in it.
fn typed(bench: &Bench) -> (Entity, String, usize) {
    let field = focus(bench);
    let text = bench.app.world().get::<EditableText>(field).expect("it is a field");
    (field, text.value().to_string(), text.editor().raw_selection().focus().index())
}

/// How far everything is scrolled that is scrolled at all.
fn scrolled(bench: &mut Bench) -> Vec<(Entity, f32)> {
    let world = bench.app.world_mut();
    let mut areas = world.query_filtered::<(Entity, &ScrollPosition), With<ScrollArea>>();
    areas.iter(world).filter(|(_, at)| at.y > 0.0).map(|(area, at)| (area, at.y)).collect()
}

/// Scrolls what holds the focus, or everything that can be scrolled, by so much.
fn scroll(bench: &mut Bench, by: f32) {
    let world = bench.app.world_mut();
    let mut areas =
        world.query_filtered::<(&mut ScrollPosition, &ComputedNode), With<ScrollArea>>();
    for (mut at, node) in areas.iter_mut(world) {
        let most = (node.content_size() - node.size()).y * node.inverse_scale_factor();
        at.y = by.min(most.max(0.0));
    }
    bench.rest(3);
}

#[test]
fn the_list_keeps_what_is_typed_and_where_it_is_scrolled_to() {
    let mut bench = Bench::at_start((1280, 720), 100);
    bench.tab_to_label("rig number: each number sets up a different rig");
    bench.type_text("47");
    bench.press(Key::ArrowLeft, KeyCode::ArrowLeft);
    let before = typed(&bench);
    assert_eq!((before.1.as_str(), before.2), ("47", 1));
    scroll(&mut bench, 90.0);
    let at = scrolled(&mut bench);
    assert!(!at.is_empty(), "nothing is scrolled");
    set_all(&mut bench);
    assert_eq!(typed(&bench), before);
    assert_eq!(scrolled(&mut bench), at);
}

#[test]
fn the_bench_keeps_a_cell_that_is_half_typed() {
    let mut bench = Bench::at_work((1280, 720), 100);
    bench.click("points");
    bench.click("point 3, up, in");
    bench.type_text("3.25");
    bench.press(Key::ArrowLeft, KeyCode::ArrowLeft);
    let before = typed(&bench);
    assert_eq!((before.1.as_str(), before.2), ("3.25", 3));
    scroll(&mut bench, 30.0);
    let at = scrolled(&mut bench);
    set_all(&mut bench);
    assert_eq!(typed(&bench), before);
    assert_eq!(scrolled(&mut bench), at);
    let field = sim_core::field_book::PointNumber::try_from(3).map(Field::Up);
    assert_eq!(bench.written(field.expect("a point")), None, "it is not written before it is done");
}

#[test]
fn help_stays_where_it_is_scrolled_to() {
    let mut bench = Bench::at_work((1280, 720), 200);
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(3);
    bench.click("what now");
    scroll(&mut bench, 60.0);
    let (at, before) = (scrolled(&mut bench), focus(&bench));
    assert!(!at.is_empty(), "nothing is scrolled");
    bench.app.world_mut().write_message(SettingsChange::TextPercent(175));
    bench.app.world_mut().write_message(SettingsChange::Contrast);
    bench.rest(4);
    assert_eq!(scrolled(&mut bench), at);
    assert_eq!(focus(&bench), before);
    let spoken = bench.value_of("answer").expect("it is spoken");
    assert!(!spoken.is_empty(), "the answer is gone");
}

#[test]
fn the_debrief_stays_at_the_finding_that_is_looked_at() {
    let mut bench = debrief("01_first_calibration.ron", "hurried");
    let finding = "finding 1: show this moment";
    bench.tab_to_label(finding);
    let (at, before) = (scrolled(&mut bench), focus(&bench));
    assert!(!at.is_empty(), "nothing is scrolled");
    assert!(!bench.on_screen().contains("ft\u{b3}/min"));
    set_all(&mut bench);
    assert_eq!(focus(&bench), before);
    assert_eq!(bench.label_of_focus().as_deref(), Some(finding));
    assert_eq!(scrolled(&mut bench), at);
    assert!(bench.on_screen().contains("ft\u{b3}/min"), "the units that are set are not said");
}

#[test]
fn the_sheet_of_settings_keeps_the_focus_over_every_screen() {
    let at_start = Bench::at_start((1280, 800), 100);
    let on_debrief = debrief("01_first_calibration.ron", "hurried");
    for (mut bench, screen) in [(at_start, "the list"), (on_debrief, "the debrief")] {
        bench.press(Key::F2, KeyCode::F2);
        bench.rest(3);
        for choice in ["150 %", "\u{b0}F", "hPa", "ft\u{b3}/min"] {
            bench.tab_to_label(choice);
            let chosen = focus(&bench);
            // Twice: what lies under the sheet is never worked.
            for _ in 0..2 {
                bench.press(Key::Enter, KeyCode::Enter);
                assert_eq!(focus(&bench), chosen, "{choice} over {screen}");
            }
        }
        assert!(!bench.app.world().contains_resource::<Seen>(), "a session was begun under it");
        assert!(bench.is_there("Settings"), "it is closed over {screen}");
        bench.press(Key::Escape, KeyCode::Escape);
        bench.rest(3);
        let under = bench.label_of_focus();
        assert!(under.is_some(), "the focus is lost on {screen}");
    }
}

#[test]
fn another_contrast_colours_what_is_there() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let colors = |bench: &mut Bench| {
        let world = bench.app.world_mut();
        let mut texts = world.query::<&TextColor>();
        let mut colors: Vec<[u8; 4]> =
            texts.iter(world).map(|color| color.0.to_srgba().to_u8_array()).collect();
        colors.sort_unstable();
        colors.dedup();
        colors
    };
    let before = colors(&mut bench);
    bench.app.world_mut().write_message(SettingsChange::Contrast);
    bench.rest(3);
    let after = colors(&mut bench);
    assert!(after.contains(&[0, 0, 0, 255]), "{after:?}");
    let left: Vec<_> = after.iter().filter(|color| before.contains(color)).collect();
    assert!(left.is_empty(), "colours of the usual contrast are left: {left:?}");
}
