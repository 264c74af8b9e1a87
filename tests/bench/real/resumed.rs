//! A bench on which the sampler is stripped, the calibrator mounted and the blower running: gone on
//! with from a journal, so that a test need not do it all by hand.

use sessions::{Durability, JournalFile};
use sim_core::session::Session;
use sim_core::session::action::Action;

use super::hands::{Hands, seen};
use super::keyboard::Keyboard;
use super::screen::{Screen, pause};
use crate::bench::paint::run;

/// Starts the program on a screen and goes on with the prepared session.
pub fn at_work(mut screen: Screen) -> Keyboard {
    let folder = screen.journals();
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = JournalFile::create(&folder.join("prepared.journal"), Durability::AtClose);
    let mut session = run::mounted_in(Box::new(file.expect("a journal")));
    settle(&mut session);
    drop(session);
    screen.start();
    let mut hands = Keyboard::new(screen);
    let goes_on = |label: &str| label.starts_with("First calibration, ");
    let told = hands.screen.wait_for("going on", |told| told.iter().any(|one| goes_on(&one.label)));
    let label = told.into_iter().map(|one| one.label).find(|label| goes_on(label));
    hands.press(&label.expect("it can be gone on with"));
    hands.screen.wait_for("the bench", |told| seen(told, "the station").is_some());
    pause(1500);
    hands
}

/// Lets everything come to rest.
fn settle(session: &mut Session) {
    session.act(Action::TurnKnob { opening: 0.7 }).expect("the knob turns");
    session.wait(240.0).expect("time passes");
    for _ in 0..4 {
        session.act(Action::Tap).expect("a tap");
    }
}
