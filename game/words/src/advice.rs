//! What to do now: the next step of the work, the deeds that do it, and the rule behind it.
//!
//! Only what can be seen, what the trainee did, the field book and the papers are asked, never the truth
//! of the rig: the advice knows no more than a colleague who looks over the shoulder. It gives values;
//! the sentences made of them stand in `say.rs`.

mod added;
mod arrive;
mod back;
mod check;
mod display;
mod finish;
mod goal;
mod history;
mod interrupt;
mod lesson;
mod mount;
mod next;
mod plates;
mod points;
mod run;
mod say;
mod scene;
mod screw;
#[cfg(test)]
mod tests;

use content::advice::Deed;
use sim_core::field_book::FieldBook;
use sim_core::session::SitePapers;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use crate::field_names::source_words;
use interrupt::{away, thunder};
use scene::Scene;

pub use goal::Goal;
pub use history::History;
pub use next::Advice;
pub use say::{sentences, step};

/// The next step of the work, from what can be seen, the field book, the papers and what was done so far.
pub fn what_now(
    view: &View,
    book: &FieldBook,
    papers: &SitePapers<'_>,
    history: &History,
) -> Advice {
    let scene = Scene { view: view.at_eye_resolution(), raw: view, book, papers, history };
    if let Some(phases) = scene.papers.terms.phases {
        return lesson::next_step(&scene, phases).unwrap_or_else(signature);
    }
    let alone = scene.papers.work_order.is_check_alone();
    let over = alone || scene.refused() || scene.points_are_taken();
    let found = away(&scene)
        .or_else(|| thunder(&scene))
        .or_else(|| points::covered(&scene))
        .or_else(|| check::alone(&scene))
        .or_else(|| if over { None } else { work(&scene) })
        .or_else(|| check::of_own_line(&scene))
        .or_else(|| finish::restore(&scene))
        .or_else(|| finish::sums(&scene))
        .or_else(|| run::next_step(&scene))
        .or_else(|| finish::closed(&scene));
    found.unwrap_or_else(signature)
}

/// The last step of all.
fn signature() -> Advice {
    Advice { goal: Goal::Signed, deeds: vec![Deed::Do(Action::Sign)], rule: "book-signed" }
}

/// Why it is to be done: the rule that asks for it, with its source in brackets.
pub fn why(advice: &Advice) -> String {
    advice.reason().map_or_else(String::new, |rule| {
        format!("{}: {} ({})", rule.title, rule.why, source_words(rule.source))
    })
}

/// The work up to the last point.
fn work(scene: &Scene<'_>) -> Option<Advice> {
    arrive::next_step(scene)
        .or_else(|| mount::sampler(scene))
        .or_else(|| mount::manometer(scene))
        .or_else(|| plates::next_plate(scene))
        .or_else(|| points::start(scene))
        .or_else(|| points::next_point(scene))
}
