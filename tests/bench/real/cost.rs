//! What the bench costs in a real window whose drawing the processor does: at rest, and while water
//! swings, held against an empty window of the engine in the same run. Time of the processor is
//! taken, not time on the wall: other programs of the machine matter less.
#![allow(clippy::print_stdout, reason = "what was measured is there to be looked at")]

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use super::hands::{Hands, seen};
use super::keyboard::Keyboard;
use super::resumed;
use super::screen::{Screen, pause};

const SIZE: (u32, u32) = (1280, 800);
/// Ticks of the processor's clock in a second, as Linux counts them for programs.
const CLOCK_HZ: f64 = 100.0;
/// How long a frame is measured, s.
const MEASURED_S: u64 = 20;
/// How long a bench at rest is measured, s: it is drawn seldom.
const IDLE_MEASURED_S: u64 = 40;
/// Most of a core that a bench at rest may take. What people run is built for speed; the build for
/// developers is some three times slower.
const IDLE_SHARE: f64 = if cfg!(debug_assertions) { 0.04 } else { 0.02 };
/// Most that a frame may cost, in frames of the empty window.
const MOVING_RATIO: f64 = if cfg!(debug_assertions) { 2.5 } else { 1.5 };
/// Latest that the first frame may come, in times of the empty window. Reading scenarios, laying out
/// and drawing the list is work of our own code, which the build for developers does slowly.
const FIRST_RATIO: f64 = if cfg!(debug_assertions) { 3.0 } else { 1.5 };
/// Most memory, MB.
const MEMORY_MB: f64 = 400.0;

/// Seconds of the processor that a program has taken so far.
fn cpu_s(process: u32) -> f64 {
    let text = std::fs::read_to_string(format!("/proc/{process}/stat")).expect("it runs");
    // The name, in brackets, may hold anything.
    let (_, rest) = text.rsplit_once(')').expect("a name");
    let ticks = |number: usize| -> f64 {
        rest.split_whitespace().nth(number).and_then(|word| word.parse().ok()).expect("ticks")
    };
    (ticks(11) + ticks(12)) / CLOCK_HZ
}

/// Resident memory, MB.
fn memory_mb(process: u32) -> f64 {
    let text = std::fs::read_to_string(format!("/proc/{process}/status")).expect("it runs");
    let line = text.lines().find(|line| line.starts_with("VmRSS:")).expect("its memory");
    let kb: f64 = line.split_whitespace().nth(1).and_then(|kb| kb.parse().ok()).expect("kB");
    kb / 1024.0
}

fn frames(file: &Path) -> f64 {
    std::fs::read_to_string(file).ok().and_then(|count| count.parse().ok()).unwrap_or(0.0)
}

/// Seconds of the processor for a frame, while `meanwhile` goes on.
fn cost_of_a_frame(process: u32, count: &Path, mut meanwhile: impl FnMut()) -> (f64, f64) {
    let begun = (Instant::now(), cpu_s(process), frames(count));
    while begun.0.elapsed() < Duration::from_secs(MEASURED_S) {
        meanwhile();
    }
    let drawn = frames(count) - begun.2;
    assert!(drawn > 50.0, "only {drawn} frames were drawn");
    ((cpu_s(process) - begun.1) / drawn, drawn)
}

/// The empty window on a screen.
struct Empty {
    child: Child,
    count: PathBuf,
}

impl Empty {
    fn start(screen: &Screen) -> Self {
        let count = screen.home.path().join("empty.frames");
        let _ = std::fs::remove_file(&count);
        let child = Command::new(env!("CARGO_BIN_EXE_empty-window"))
            .arg(&count)
            .env("DISPLAY", screen.display())
            .env("WINIT_X11_SCALE_FACTOR", "1")
            .env_remove("WAYLAND_DISPLAY")
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("it runs");
        Self { child, count }
    }
}

