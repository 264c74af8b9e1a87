//! A step of the work on a copy of the session, deed by deed. The session itself stands still
//! meanwhile and is not touched.

use std::collections::VecDeque;

use bevy::prelude::*;
use content::SpeechService;
use hands::{How, Spot, Step, in_hands, spot_of};
use sim_core::field_book::Field;
use sim_core::session::action::Action;
use sim_core::session::preview::Preview;
use sim_core::session::view::View;

/// Ticks before the first deed: the eye finds the thing and its name.
const LEAD: u32 = 30;
/// Ticks after the last deed, to see what came of it.
const TAIL: u32 = 60;
/// Most ticks that all deeds of a step take together, and most and fewest of one.
const ALL: u32 = 200;
const MOST: u32 = 24;
const FEWEST: u32 = 8;

/// A step that is being shown.
#[derive(Debug)]
pub struct Show {
    copy: Preview,
    deeds: VecDeque<Action>,
    every: u32,
    /// Ticks until the next deed, or until the end.
    wait: u32,
    words: String,
    at: Option<Spot>,
    first: Option<Spot>,
}

impl Show {
    /// A show of a step on a copy.
    pub fn new(copy: Preview, step: &Step, speech: &dyn SpeechService) -> Self {
        let deeds: VecDeque<Action> = match &step.how {
            How::Hands(deeds) => deeds.iter().cloned().collect(),
            How::Wait(_) | How::Write(_) | How::Sign => VecDeque::new(),
        };
        let count = u32::try_from(deeds.len()).unwrap_or(u32::MAX).max(1);
        let every = (ALL / count).clamp(FEWEST, MOST);
        let words = match &step.how {
            How::Hands(_) => {
                deeds.front().map_or_else(String::new, |deed| in_hands(&copy.view(), deed, speech))
            }
            How::Wait(seconds) if *seconds >= 60.0 => {
                format!("on the watch: let {:.0} min pass", seconds / 60.0)
            }
            How::Wait(seconds) => format!("on the watch: let {seconds:.0} s pass"),
            How::Write(_) => "in the field book: write your value into this field".to_owned(),
            How::Sign => "in the field book: sign on the remarks page".to_owned(),
        };
        let wait = if deeds.is_empty() { LEAD + TAIL } else { LEAD };
        Self { copy, deeds, every, wait, words, at: step.at, first: step.at }
    }

    /// The thing at which the step begins.
    pub const fn first(&self) -> Option<Spot> {
        self.first
    }

    /// The thing at which something is done now.
    pub const fn at(&self) -> Option<Spot> {
        self.at
    }

    /// What is done now, in words.
    pub fn words(&self) -> &str {
        &self.words
    }

    /// What can be seen on the copy.
    pub fn view(&self) -> View {
        self.copy.view()
    }

    /// Lets a tick pass. `false` when the show is over.
    pub fn tick(&mut self, speech: &dyn SpeechService) -> bool {
        self.copy.advance(1);
        self.wait = self.wait.saturating_sub(1);
        if self.wait > 0 {
            return true;
        }
        let Some(deed) = self.deeds.pop_front() else { return false };
        let view = self.copy.view();
        self.at = spot_of(&view, &deed).or(self.at);
        self.words = in_hands(&view, &deed, speech);
        if let Err(error) = self.copy.act(deed) {
            self.words = format!("{}. That cannot be done now: {error}.", self.words);
            self.deeds.clear();
        }
        self.wait = if self.deeds.is_empty() { TAIL } else { self.every };
        true
    }
}

/// Where the focus is to go once it is there.
#[derive(Resource, Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GoTo {
    /// Nowhere.
    #[default]
    Nowhere,
    /// To a field of the book.
    Field(Field),
    /// To the signature.
    Signature,
    /// To the watch's longest wait that is not longer than so many seconds.
    Watch(u32),
}

impl GoTo {
    /// Where a step is done that hands do not do.
    pub const fn of(step: &Step) -> Self {
        match &step.how {
            How::Hands(_) => Self::Nowhere,
            How::Wait(seconds) => Self::Watch(*seconds as u32),
            How::Write(field) => Self::Field(*field),
            How::Sign => Self::Signature,
        }
    }
}
