//! What to do now: the next step of the work, why, and the sentence that does it.
//!
//! Only what can be seen, the field book and the papers are asked, never the truth of the rig: the
//! advice knows no more than a colleague who looks over the shoulder.

mod arrive;
mod back;
mod check;
mod finish;
mod mount;
mod points;
mod run;
mod screw;
#[cfg(test)]
mod tests;

use sim_core::field_book::{Field, FieldBook};
use sim_core::procedure;
use sim_core::session::SitePapers;
use sim_core::session::view::View;
use sim_core::session::view::run::RunStanding;

use super::say::HEARD;
use crate::report::words::source_words;

/// What to do next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Advice {
    /// The step.
    pub step: String,
    /// Why, with the source in brackets.
    pub why: String,
    /// The sentence that does it; `...` stands where the trainee's own reading goes.
    pub sentence: String,
}

/// All that may be asked for an advice.
struct Scene<'a> {
    /// What can be seen, at the resolution of a sharp eye.
    view: View,
    /// The same for the ears, which hear more finely than the view is rounded.
    raw: &'a View,
    book: &'a FieldBook,
    papers: &'a SitePapers<'a>,
}

impl Scene<'_> {
    /// Whether something stands in a field.
    fn has(&self, field: Field) -> bool {
        self.book.text(field).is_some()
    }

    /// Whether the work is given up: refused in writing.
    fn refused(&self) -> bool {
        let decision = self.book.text(Field::Decision).unwrap_or_default().to_lowercase();
        decision.contains("refus") || decision.contains("reject")
    }

    /// Whether every point that the work order asks for stands in the book with legs and chart.
    fn points_are_taken(&self) -> bool {
        let whole = self.book.points().into_iter().filter(|&point| {
            let sum = self.has(Field::DeltaH(point));
            let legs = self.has(Field::Up(point)) && self.has(Field::Down(point));
            (sum || legs) && self.has(Field::Chart(point))
        });
        whole.count() >= usize::from(self.papers.work_order.points)
    }

    /// Whether the blower is heard.
    fn runs(&self) -> bool {
        self.raw.blower.loudness >= HEARD
    }
}

/// A step with the rule that asks for it.
struct Next {
    rule: &'static str,
    step: String,
    sentence: String,
}

/// A step, the rule behind it, and the sentence.
fn next(rule: &'static str, step: impl Into<String>, sentence: impl Into<String>) -> Option<Next> {
    Some(Next { rule, step: step.into(), sentence: sentence.into() })
}

/// A field with the rule that asks for it, the step and the sentence.
type Blank = (Field, &'static str, &'static str, &'static str);

/// The step that fills the first of these fields that is blank.
fn first_blank(scene: &Scene<'_>, fields: impl IntoIterator<Item = Blank>) -> Option<Next> {
    let (_, rule, step, sentence) = fields.into_iter().find(|(field, ..)| !scene.has(*field))?;
    next(rule, step, sentence)
}

/// The next step of the work, from what can be seen, the field book and the papers alone.
pub fn what_now(view: &View, book: &FieldBook, papers: &SitePapers<'_>) -> Advice {
    let scene = Scene { view: view.at_eye_resolution(), raw: view, book, papers };
    let alone = scene.papers.work_order.is_check_alone();
    let over = alone || scene.refused() || scene.points_are_taken();
    let found = away(&scene)
        .or_else(|| thunder(&scene))
        .or_else(|| check::alone(&scene))
        .or_else(|| if over { None } else { work(&scene) })
        .or_else(|| check::of_own_line(&scene))
        .or_else(|| finish::restore(&scene))
        .or_else(|| finish::sums(&scene))
        .or_else(|| run::next_step(&scene))
        .or_else(|| finish::closed(&scene))
        .or_else(|| next("book-signed", "Everything is done: sign the field book.", "sign"));
    // The last of them always gives a step.
    let Next { rule, step, sentence } =
        found.unwrap_or(Next { rule: "book-signed", step: String::new(), sentence: String::new() });
    let why = procedure::rule(rule).map_or_else(String::new, |rule| {
        format!("{}: {} ({})", rule.title, rule.why, source_words(rule.source))
    });
    Advice { step, why, sentence }
}

/// The work up to the last point.
fn work(scene: &Scene<'_>) -> Option<Next> {
    arrive::next_step(scene)
        .or_else(|| mount::sampler(scene))
        .or_else(|| mount::manometer(scene))
        .or_else(|| points::start(scene))
        .or_else(|| points::next_point(scene))
}

/// While nobody is at the site there is nothing to do there.
fn away(scene: &Scene<'_>) -> Option<Next> {
    let run = scene.view.run.as_deref()?;
    if run.standing != RunStanding::Away {
        return None;
    }
    next("run-made", "Nobody is at the site: let the hours go by.", "wait 2 h")
}

/// Thunder ends everything else.
fn thunder(scene: &Scene<'_>) -> Option<Next> {
    scene.view.sky.thunder_since_s?;
    if scene.runs() {
        return next("thunder", "It thunders: stop the blower and leave the roof.", "stop blower");
    }
    next("thunder", "It thunders: leave the roof at once.", "leave roof")
}
