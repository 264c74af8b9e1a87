//! Hands take time: what is asked for before they are free begins when they are, and the watch has moved
//! on by then.

use bevy::input::keyboard::{Key, KeyCode};
use hands::Spot;
use sim_core::rig::parts::Nut;
use sim_core::session::action::Action;
use sim_core::session::journal::{JournalLine, read};
use sim_core::time::{TICKS_PER_SECOND, Tick};
use window::desk::{Desk, Said};

use super::harness::Bench;

/// When each action was done, as the journal has it.
fn times(bench: &Bench) -> Vec<(Tick, Action)> {
    let journal = read(&bench.journal()).expect("the journal holds");
    let acts = journal.lines.into_iter().filter_map(|(_, line)| match line {
        JournalLine::Act { tick, action } => Some((tick, action)),
        _ => None,
    });
    acts.collect()
}

#[test]
fn what_is_asked_for_too_early_is_done_when_the_hands_are_free() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Lid);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.tab_to(Spot::Nut(Nut::ALL[0]));
    let asked = bench.view().tick;
    bench.press(Key::Enter, KeyCode::Enter);
    let done = times(&bench);
    let (opened, turned) = (done[0].0, done[1].0);
    assert!(turned > asked, "the lid took no time: {done:?}");
    assert_eq!(bench.saying(), Said::Nothing);
    let gone = bench.view().tick.seconds_since(opened);
    assert!(bench.view().tick >= turned && gone < 60.0, "{gone} s have gone by");
}

#[test]
fn a_wait_that_is_asked_for_too_early_lasts_as_long_as_any() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Lid);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.click("10 s");
    for _ in 0..400 {
        if bench.app.world().resource::<Desk>().passing().is_none() {
            break;
        }
        bench.rest(1);
    }
    let done = times(&bench);
    let (began, wait) = &done[1];
    assert_eq!(*wait, Action::Wait { seconds: 10.0 });
    let whole = began.later(10 * TICKS_PER_SECOND);
    assert!(bench.view().tick >= whole, "only to {:?} of {whole:?}", bench.view().tick);
}
