//! Machines that lack something: the program says what, or works all the same. It never gives up
//! without a word of its own.

use std::process::{Command, Output};
use std::time::{Duration, Instant};

use bench_tests::program;

use super::hands::{Hands, seen};
use super::keyboard::Keyboard;
use super::pointer::Pointer;
use super::screen::{Screen, pause, said};

/// Longest that a program may take to say why it does not start.
const PATIENCE: Duration = Duration::from_secs(60);

/// What the program says where it cannot open its window.
fn refused(alter: impl FnOnce(&mut Command)) -> String {
    let home = tempfile::tempdir().expect("a folder");
    let mut command = Command::new(program::path());
    command
        .current_dir(bench_tests::repository())
        .env("HOME", home.path())
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("DISPLAY")
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped());
    alter(&mut command);
    let mut child = command.spawn().expect("it runs");
    let begun = Instant::now();
    while child.try_wait().expect("its state").is_none() {
        if begun.elapsed() > PATIENCE {
            let _ = child.kill();
            panic!("it neither starts nor ends: {:?}", child.wait_with_output());
        }
        pause(50);
    }
    let Output { status, stderr, .. } = child.wait_with_output().expect("its words");
    let said = String::from_utf8(stderr).expect("text");
    assert_eq!(status.code(), Some(2), "{said}");
    assert!(!said.contains("panicked") && !said.contains("RUST_BACKTRACE"), "{said}");
    assert!(said.contains("drive SCENARIO --words"), "what can be done instead: {said}");
    said
}

#[test]
fn without_a_display_it_says_so() {
    let said = refused(|_| {});
    assert!(said.contains("there is no display"), "{said}");
}

#[test]
fn with_a_display_that_is_not_there_it_says_so() {
    let said = refused(|command| {
        command.env("DISPLAY", ":4711");
    });
    assert!(said.contains("`:4711` cannot be reached"), "{said}");
}

#[test]
fn a_library_that_cannot_be_loaded_is_named_with_its_package() {
    let screen = Screen::new((800, 600), 1);
    // The loader looks here first, and takes what it finds for the library.
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["libxkbcommon-x11.so.0", "libxkbcommon-x11.so"] {
        std::fs::write(folder.path().join(name), "no library").expect("a file");
    }
    let said = refused(|command| {
        command.env("DISPLAY", screen.display()).env("LD_LIBRARY_PATH", folder.path());
    });
    assert!(said.contains("libxkbcommon-x11-0"), "{said}");
}

#[test]
fn without_a_driver_it_says_what_to_install() {
    let screen = Screen::new((800, 600), 1);
    let empty = tempfile::tempdir().expect("a folder");
    let broken = empty.path().join("broken.json");
    std::fs::write(&broken, "no driver").expect("a file");
    for drivers in [empty.path().join("none.json"), broken] {
        let said = refused(|command| {
            command
                .env("DISPLAY", screen.display())
                .env("VK_ICD_FILENAMES", &drivers)
                .env("VK_DRIVER_FILES", &drivers)
                .env("LIBGL_ALWAYS_SOFTWARE", "1");
        });
        assert!(said.contains("mesa-vulkan-drivers"), "{said}");
    }
}

#[test]
fn with_a_home_that_cannot_be_written_to_the_bench_works_and_says_that_nothing_is_kept() {
    let mut screen = Screen::new((1280, 800), 1);
    // Not even the administrator can make a folder there.
    screen.live_in("/proc/self");
    screen.start();
    let mut hands = Keyboard::new(screen);
    hands.begin("First calibration");
    let told = hands.screen.told();
    assert!(said(&told).contains("No journal is kept"), "{}", said(&told));
    hands.go_to("lid of the shelter");
    hands.screen.tool(&["key", "1"]);
    hands.screen.wait_for("the lid", |told| {
        seen(told, "lid of the shelter").is_some_and(|lid| lid.value.contains("open"))
    });
}

#[test]
fn with_a_broken_settings_file_the_bench_comes_up_with_the_usual_settings() {
    let mut screen = Screen::new((1280, 800), 1);
    let folder = screen.home.path().join(".config/steady-draw");
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("settings.ron"), "(text_percent: 9").expect("a file");
    screen.start();
    let told = screen.told();
    let trouble = |one: &&window::ui::told::Told| {
        format!("{} {}", one.label, one.value).contains("settings.ron")
    };
    assert!(told.iter().any(|one| trouble(&one)), "it is said on the list: {told:?}");
    let mut hands = Keyboard::new(screen);
    hands.begin("First calibration");
}

#[test]
fn a_window_of_640_by_480_is_worked_with_the_pointer() {
    let mut screen = Screen::new((640, 480), 1);
    screen.start();
    let mut hands = Pointer::new(screen);
    let told = hands.screen.told();
    let card = told.iter().find(|one| one.label.starts_with("First calibration")).expect("a card");
    let label = card.label.clone();
    hands.press(&label);
    hands.screen.wait_for("the bench", |told| seen(told, "the station").is_some());
    pause(1500);
    hands.screen.keep_picture("640 by 480");
    hands.act("lid of the shelter", "open the lid");
    // The bar at the side is drawn down: the book comes into sight below the scene.
    let tab = "remarks";
    assert!(seen(&hands.screen.told(), tab).is_none(), "all of the bench is in the window already");
    hands.draw_bar_down_to(tab);
    hands.screen.wait_for("the book", |told| seen(told, tab).is_some());
    hands.press(tab);
    hands.screen.wait_for("the page", |told| {
        seen(told, "sign the field book").is_some()
            || told.iter().any(|one| one.label == "sign the field book")
    });
    hands.screen.keep_picture("640 by 480, book");
}
