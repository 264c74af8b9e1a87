//! Simulated learners on the way through a lesson plan.

use std::io::Write;
use std::ops::Range;
use std::path::Path;

use rayon::iter::{IntoParallelIterator as _, ParallelIterator as _};
use serde_json::json;
use sessions::{FrontEndError, Outcome};
use sim_core::trial::learner::{
    Course, JobFigures, LearnerFigures, Material, PlanUse, learner_figures,
};

use crate::commands::json::print_object;
use crate::commands::plan_files::PlanAtHand;
use crate::commands::threads;

/// By how many marks learners have to be better after the plan than before it, and than without it
/// (CHOSEN).
const RISES: f64 = 10.0;

/// What is said of all of it.
const ABOUT: &str = "\
It shows that this plan, its next steps and its spacing do what they say: which habits they reach, and
when. It shows nothing about people. That a drill or a lesson takes a habit away, and that it comes
back unless it is practised, are rules that were chosen for this simulation.";

/// Runs the learners and reports.
///
/// # Errors
///
/// When the plan has problems, or a scenario of it cannot be worked.
pub fn run(
    path: &Path,
    seeds: Range<u64>,
    jobs: Option<u16>,
    as_json: bool,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let at_hand = PlanAtHand::read(path)?;
    let text_of = |file: &str| at_hand.text_of(file);
    let material = Material::new(&at_hand.plan, &text_of);
    if material.jobs().is_empty() {
        return Err(FrontEndError::Wrong(
            "the plan has no job and no sitting, so that there are no marks to compare: add one"
                .to_owned(),
        ));
    }
    let pool = threads::start(jobs)?;
    let mut figures = Vec::new();
    for used in PlanUse::ALL {
        let courses: Result<Vec<Course>, _> = pool.install(|| {
            let seeds = seeds.clone().into_par_iter();
            seeds.map(|seed| Course::of(&material, used, seed)).collect()
        });
        let courses = courses.map_err(|error| FrontEndError::Wrong(error.to_string()))?;
        figures.extend(learner_figures(used, &courses));
    }
    let rises = rises(&figures);
    if as_json {
        let addressed = material.addressed();
        let object = json!({
            "plan": at_hand.plan.title, "jobs": material.jobs(), "habits_addressed": addressed,
            "learners": figures, "marks_rise_with_the_plan_alone": rises, "about": ABOUT,
        });
        print_object(out, &object)?;
    } else {
        words(&at_hand, &material, &figures, out)?;
    }
    Ok(if rises { Outcome::Done } else { Outcome::Negative })
}

/// Whether the marks rise with the whole plan, and do not with its jobs alone.
fn rises(figures: &[LearnerFigures]) -> bool {
    let of = |used: PlanUse| figures.iter().find(|one| one.used == used);
    let (Some(whole), Some(alone)) = (of(PlanUse::Whole), of(PlanUse::JobsAlone)) else {
        return false;
    };
    let gain = |one: &LearnerFigures| one.after.marks - one.before.marks;
    gain(whole) >= RISES && gain(alone) < RISES && whole.after.marks >= alone.after.marks + RISES
}

fn words(
    at_hand: &PlanAtHand,
    material: &Material,
    figures: &[LearnerFigures],
    out: &mut dyn Write,
) -> Result<(), FrontEndError> {
    let Some(first) = figures.first() else { return Ok(()) };
    writeln!(
        out,
        "{}: {} simulated learners, who come with {:.1} habits on average.",
        sessions::printable(&at_hand.plan.title),
        first.learners,
        first.came_with
    )?;
    writeln!(out, "The plan addresses {} of 35 habits.\n", material.addressed().len())?;
    write!(out, "{:<44}", "marks of 100 (passed)")?;
    for one in figures {
        write!(out, " {:>29}", one.used.words())?;
    }
    writeln!(out)?;
    let mut row = |name: &str, of: &dyn Fn(&LearnerFigures) -> Option<JobFigures>| {
        write!(out, "{name:<44}")?;
        for one in figures {
            let text = of(one).map_or_else(
                || "–".to_owned(),
                |job| format!("{:.1} ({:.0} %)", job.marks, job.passed_pct),
            );
            write!(out, " {text:>29}")?;
        }
        writeln!(out)
    };
    row("before anything, the last job", &|one| Some(one.before))?;
    for (index, file) in material.jobs().into_iter().enumerate() {
        let title = at_hand.scenarios.get(file).map_or(file, |scenario| scenario.title.as_str());
        row(&format!("first try of: {title}"), &|one| one.jobs.get(index).copied())?;
    }
    row("after all, the last job", &|one| Some(one.after))?;
    row("two months later, the last job", &|one| Some(one.later))?;
    for (name, of) in [("habits left after all", 0), ("habits left two months later", 1)] {
        write!(out, "{name:<44}")?;
        for one in figures {
            let left = one.habits_left.get(of).copied().unwrap_or_default();
            write!(out, " {left:>29.1}")?;
        }
        writeln!(out)?;
    }
    write!(out, "{:<44}", "days")?;
    for one in figures {
        write!(out, " {:>29.1}", one.days)?;
    }
    writeln!(out, "\n\n{ABOUT}")?;
    Ok(())
}
