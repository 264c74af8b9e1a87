//! All that may be asked for an advice.

use content::advice::Deed;
use sim_core::calibration::{AirConditions, averages_hold};
use sim_core::field_book::{Decision, Field, FieldBook};
use sim_core::session::SitePapers;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use super::history::History;
use crate::moves::look_at;
use crate::say::power::HEARD;

/// Taps that free a pen.
const TAPS: usize = 3;

/// What can be seen, was done and stands on the papers.
pub(super) struct Scene<'a> {
    /// What can be seen, at the resolution of a sharp eye.
    pub view: View,
    /// The same for the ears, which hear more finely than the view is rounded.
    pub raw: &'a View,
    /// The field book.
    pub book: &'a FieldBook,
    /// The papers.
    pub papers: &'a SitePapers<'a>,
    /// What was done so far.
    pub history: &'a History,
}

impl Scene<'_> {
    /// Whether something stands in a field.
    pub fn has(&self, field: Field) -> bool {
        self.book.text(field).is_some()
    }

    /// Whether the work is given up: refused in writing.
    pub fn refused(&self) -> bool {
        self.book.decision(Field::Decision) == Some(Decision::CalibrationRefused)
    }

    /// Whether every point that the work order asks for stands in the book with legs and chart.
    pub fn points_are_taken(&self) -> bool {
        let whole = self.book.points().into_iter().filter(|&point| {
            let sum = self.has(Field::DeltaH(point));
            let legs = self.has(Field::Up(point)) && self.has(Field::Down(point));
            (sum || legs) && self.has(Field::Chart(point))
        });
        whole.count() >= usize::from(self.papers.work_order.points)
    }

    /// Whether the averages of the season may be built into the line on this day, by the air in the
    /// book; `None` where the order asks for none.
    pub fn averages_built_in(&self) -> Option<bool> {
        self.averages_hold([Field::Pressure, Field::Temperature])
    }

    /// The same for the air in these fields, pressure and temperature.
    pub fn averages_hold(&self, [pressure, temperature]: [Field; 2]) -> Option<bool> {
        let averages = self.papers.work_order.averages?.air()?;
        let air = self.book.number(pressure).zip(self.book.number(temperature));
        let air = air.and_then(|(mmhg, celsius)| AirConditions::as_read(mmhg, celsius).ok());
        Some(air.is_some_and(|air| averages_hold(averages, air)))
    }

    /// Whether the blower is heard.
    pub fn runs(&self) -> bool {
        self.raw.blower.loudness >= HEARD
    }

    /// Looking at something, unless the eyes are on it.
    pub fn look(&self, at: Sight) -> Vec<Deed> {
        let there = self.view.focus == at;
        if there { Vec::new() } else { vec![Deed::Do(look_at(at))] }
    }

    /// Looking at something, unless the eyes are on it, and writing what it shows.
    pub fn look_and_write(&self, at: Sight, field: Field) -> Vec<Deed> {
        let mut deeds = self.look(at);
        deeds.push(Deed::Write(field));
        deeds
    }

    /// What it takes to have read these instruments afresh, the pen after tapping; empty when they
    /// were.
    pub fn reading(&self, sights: &[Sight]) -> Vec<Action> {
        let now = self.view.tick;
        let unread = || sights.iter().filter(|&&at| !self.history.read_afresh(at, now));
        let taps = unread().any(|&at| at == Sight::Pen) && !self.history.tapped(now);
        let taps = std::iter::repeat_n(Action::Tap, if taps { TAPS } else { 0 });
        taps.chain(unread().map(|&at| look_at(at))).collect()
    }
}