impl Drop for Empty {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Waits until a pixel of the window has the light tone of its paper: neither the bare screen's nor
/// that of a window in which nothing is drawn yet.
fn wait_for_paint(screen: &Screen) {
    let begun = Instant::now();
    while screen.pixels(30, 300, 1, 1)[..3].iter().any(|tone| *tone < 0xc0) {
        assert!(begun.elapsed() < Duration::from_secs(60), "nothing is drawn");
        pause(10);
    }
}

#[test]
fn a_bench_at_rest_takes_next_to_nothing() {
    let mut screen = Screen::new(SIZE, 1);
    screen.start();
    let mut hands = Keyboard::new(screen);
    hands.begin("First calibration");
    // The timer has the blower on when the work begins.
    hands.act("timer", "switch the timer off");
    hands.act("thermometer", "read the thermometer");
    pause(25_000);
    let process = hands.screen.process();
    let (before, shown) = (cpu_s(process), hands.screen.told());
    pause(IDLE_MEASURED_S * 1000);
    let share = (cpu_s(process) - before) / IDLE_MEASURED_S as f64;
    let memory = memory_mb(process);
    println!("a bench at rest takes {:.2} % of a core and {memory:.0} MB", share * 100.0);
    let time = |told: &[_]| seen(told, "time of day").map(|one| one.value.clone());
    assert_ne!(time(&shown), time(&hands.screen.told()), "the watch goes on");
    assert!(share <= IDLE_SHARE, "{:.2} % of a core", share * 100.0);
    assert!(memory <= MEMORY_MB, "{memory:.0} MB");
}

#[test]
fn a_frame_of_swinging_water_costs_little_more_than_one_of_an_empty_window() {
    let screen = Screen::new(SIZE, 1);
    let empty = Empty::start(&screen);
    wait_for_paint(&screen);
    pause(3000);
    let (bare, drawn) = cost_of_a_frame(empty.child.id(), &empty.count, || pause(500));
    println!("empty window: {:.2} ms for a frame, {drawn} frames", bare * 1000.0);
    drop(empty);

    let mut hands = resumed::at_work(screen);
    hands.act("left leg of the manometer", "read it at eye level");
    hands.go_to("calibrator's knob");
    let count = hands.screen.told_file().with_extension("frames");
    let process = hands.screen.process();
    let mut up = false;
    let (cost, drawn) = cost_of_a_frame(process, &count, || {
        // Every turn sets the water swinging again.
        hands.screen.tool(&["key", if up { "Up" } else { "Down" }]);
        up = !up;
        pause(900);
    });
    let memory = memory_mb(process);
    println!(
        "swinging water: {:.2} ms for a frame, {drawn} frames, {:.2} times the empty window, {memory:.0} MB",
        cost * 1000.0,
        cost / bare
    );
    assert!(cost <= MOVING_RATIO * bare, "{:.2} times the empty window", cost / bare);
    assert!(memory <= MEMORY_MB, "{memory:.0} MB");
}

#[test]
fn the_first_frame_comes_about_as_soon_as_that_of_an_empty_window() {
    let mut screen = Screen::new(SIZE, 1);
    let mut best = [f64::INFINITY; 2];
    // Other programs only ever make it later.
    for _ in 0..5 {
        let begun = Instant::now();
        let empty = Empty::start(&screen);
        wait_for_paint(&screen);
        best[0] = best[0].min(begun.elapsed().as_secs_f64());
        drop(empty);
        pause(500);
        let begun = Instant::now();
        screen.launch();
        wait_for_paint(&screen);
        best[1] = best[1].min(begun.elapsed().as_secs_f64());
        screen.wait_for("the list of scenarios", |told| !told.is_empty());
        screen.kill();
        pause(500);
    }
    let [bare, bench] = best;
    println!(
        "first frame: empty window {bare:.2} s, bench {bench:.2} s, {:.2} times",
        bench / bare
    );
    assert!(bench <= FIRST_RATIO * bare, "{bench:.2} s against {bare:.2} s");
}
